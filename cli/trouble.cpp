#include "trouble.hpp"

#include <fmt/format.h>

#include "complaints/nearest.hpp"
#include "report/page.hpp"

namespace idlepoint::cli {
namespace {

std::string printable(std::string text) {
  for (char& letter : text) {
    const auto code = static_cast<unsigned char>(letter);
    if (code < 0x20 || code == 0x7f) letter = '?';
  }
  return text;
}

}  // namespace

std::string render(const Trouble& trouble) {
  const report::Page page;
  std::string text = report::fold("idlepoint: " + printable(trouble.headline) + ".", page, 0, 2);
  if (trouble.instead.empty()) return text;
  const std::string instead = report::fold(printable(trouble.instead), page, 8, 8);
  return text + "\n  Do    " + instead.substr(8);
}

Trouble unknown_word(std::string_view headline,
                     std::string_view written,
                     std::string_view what_they_are,
                     const std::vector<std::string>& known) {
  const auto nearest = complaints::nearest_name(written, known);
  const std::string list = fmt::format("{} {}.", what_they_are, fmt::join(known, ", "));
  return {std::string(headline),
          nearest ? fmt::format("Nearest is `{}`. {}", *nearest, list) : list};
}

}  // namespace idlepoint::cli
