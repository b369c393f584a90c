#include "report/sheet_page.hpp"

// The assembler copies the file, so that no compiler has to read a third of a megabyte as a string.
asm(".section .rodata\n"
    ".global idlepoint_page_begin\n"
    ".global idlepoint_page_end\n"
    "idlepoint_page_begin:\n"
    ".incbin \"" IDLEPOINT_PAGE
    "\"\n"
    "idlepoint_page_end:\n"
    ".byte 0\n"
    ".text\n");

extern "C" {
extern const char idlepoint_page_begin[];  // NOLINT(modernize-avoid-c-arrays)
extern const char idlepoint_page_end[];    // NOLINT(modernize-avoid-c-arrays)
}

namespace idlepoint::report {

std::string_view page_of_the_sheet() noexcept {
  const auto size = static_cast<std::size_t>(idlepoint_page_end - idlepoint_page_begin);
  return {idlepoint_page_begin, size};
}

}  // namespace idlepoint::report
