#include "report/text_shelf.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/shelf_words.hpp"
#include "report/swap_words.hpp"
#include "report/words.hpp"

namespace idlepoint::report {
namespace {

using answers::Shelf;
using answers::Verdict;

std::string section(const Shelf& shelf, Verdict verdict, const Page& page) {
  constexpr std::size_t least_width = 8;
  std::size_t widest = least_width;
  for (const auto& candidate : shelf.candidates) {
    widest = std::max(widest, width_of(shelf.stage->at(candidate.type).name));
  }
  const std::size_t indent = widest + 4;
  std::string text;
  for (const auto& candidate : shelf.candidates) {
    if (candidate.verdict != verdict) continue;
    const std::string reason = fold(reason_of(shelf, candidate), page, indent, indent);
    text += "  " + padded_right(shelf.stage->at(candidate.type).name, widest) +
            reason.substr(widest + 2);
  }
  if (text.empty()) return {};
  return "\n" + emphasised(in_capitals(word(verdict)), page) + "\n" + text;
}

bool is_stack(const circuit::Part& part) {
  const auto* diode = std::get_if<circuit::DiodeDetails>(&part.details);
  return diode != nullptr && diode->junctions > 1;
}

// Single diodes are another answer than types.
std::string stack_line(const Shelf& shelf, const Page& page) {
  const auto& part = shelf.stage->at(shelf.part);
  if (!is_stack(part)) return {};
  const int junctions = std::get<circuit::DiodeDetails>(part.details).junctions;
  return fold(
      fmt::format("Each is tried with the {} junctions that {} has. One diode is not a stack: for "
                  "single diodes ask `swap` with \"{}={} TYPE + 10R\".",
                  junctions,
                  part.name,
                  part.name,
                  junctions),
      page);
}

std::string question(const Shelf& shelf) {
  const auto& part = shelf.stage->at(shelf.part);
  return fmt::format("For {}, {} and now {}: {} of the shelf and of the file tried in its place.",
                     part.name,
                     circuit::keyword(part.kind),
                     is_stack(part) ? "a stack of " + shelf.stage->at(*part.type).name
                                    : shelf.stage->at(*part.type).name,
                     shelf.candidates.size() == 1
                         ? std::string("one type")
                         : fmt::format("{} types", shelf.candidates.size()));
}

}  // namespace

std::string text_of(const Shelf& shelf, const Page& page) {
  const auto& circuit = *shelf.stage;
  std::string text = opening(circuit, shelf.conditions, shelf.changes, page);
  text += "\n" + fold(question(shelf), page) + stack_line(shelf, page);
  if (shelf.candidates.empty()) {
    text +=
        "\n" + fold(
                   "Neither the shelf nor the file has another type of that kind. Make one with "
                   "`fit` from a sheet or a tester, in a types file of your own.",
                   page);
    return text + "\n" + standing_caution(circuit, page);
  }
  for (const auto verdict : {Verdict::suitable, Verdict::with_care, Verdict::unsuitable}) {
    text += section(shelf, verdict, page);
  }
  text += "\n" + fold(
                     "Best first: those of like speed, then those with more in hand. Only this one "
                     "part was changed; `swap` shows the whole of it, both halves together.",
                     page);
  const std::string warnings = warnings_list(shelf.warnings, page);
  if (!warnings.empty()) text += "\n" + warnings;
  return text + "\n" + standing_caution(circuit, page);
}

}  // namespace idlepoint::report
