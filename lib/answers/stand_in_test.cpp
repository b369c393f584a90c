#include "answers/stand_in_test.hpp"

#include <cmath>
#include <span>
#include <utility>
#include <vector>

#include "answers/alone.hpp"
#include "solve/sensitivity.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Circuit;
using circuit::HeatsinkId;
using circuit::PartId;

circuit::VoltsBetween points_of(const circuit::Part& part, std::size_t high) {
  return {*circuit::lead(part, high), *circuit::lead(part, 1 - high)};
}

struct Tested {
  double volts;
  double volts_per_k;
};

std::optional<Tested> test(const circuit::CheckedCircuit& stage,
                           std::span<const PartId> parts,
                           const circuit::VoltsBetween& points,
                           const TestCurrent& current) {
  constexpr double step_k = 0.5;
  const auto volts = volts_alone(stage, parts, points, current);
  const auto warmer =
      volts_alone(stage, parts, points, {current.amps, current.temperature_k + step_k});
  const auto cooler =
      volts_alone(stage, parts, points, {current.amps, current.temperature_k - step_k});
  if (!volts || !warmer || !cooler) return std::nullopt;
  return Tested{*volts, (*warmer - *cooler) / (2.0 * step_k)};
}

/// The sink that takes the most power.
std::optional<HeatsinkId> main_sink(const Circuit& circuit, const solve::OperatingPoint& state) {
  std::optional<HeatsinkId> hottest;
  for (std::size_t index = 0; index < circuit.heatsinks.size(); ++index) {
    const HeatsinkId id{index};
    if (!hottest || state.heatsink(id).power_w > state.heatsink(*hottest).power_w) hottest = id;
  }
  return hottest;
}

double coupling_to(const circuit::Part& part, HeatsinkId sink) {
  const bool is_there = part.mounting.heatsink == sink && !part.damage.loose;
  return is_there ? part.mounting.coupling : 0.0;
}

/// The stage with an ideal voltage in the old part's place: by its volts the place is judged.
circuit::CheckedCircuit with_held_place(const circuit::CheckedCircuit& stage,
                                        PartId old_part,
                                        const circuit::VoltsBetween& points,
                                        double volts) {
  return stage.edited([&](Circuit& circuit) {
    circuit.at(old_part).damage.absent = true;
    circuit::Part hold;
    hold.name = "bench hold";
    hold.kind = circuit::PartKind::hold;
    hold.leads = {points.a, points.b};
    hold.value = volts;
    circuit.parts.push_back(std::move(hold));
  });
}

double warmed_by_sink(const Circuit& circuit, const solve::Sensitivity& slopes, HeatsinkId sink) {
  double per_k = 0.0;
  for (std::size_t index = 0; index < slopes.by_temperature.size(); ++index) {
    per_k += coupling_to(circuit.parts[index], sink) * slopes.by_temperature[index];
  }
  return per_k;
}

/// By the adjusted reading that answers most to the place, counted in its own `within`.
std::optional<double> needed_v_per_k(const circuit::CheckedCircuit& held,
                                     solve::Conditions conditions,
                                     HeatsinkId sink) {
  conditions.heat = solve::HeatState::cold;
  solve::StateFinder finder(*held, conditions);
  const auto outcome = finder.find();
  const auto* rest = std::get_if<solve::Rest>(&outcome);
  if (rest == nullptr) return std::nullopt;
  std::vector<circuit::Probe> probes;
  for (const auto& adjustment : held->adjustments) {
    probes.push_back(held->at(adjustment.reading).probe);
  }
  const std::vector<circuit::Parameter> place = {{PartId{held->parts.size() - 1}, "value"}};
  const auto slopes = solve::sensitivities(*held, finder, *rest, {probes, {}, place});
  if (!slopes) return std::nullopt;
  std::optional<double> needed;
  double strongest = 0.0;
  for (std::size_t index = 0; index < probes.size(); ++index) {
    const auto& reading = slopes->readings[index];
    const double by_place = reading.by_parameter.front();
    const double strength = std::abs(by_place) / held->adjustments[index].within;
    if (!(strength > strongest)) continue;
    strongest = strength;
    needed = -warmed_by_sink(*held, reading, sink) / by_place;
  }
  return needed;
}

}  // namespace

std::size_t positive_lead(const circuit::CheckedCircuit& stage,
                          PartId part,
                          const solve::OperatingPoint& state) {
  const auto points = points_of(stage->at(part), 0);
  return state.voltage_v(points.a) >= state.voltage_v(points.b) ? 0 : 1;
}

std::optional<StandInTest> test_stand_in(const circuit::CheckedCircuit& stage,
                                         const solve::OperatingPoint& state,
                                         PartId old_part,
                                         const circuit::StoodIn& stood_in) {
  const std::size_t high = positive_lead(stage, old_part, state);
  const auto points = points_of(stage->at(old_part), high);
  const auto& found = state.part(old_part);
  const TestCurrent current{std::abs(found.lead_current_a.at(high)), found.junction_k};
  constexpr double nothing_a = 1e-6;
  if (current.amps < nothing_a) return std::nullopt;
  const auto before = test(stage, std::span(&old_part, 1), points, current);
  const auto after = test(stood_in.stage, stood_in.parts, points, current);
  if (!before || !after) return std::nullopt;
  StandInTest result{current.amps,
                     current.temperature_k,
                     before->volts,
                     after->volts,
                     before->volts_per_k,
                     after->volts_per_k,
                     std::nullopt};
  if (const auto sink = main_sink(*stage, state)) {
    result.coupling = coupling_to(stage->at(old_part), *sink);
    const double volts = state.voltage_v(points.a) - state.voltage_v(points.b);
    result.needed_v_per_k =
        needed_v_per_k(with_held_place(stage, old_part, points, volts), state.conditions(), *sink);
  }
  return result;
}

}  // namespace idlepoint::answers
