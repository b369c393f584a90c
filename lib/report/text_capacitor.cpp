#include "report/text_capacitor.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "report/capacitor_words.hpp"
#include "report/figures.hpp"
#include "report/words.hpp"
#include "values/format.hpp"

namespace idlepoint::report {
namespace {

using answers::CapacitorLeaks;
using answers::CapacitorVerdict;
using answers::LeakyCapacitor;
using answers::TestedCapacitor;

constexpr double microampere = 1e-6;

// A shift far smaller than a meter shows still has figures here.
std::string fine(double value, answers::ReadingUnit unit) {
  const std::string sign = value < 0.0 ? "-" : "+";
  const double size = std::abs(value);
  switch (unit) {
    case answers::ReadingUnit::volt:
      return sign + values::format_value(size, values::Unit::volt, 2);
    case answers::ReadingUnit::ampere:
      return sign + values::format_value(size, values::Unit::ampere, 2);
    case answers::ReadingUnit::watt:
      return sign + values::format_value(size, values::Unit::watt, 2);
    case answers::ReadingUnit::celsius:
      break;
  }
  return sign + values::format_value(size, values::Unit::kelvin, 2);
}

// Cells of a column that reads better flush left.
void flush_left(std::vector<TableRow>& rows, std::size_t column) {
  std::size_t width = 0;
  for (const TableRow& row : rows) width = std::max(width, width_of(row[column]));
  for (TableRow& row : rows) row[column] = padded_right(row[column], width);
}

std::string between(const CapacitorLeaks& leaks, const LeakyCapacitor& capacitor) {
  const circuit::Part& part = leaks.stage->at(capacitor.part);
  return circuit::node_in_words(*leaks.stage, *part.leads[0]) + " to " +
         circuit::node_in_words(*leaks.stage, *part.leads[1]);
}

std::string rule_text(const CapacitorLeaks& leaks, const Page& page) {
  const bool warm = leaks.conditions.heat == solve::HeatState::warm;
  return fold(fmt::format("Leakage begins to matter where it moves the output's offset by 50 mV, "
                          "another reading by a twentieth (a temperature by 5 K) or by what the "
                          "meter can tell, or any reading to its limit. In proportion, from the "
                          "readings {}.{}",
                          warm ? "warmed through" : "just switched on",
                          leaks.stage->signal.input ? " The input is taken at 0 V, as a source "
                                                      "holds it."
                                                    : ""),
              page);
}

std::string effects_table(const CapacitorLeaks& leaks, const LeakyCapacitor& capacitor) {
  std::vector<TableRow> rows = {{"", "now", "1 uA moves it", "matters at", "for"}};
  for (const auto& effect : capacitor.effects) {
    const auto& reading = leaks.readings[effect.reading];
    const bool matters = effect.leakage_that_matters_a.has_value();
    rows.push_back({reading.name,
                    figure(reading.value, reading.unit),
                    fine(effect.per_a * microampere, reading.unit),
                    leakage_in_words(effect.leakage_that_matters_a),
                    matters ? why_it_matters(leaks, effect) : ""});
  }
  flush_left(rows, 4);
  return table_of(rows);
}

std::string measured_sentence(const CapacitorLeaks& leaks,
                              const LeakyCapacitor& capacitor,
                              double measured_a,
                              const Page& page) {
  const auto matters = answers::leakage_that_matters_a(capacitor);
  const std::string leakage = values::format_value(measured_a, values::Unit::ampere, 2);
  if (!matters) {
    return fold(fmt::format("The {} that was measured does nothing here.", leakage), page);
  }
  const auto& effect = capacitor.effects[*capacitor.first];
  const auto& reading = leaks.readings[effect.reading];
  return fold(fmt::format("The {} that was measured moves `{}` by {}: {}.",
                          leakage,
                          reading.name,
                          fine(effect.per_a * measured_a, reading.unit),
                          measured_a < *matters ? "it does not matter here" : "it matters here"),
              page);
}

// The leak that carries what begins to matter; none where nothing does.
std::optional<double> leak_that_matters_ohm(const LeakyCapacitor& capacitor) {
  const auto leakage_a = answers::leakage_that_matters_a(capacitor);
  if (!leakage_a) return std::nullopt;
  return std::abs(capacitor.volts) / *leakage_a;
}

// The place that bears the least leak first: the most ohms. Then those that never matter, those
// that cannot leak.
std::vector<std::size_t> by_sensitivity(const CapacitorLeaks& leaks) {
  std::vector<std::size_t> order(leaks.capacitors.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto rank = [&](std::size_t k) {
    const LeakyCapacitor& one = leaks.capacitors[k];
    return one.can_leak ? leak_that_matters_ohm(one).value_or(0.0) : -1.0;
  };
  std::stable_sort(order.begin(), order.end(), [&](std::size_t one, std::size_t other) {
    return rank(one) > rank(other);
  });
  return order;
}

std::string list_text(const CapacitorLeaks& leaks) {
  std::vector<TableRow> rows = {
      {"", "between", "across it", "matters at", "a leak of", "shown by"}};
  for (const std::size_t k : by_sensitivity(leaks)) {
    const LeakyCapacitor& one = leaks.capacitors[k];
    TableRow row = {leaks.stage->at(one.part).name, between(leaks, one), volts(one.volts)};
    if (!one.can_leak) {
      row.insert(row.end(), {"cannot leak", "", ""});
    } else {
      const auto leak_ohm = leak_that_matters_ohm(one);
      row.push_back(leakage_in_words(answers::leakage_that_matters_a(one)));
      row.push_back(leak_ohm ? values::format_ohms(*leak_ohm, 2) : "");
      row.push_back(one.first ? leaks.readings[one.effects[*one.first].reading].name + ", " +
                                    why_it_matters(leaks, one.effects[*one.first])
                              : "");
    }
    rows.push_back(std::move(row));
  }
  flush_left(rows, 1);
  flush_left(rows, 5);
  return table_of(rows);
}

std::string no_volts(const CapacitorLeaks& leaks, const Page& page) {
  const bool any = std::any_of(leaks.capacitors.begin(),
                               leaks.capacitors.end(),
                               [](const LeakyCapacitor& one) { return !one.can_leak; });
  if (!any) return {};
  return fold("Cannot leak: no volts to speak of stand across it here.", page);
}

}  // namespace

std::string verdict_text(const std::string& name,
                         const CapacitorVerdict& verdict,
                         const std::optional<circuit::Scope>& scope,
                         const Page& page) {
  const std::string what = (name.empty() ? "" : name + ", ") + printed_on(verdict.figures);
  if (verdict.limits.empty()) {
    std::string text = fold(what + ": nothing could be judged.", page);
    for (const auto& sentence : what_is_not_shown(verdict)) text += fold(sentence, page);
    return text;
  }
  std::string text = fold(what + ": " + (verdict.keep ? "KEEP." : "REPLACE."), page);
  text += fold(recommended(verdict, scope), page) + "\n";
  std::vector<TableRow> rows;
  for (const auto& limit : verdict.limits) {
    rows.push_back({quantity_in_words(limit.what),
                    measured_in_words(limit, verdict.figures),
                    limit_in_words(limit, verdict.figures),
                    limit.ok ? "within" : "BEYOND"});
  }
  text += table_of(rows) + "\n";
  for (const auto& sentence : what_is_not_shown(verdict)) text += fold(sentence, page);
  return text + fold(where_limits_come_from(verdict.figures), page);
}

std::string place_text(const CapacitorLeaks& leaks,
                       std::size_t capacitor,
                       const std::optional<double>& measured_a,
                       const Page& page) {
  const LeakyCapacitor& one = leaks.capacitors[capacitor];
  const std::string where = fmt::format("{} stands from {} with {} across it",
                                        leaks.stage->at(one.part).name,
                                        between(leaks, one),
                                        volts(std::abs(one.volts)));
  if (!one.can_leak) {
    return fold(where + ": it cannot leak here, whatever it does on a tester.", page);
  }
  std::string text = fold(where + ". If it leaks:", page) + effects_table(leaks, one);
  if (measured_a) text += measured_sentence(leaks, one, *measured_a, page);
  return text;
}

std::string text_of(const CapacitorLeaks& leaks, const Page& page) {
  std::string text = opening(*leaks.stage, leaks.conditions, leaks.changes, page);
  if (leaks.capacitors.empty()) return text + fold("It draws no capacitor.", page);
  text += "How much leakage of each capacitor would matter; the place that bears least first.\n\n";
  return text + list_text(leaks) + "\n" + no_volts(leaks, page) + rule_text(leaks, page) +
         warnings_list(leaks.warnings, page);
}

std::string text_of(const CapacitorLeaks& leaks, const TestedCapacitor& tested, const Page& page) {
  std::string text;
  std::optional<double> measured_a;
  if (tested.verdict) {
    text = verdict_text(tested.name, *tested.verdict, {}, page) + "\n";
    measured_a = tested.verdict->figures.leakage_a;
  }
  text += opening(*leaks.stage, leaks.conditions, leaks.changes, page);
  if (tested.place) text += place_text(leaks, *tested.place, measured_a, page);
  return text + rule_text(leaks, page) + warnings_list(leaks.warnings, page);
}

std::string channel_text(const circuit::Channel& channel,
                         const CapacitorLeaks* leaks,
                         const std::vector<TestedCapacitor>& tested,
                         const std::optional<circuit::Scope>& scope,
                         const Page& page) {
  std::string text;
  if (!channel.name.empty()) text += fold("Channel " + channel.name + ".", page);
  if (tested.empty()) return text + fold("No capacitor was tested.", page);
  for (const TestedCapacitor& one : tested) {
    if (&one != tested.data()) text += "\n";
    if (!one.verdict) {
      text += fold(one.name +
                       ": the drawing does not show it. Write `value=` and `voltage=`, as "
                       "printed on it, into its line of the job.",
                   page);
      continue;
    }
    text += verdict_text(one.name, *one.verdict, scope, page);
    if (leaks == nullptr || !one.place) continue;
    text += place_text(*leaks, *one.place, one.verdict->figures.leakage_a, page);
  }
  return leaks == nullptr ? text : text + "\n" + rule_text(*leaks, page);
}

}  // namespace idlepoint::report
