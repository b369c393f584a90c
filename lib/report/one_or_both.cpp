#include "report/one_or_both.hpp"

#include <fmt/format.h>

#include <cmath>
#include <optional>
#include <set>
#include <utility>

#include "answers/emitter_resistors.hpp"
#include "report/figures.hpp"
#include "values/format.hpp"

namespace idlepoint::report {
namespace {

using answers::ResistorsRead;
using circuit::Circuit;

std::optional<ResistorsRead> resistors_of(const Circuit& circuit, const circuit::Probe& probe) {
  const auto* points = std::get_if<circuit::VoltsBetween>(&probe);
  if (points == nullptr) return std::nullopt;
  return answers::resistors_read(circuit, *points);
}

double volts_across(const Circuit& circuit,
                    const solve::OperatingPoint& state,
                    circuit::PartId resistor) {
  const auto& leads = circuit.at(resistor).leads;
  return std::abs(state.voltage_v(*leads[0]) - state.voltage_v(*leads[1]));
}

std::string amps_in(const solve::OperatingPoint& state, circuit::PartId resistor) {
  return amps(std::abs(state.part(resistor).lead_current_a.front()));
}

std::string across_both(const Circuit& circuit,
                        const solve::OperatingPoint& state,
                        const std::string& reading,
                        const ResistorsRead& found) {
  const auto& first = circuit.at(found.first);
  const auto& second = circuit.at(*found.second);
  return fmt::format(
      "`{}` is across both {} ({}) and {} ({}): {} on {} alone, which means {} in it.",
      reading,
      first.name,
      values::format_ohms(first.value),
      second.name,
      values::format_ohms(second.value),
      volts(volts_across(circuit, state, found.first)),
      first.name,
      amps_in(state, found.first));
}

std::string across_one(const Circuit& circuit,
                       const solve::OperatingPoint& state,
                       const std::string& reading,
                       const ResistorsRead& found) {
  const auto& first = circuit.at(found.first);
  return fmt::format("`{}` is across one {} ({}): {} there means {} in it.",
                     reading,
                     values::format_ohms(first.value),
                     first.name,
                     volts(volts_across(circuit, state, found.first)),
                     amps_in(state, found.first));
}

std::string about_both(const Circuit& circuit,
                       const solve::OperatingPoint& state,
                       const ResistorsRead& found) {
  const auto& first = circuit.at(found.first);
  const auto& opposite = circuit.at(*found.opposite);
  if (!found.shares_joint) {
    return fmt::format(
        " There is no \"both\" here: {} and {} share no joint. Read each on its own.",
        first.name,
        opposite.name);
  }
  const double both_v =
      volts_across(circuit, state, found.first) + volts_across(circuit, state, *found.opposite);
  return fmt::format(
      " Across both, {} and {}, the meter shows {}.", first.name, opposite.name, volts(both_v));
}

using Pair = std::pair<circuit::PartId, circuit::PartId>;

Pair sorted_pair(circuit::PartId one, circuit::PartId other) {
  return one < other ? Pair{one, other} : Pair{other, one};
}

}  // namespace

std::string resistors_in_brackets(const Circuit& circuit, const circuit::Probe& probe) {
  const auto found = resistors_of(circuit, probe);
  if (!found || !found->is_emitter_resistor) return {};
  const auto& first = circuit.at(found->first).name;
  if (!found->second) return "(" + first + ")";
  return fmt::format("({} and {})", first, circuit.at(*found->second).name);
}

std::vector<std::string> one_or_both(const Circuit& circuit,
                                     const solve::OperatingPoint& state,
                                     const std::vector<answers::ReadingValue>& readings) {
  std::vector<std::string> sentences;
  std::set<Pair> said;
  for (const auto& reading : readings) {
    const auto found = resistors_of(circuit, reading.probe);
    if (!found || !found->is_emitter_resistor) continue;
    if (reading.with_parts_out == answers::WithPartsOut::reads_nothing) continue;
    if (found->second) {
      sentences.push_back(across_both(circuit, state, reading.name, *found));
      continue;
    }
    sentences.push_back(across_one(circuit, state, reading.name, *found));
    if (found->opposite && said.insert(sorted_pair(found->first, *found->opposite)).second) {
      sentences.back() += about_both(circuit, state, *found);
    }
  }
  return sentences;
}

}  // namespace idlepoint::report
