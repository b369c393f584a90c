#include "report/writeup_style.hpp"

// The assembler copies the file as it is; a plain style sheet needs no escaping.
asm(".section .rodata\n"
    ".global idlepoint_writeup_style_begin\n"
    ".global idlepoint_writeup_style_end\n"
    "idlepoint_writeup_style_begin:\n"
    ".incbin \"" IDLEPOINT_WRITEUP_STYLE
    "\"\n"
    "idlepoint_writeup_style_end:\n"
    ".byte 0\n"
    ".text\n");

extern "C" {
extern const char idlepoint_writeup_style_begin[];  // NOLINT(modernize-avoid-c-arrays)
extern const char idlepoint_writeup_style_end[];    // NOLINT(modernize-avoid-c-arrays)
}

namespace idlepoint::report {

std::string_view style_of_the_writeup() noexcept {
  const auto size =
      static_cast<std::size_t>(idlepoint_writeup_style_end - idlepoint_writeup_style_begin);
  return {idlepoint_writeup_style_begin, size};
}

}  // namespace idlepoint::report
