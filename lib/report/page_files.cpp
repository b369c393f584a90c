#include "report/page_files.hpp"

#include <cstddef>

// The assembler copies the files, so that no compiler has to read a third of a megabyte as a
// string. NOLINTNEXTLINE(cppcoreguidelines-macro-usage): an asm takes nothing but a literal
#define IDLEPOINT_EMBED(name, files)                       \
  asm(".section .rodata\n"                                 \
      ".global " name                                      \
      "_begin\n"                                           \
      ".global " name "_end\n" name "_begin:\n" files name \
      "_end:\n"                                            \
      ".byte 0\n"                                          \
      ".text\n")

IDLEPOINT_EMBED("idlepoint_page", ".incbin \"" IDLEPOINT_PAGE "\"\n");
IDLEPOINT_EMBED("idlepoint_style",
                ".incbin \"" IDLEPOINT_PAGE_DIR
                "/base.css\"\n"
                ".incbin \"" IDLEPOINT_PAGE_DIR "/writeup.css\"\n");

extern "C" {
extern const char idlepoint_page_begin[];   // NOLINT(modernize-avoid-c-arrays)
extern const char idlepoint_page_end[];     // NOLINT(modernize-avoid-c-arrays)
extern const char idlepoint_style_begin[];  // NOLINT(modernize-avoid-c-arrays)
extern const char idlepoint_style_end[];    // NOLINT(modernize-avoid-c-arrays)
}

namespace idlepoint::report {
namespace {

std::string_view between(const char* begin, const char* end) noexcept {
  return {begin, static_cast<std::size_t>(end - begin)};
}

}  // namespace

std::string_view page_of_the_sheet() noexcept {
  return between(idlepoint_page_begin, idlepoint_page_end);
}

std::string_view style_of_the_writeup() noexcept {
  return between(idlepoint_style_begin, idlepoint_style_end);
}

}  // namespace idlepoint::report
