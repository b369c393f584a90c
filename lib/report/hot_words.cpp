#include "report/hot_words.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/figures.hpp"
#include "values/format.hpp"

namespace idlepoint::report {
namespace {

using answers::HotPart;

// Watts beside a rating in watts: two figures.
std::string two_figures(double watts) {
  return watts < 9.95 ? fmt::format("{:#.2g} W", watts) : fmt::format("{:.0f} W", watts);
}

std::string rating_in_words(const circuit::Part& part, double rating_w) {
  if (part.kind == circuit::PartKind::resistor) return fmt::format("of its {:g} W", rating_w);
  return fmt::format("of the {} that it may have as warm as it is", two_figures(rating_w));
}

std::string remedy(const HotPart& hot) {
  if (!hot.suggested_w) return ".";
  return hot.power_w > hot.rating_w ? fmt::format(": fit one of {:g} W.", *hot.suggested_w)
                                    : fmt::format(". One of {:g} W would last.", *hot.suggested_w);
}

std::string line_of(const circuit::Circuit& circuit, const HotPart& hot) {
  const circuit::Part& part = circuit.at(hot.part);
  return fmt::format("{} takes {} {} {}{}",
                     part.name,
                     two_figures(hot.power_w),
                     rating_in_words(part, hot.rating_w),
                     hot.is_played_loud ? "when played loud" : "at rest",
                     remedy(hot));
}

std::string what_loud_means(const circuit::Circuit& circuit, const answers::FullOutput& full) {
  return fmt::format(
      "Played loud: one long sine as large as the rails allow, {} peak into {} of {}; a transistor "
      "at the level that heats it most, its heat sink as warm as at rest. Music asks for a third "
      "of "
      "that or less.",
      volts(full.peak_v),
      values::format_value(full.load_ohm, values::Unit::ohm),
      circuit.at(full.load).name);
}

}  // namespace

std::string hot_section(const circuit::Circuit& circuit,
                        const answers::HotList& hot,
                        const Page& page) {
  if (hot.parts.empty()) return {};
  std::string text = "What runs hot:\n";
  for (const HotPart& part : hot.parts) {
    const std::string line = line_of(circuit, part);
    text += fold(part.power_w > part.rating_w ? emphasised(line, page) : line, page, 2, 4);
  }
  const bool any_loud = std::any_of(
      hot.parts.begin(), hot.parts.end(), [](const HotPart& part) { return part.is_played_loud; });
  if (any_loud && hot.full_output) text += fold(what_loud_means(circuit, *hot.full_output), page);
  return text;
}

}  // namespace idlepoint::report
