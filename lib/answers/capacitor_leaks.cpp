#include "answers/capacitor_leaks.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "answers/at_rail.hpp"
#include "answers/readings.hpp"
#include "solve/sensitivity.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Circuit;
using circuit::PartId;
using circuit::PartKind;

/// Stands across a capacitor so that its leakage has a slope; passes a femtoampere a volt itself.
constexpr double test_leak_ohm = 1e15;

std::vector<PartId> capacitors_of(const Circuit& circuit) {
  std::vector<PartId> found;
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    const circuit::Part& part = circuit.parts[index];
    const bool is_there = !part.damage.absent && !part.damage.is_link;
    if (part.kind != PartKind::capacitor || !is_there) continue;
    if (circuit::lead(part, 0) && circuit::lead(part, 1)) found.push_back({index});
  }
  return found;
}

/// The drawing with a leak across each of `capacitors`, behind its own parts.
Circuit with_test_leaks(const Circuit& circuit, const std::vector<PartId>& capacitors) {
  Circuit leaky = circuit;
  for (const PartId capacitor : capacitors) {
    circuit::Part leak;
    leak.name = "leak of " + circuit.at(capacitor).name;
    leak.leads = circuit.at(capacitor).leads;
    leak.value = test_leak_ohm;
    leak.details = circuit::ResistorDetails{};
    leaky.parts.push_back(std::move(leak));
  }
  return leaky;
}

/// [capacitors] [readings] slope of a reading by the leak's conductance, SI.
using Slopes = std::vector<std::vector<double>>;

std::optional<Slopes> slopes_by_leak(const Circuit& circuit,
                                     const solve::Conditions& conditions,
                                     const std::vector<PartId>& capacitors) {
  const Circuit leaky = with_test_leaks(circuit, capacitors);
  solve::StateFinder finder(leaky, conditions);
  const auto found = finder.find();
  const auto* rest = std::get_if<solve::Rest>(&found);
  if (rest == nullptr) return std::nullopt;
  std::vector<circuit::Probe> probes;
  for (const auto& reading : circuit.readings) probes.push_back(reading.probe);
  std::vector<circuit::Parameter> leaks;
  for (std::size_t k = 0; k < capacitors.size(); ++k) {
    leaks.push_back({PartId{circuit.parts.size() + k}, "value"});
  }
  const auto all = solve::sensitivities(leaky, finder, *rest, {probes, {}, leaks, false});
  if (!all) return std::nullopt;
  Slopes slopes(capacitors.size());
  for (std::size_t k = 0; k < capacitors.size(); ++k) {
    for (const auto& reading : all->readings) {
      slopes[k].push_back(-test_leak_ohm * test_leak_ohm * reading.by_parameter[k]);
    }
  }
  return slopes;
}

bool stands_between_rails(const Circuit& circuit, const solve::Conditions& conditions) {
  const OutermostRails rails = outermost_rails(circuit, conditions);
  return rails.low_v < 0.0 && rails.high_v > 0.0;
}

bool is_offset(const Circuit& circuit,
               const solve::Conditions& conditions,
               const circuit::Probe& probe) {
  const auto* volts = std::get_if<circuit::VoltsBetween>(&probe);
  const auto output = circuit::output_node(circuit);
  if (volts == nullptr || !output || !stands_between_rails(circuit, conditions)) return false;
  return (volts->a == *output && volts->b == circuit::ground) ||
         (volts->b == *output && volts->a == circuit::ground);
}

struct Shift {
  double size = 0.0;
  Matters why = Matters::share;
};

/// Without a look at the reading's limit.
Shift usual_shift(const Circuit& circuit,
                  const solve::Conditions& conditions,
                  const ReadingValue& reading) {
  if (reading.unit == ReadingUnit::celsius) return {warmth_that_matters_k, Matters::warmth};
  if (is_offset(circuit, conditions, reading.probe)) {
    return {offset_that_matters_v, Matters::offset};
  }
  const double share = share_that_matters * std::abs(reading.value);
  if (reading.unit != ReadingUnit::volt) return {share, Matters::share};
  const double meter = circuit.meter.floor_v + circuit.meter.error * std::abs(reading.value);
  return share < meter ? Shift{meter, Matters::meter} : Shift{share, Matters::share};
}

/// The same, or what is left to the limit on the side to which the leak moves the reading.
Shift shift_that_matters(const Shift& usual, const ReadingValue& reading, double slope) {
  if (!reading.limit || !reading.within_limit || !*reading.within_limit) return usual;
  const double end =
      in_own_unit(slope > 0.0 ? reading.limit->high : reading.limit->low, reading.unit);
  const double left = std::abs(end - reading.value);
  return left > 0.0 && left < usual.size ? Shift{left, Matters::limit} : usual;
}

LeakEffect effect_on(std::size_t index,
                     const ReadingValue& reading,
                     const Shift& usual,
                     double per_a) {
  const Shift shift = shift_that_matters(usual, reading, per_a);
  LeakEffect effect{index, per_a, shift.size, shift.why, {}};
  const double leakage_a = shift.size / std::abs(per_a);
  if (leakage_a <= most_leakage_a) effect.leakage_that_matters_a = leakage_a;
  return effect;
}

void find_first(LeakyCapacitor& capacitor) {
  for (std::size_t k = 0; k < capacitor.effects.size(); ++k) {
    const auto& leakage = capacitor.effects[k].leakage_that_matters_a;
    if (!leakage) continue;
    const auto least = leakage_that_matters_a(capacitor);
    if (!least || *leakage < *least) capacitor.first = k;
  }
}

}  // namespace

std::optional<double> leakage_that_matters_a(const LeakyCapacitor& capacitor) {
  if (!capacitor.first) return std::nullopt;
  return capacitor.effects[*capacitor.first].leakage_that_matters_a;
}

std::variant<CapacitorLeaks, solve::NotSettled, ThermalStory> ask_leaks(const Setup& setup) {
  auto outcome = solve::solve_stage(setup.stage, setup.conditions);
  if (auto* story = std::get_if<solve::NotSettled>(&outcome)) return std::move(*story);
  if (const auto* trouble = std::get_if<solve::ThermalTrouble>(&outcome)) {
    return tell_thermal(setup, setup.stage, *trouble);
  }
  const auto& state = std::get<solve::OperatingPoint>(outcome);
  const Circuit& circuit = *setup.stage;
  CapacitorLeaks answer{setup.stage, setup.conditions, read_all(setup.stage, state), {}};
  const std::vector<PartId> capacitors = capacitors_of(circuit);
  const auto slopes = slopes_by_leak(circuit, setup.conditions, capacitors);
  for (std::size_t k = 0; k < capacitors.size(); ++k) {
    const circuit::Part& part = circuit.at(capacitors[k]);
    LeakyCapacitor capacitor{capacitors[k]};
    capacitor.volts = state.voltage_v(*part.leads[0]) - state.voltage_v(*part.leads[1]);
    capacitor.can_leak = slopes && std::abs(capacitor.volts) >= least_leaking_v;
    for (std::size_t r = 0; capacitor.can_leak && r < answer.readings.size(); ++r) {
      const ReadingValue& reading = answer.readings[r];
      const double per_a = (*slopes)[k][r] / std::abs(capacitor.volts);
      const Shift usual = usual_shift(circuit, setup.conditions, reading);
      capacitor.effects.push_back(effect_on(r, reading, usual, per_a));
    }
    find_first(capacitor);
    answer.capacitors.push_back(std::move(capacitor));
  }
  answer.changes = setup.changes;
  answer.warnings = standing_warnings(setup);
  for (auto& text : state_warnings(circuit, state)) answer.warnings.push_back(std::move(text));
  return answer;
}

}  // namespace idlepoint::answers
