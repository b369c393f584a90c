#include "language/statement_table.hpp"

#include <algorithm>
#include <array>

#include "language/job_statements.hpp"

namespace idlepoint::language {
namespace {

constexpr auto table = std::to_array<StatementFacts>({
    {"stage", Step::things, read_title},
    {"ambient", Step::things, read_ambient},
    {"meter", Step::things, read_meter},
    {"heatsink", Step::things, read_heatsink},
    {"type", Step::things, read_type},
    {"types", Step::gathered, nullptr},
    {"based_on", Step::gathered, nullptr},
    {"change", Step::gathered, nullptr},
    {"rail", Step::parts, read_rail},
    {"resistor", Step::parts, read_resistor},
    {"trimmer", Step::parts, read_trimmer},
    {"capacitor", Step::parts, read_capacitor},
    {"inductor", Step::parts, read_inductor},
    {"fuse", Step::parts, read_fuse},
    {"link", Step::parts, read_link},
    {"lamp", Step::parts, read_lamp},
    {"thermistor", Step::parts, read_thermistor},
    {"hold", Step::parts, read_hold},
    {"feed", Step::parts, read_feed},
    {"load", Step::parts, read_load},
    {"diode", Step::parts, read_diode},
    {"npn", Step::parts, read_transistor},
    {"pnp", Step::parts, read_transistor},
    {"n-jfet", Step::parts, read_transistor},
    {"p-jfet", Step::parts, read_transistor},
    {"n-mosfet", Step::parts, read_transistor},
    {"p-mosfet", Step::parts, read_transistor},
    {"signal", Step::remarks, read_signal},
    {"socket", Step::remarks, read_socket},
    {"reading", Step::remarks, read_reading},
    {"printed", Step::remarks, read_printed},
    {"matched", Step::remarks, read_matched},
    {"mounted", Step::remarks, read_mounted},
    {"limit", Step::targets, read_limit},
    {"adjust", Step::targets, read_adjust},
});

}  // namespace

std::span<const StatementFacts> all_statements() noexcept { return table; }

const StatementFacts* find_statement(std::string_view keyword) noexcept {
  const auto found = std::find_if(table.begin(), table.end(), [keyword](const auto& facts) {
    return facts.keyword == keyword;
  });
  return found == table.end() ? nullptr : &*found;
}

void complain_of_unknown_statement(Draft& draft, const Statement& statement) {
  static const std::vector<std::string> keywords = [] {
    std::vector<std::string> names;
    for (const StatementFacts& facts : table) names.emplace_back(facts.keyword);
    return names;
  }();
  for (const Word& word : statement.words) draft.forgiven.insert(word.text);
  for (const Pair& pair : statement.pairs) draft.forgiven.insert(pair.value.text);
  const Word& keyword = statement.keyword();
  if (find_job_statement(keyword.text) != nullptr) {
    complain(draft,
             "statement-not-here",
             keyword,
             quote(keyword.text) + " belongs in a job file",
             "A stage file says what the schematic shows; a job file what was found on the bench.",
             "Move it to the job file.");
    return;
  }
  std::string instead = nearest_among(draft, keyword.text, keywords);
  if (instead.empty()) {
    instead =
        "A statement begins with a word such as `resistor`, `npn`, `rail` or `reading`; "
        "docs/language.md lists them.";
  }
  complain(
      draft, "unknown-statement", keyword, quote(keyword.text) + " is no statement", "", instead);
}

}  // namespace idlepoint::language
