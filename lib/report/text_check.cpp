#include "report/text_check.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/figures.hpp"
#include "report/legs_table.hpp"
#include "report/thermal_words.hpp"
#include "report/words.hpp"
#include "values/format.hpp"

namespace idlepoint::report {
namespace {

using answers::Check;
using answers::PrintedComparison;

bool is_blank(const complaints::Complaint& complaint) {
  return complaints::facts(complaint.kind).name == "blank";
}

std::string verdict(const Check& answer) {
  const auto beside = complaints_beside(answer);
  const auto errors = static_cast<std::size_t>(
      std::count_if(beside.begin(), beside.end(), [](const complaints::Complaint& complaint) {
        return complaints::facts(complaint.kind).gravity != complaints::Gravity::warning;
      }));
  const std::size_t warnings = beside.size() - errors;
  if (errors > 0) {
    return fmt::format("The drawing cannot be right: {} and {}. Nothing was calculated.",
                       count_in_words(errors, "error"),
                       count_in_words(warnings, "warning"));
  }
  std::string text = fmt::format("{} and {} points: the drawing holds together",
                                 count_in_words(answer.circuit.parts.size(), "part"),
                                 answer.circuit.nodes.size());
  return text + (warnings == 0 ? "." : ", with " + count_in_words(warnings, "warning") + ".");
}

std::string blanks_section(const Check& answer, const Page& page) {
  const auto& blanks = answer.circuit.blanks;
  if (blanks.empty()) return {};
  std::string text = fmt::format(
      "\nStill blank ({}); nothing is calculated until they are filled in:\n", blanks.size());
  for (const auto& blank : blanks) {
    text += fold(fmt::format("line {}: {}", blank.place.line, blank.text), page, 2, 4);
  }
  return text;
}

std::string comparison_line(const PrintedComparison& one,
                            std::size_t text_width,
                            std::size_t volts_width,
                            const Page& page) {
  const std::string off =
      "off by " + volts(one.off_v) + (one.agrees_with_all_parts ? ", right with all parts in" : "");
  return fmt::format(
      "  {}   printed {}   calculated {}   {}\n",
      padded_right(one.text, text_width),
      padded_left(values::format_value(one.printed_v, values::Unit::volt), volts_width),
      padded_left(volts(one.calculated_v), volts_width),
      one.disagrees ? emphasised(off + ", disagrees", page) : off);
}

std::string printed_section(const Check& answer, const Page& page) {
  if (answer.printed.empty()) return {};
  std::size_t text_width = 0;
  std::size_t volts_width = 0;
  for (const auto& one : answer.printed) {
    text_width = std::max(text_width, width_of(one.text));
    volts_width = std::max({volts_width,
                            width_of(values::format_value(one.printed_v, values::Unit::volt)),
                            width_of(volts(one.calculated_v))});
  }
  const bool all_agree =
      std::none_of(answer.printed.begin(), answer.printed.end(), [](const auto& one) {
        return one.disagrees || one.agrees_with_all_parts;
      });
  std::string text =
      fmt::format("\nPrinted on the service sheet, against calculated; the worst first.{}\n",
                  all_agree ? " All agree to 10 % or 50 mV." : "");
  for (const auto& one : answer.printed) {
    text += comparison_line(one, text_width, volts_width, page);
  }
  return text;
}

std::string legs_section(const Check& answer, const Page& page) {
  if (!answer.state) return {};
  const std::string table = legs_table(answer.circuit, *answer.state);
  if (table.empty()) return {};
  const bool is_warm = answer.state->conditions().heat == solve::HeatState::warm;
  return "\n" +
         fold(fmt::format("Calculated volts to gnd at the legs, {}, to tick against the sheet:",
                          is_warm ? "warmed through" : "just switched on"),
              page) +
         table;
}

}  // namespace

complaints::Complaints complaints_beside(const Check& answer) {
  complaints::Complaints beside;
  std::remove_copy_if(
      answer.complaints.begin(), answer.complaints.end(), std::back_inserter(beside), is_blank);
  return beside;
}

std::string text_of(const Check& answer, const Page& page) {
  const auto& circuit = answer.circuit;
  std::string text = answer.state
                         ? opening(circuit, answer.state->conditions(), answer.changes, page)
                         : fold((circuit.title.empty() ? circuit.file : circuit.title) + ".", page);
  text += fold(verdict(answer), page) + blanks_section(answer, page);
  if (!answer.state) return text;
  text += trimmers_line(circuit, page);
  if (answer.trouble) text += "\n" + trouble_section(*answer.trouble, page);
  text += printed_section(answer, page) + legs_section(answer, page);
  const std::string warnings = warnings_list(answer.warnings, page);
  if (!warnings.empty()) text += "\n" + warnings;
  return text;
}

}  // namespace idlepoint::report
