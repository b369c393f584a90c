#include "answers/reading_values.hpp"

#include <algorithm>
#include <utility>

#include "solve/solve_stage.hpp"
#include "values/constants.hpp"

namespace idlepoint::answers {
namespace {

circuit::Part meter_across(const circuit::VoltsBetween& points, double input_ohm) {
  circuit::Part meter;
  meter.name = "meter";
  meter.kind = circuit::PartKind::resistor;
  meter.leads = {points.a, points.b};
  meter.value = input_ohm;
  meter.details = circuit::ResistorDetails{};
  return meter;
}

// A meter between a point and itself loads nothing, and would be a part with all leads on one node.
std::optional<double> read_with_meter(const circuit::CheckedCircuit& stage,
                                      const solve::OperatingPoint& at,
                                      const circuit::Probe& probe) {
  const auto* points = std::get_if<circuit::VoltsBetween>(&probe);
  if (points == nullptr) return std::nullopt;
  if (points->a == points->b) return 0.0;
  const auto metered = stage.edited([&](circuit::Circuit& circuit) {
    circuit.parts.push_back(meter_across(*points, circuit.meter.input_ohm));
  });
  const auto outcome = solve::solve_stage(metered, at.conditions());
  const auto* state = std::get_if<solve::OperatingPoint>(&outcome);
  if (state == nullptr) return std::nullopt;
  return state->read(*metered, probe);
}

ReadingValue read_one(const circuit::CheckedCircuit& stage,
                      const solve::OperatingPoint& at,
                      const circuit::Reading& reading) {
  ReadingValue result;
  result.name = reading.name;
  result.probe = reading.probe;
  result.unit = unit_of(reading.probe);
  const double si_value = at.read(*stage, reading.probe);
  result.value = in_own_unit(si_value, result.unit);
  result.limit = reading.limit;
  if (reading.limit) {
    result.within_limit = si_value >= reading.limit->low && si_value <= reading.limit->high;
  }
  result.as_metered = read_with_meter(stage, at, reading.probe);
  return result;
}

}  // namespace

std::string_view symbol(ReadingUnit unit) noexcept {
  switch (unit) {
    case ReadingUnit::volt:
      return "V";
    case ReadingUnit::ampere:
      return "A";
    case ReadingUnit::watt:
      return "W";
    case ReadingUnit::celsius:
      return "C";
  }
  return "";
}

ReadingUnit unit_of(const circuit::Probe& probe) noexcept {
  if (std::holds_alternative<circuit::VoltsBetween>(probe)) return ReadingUnit::volt;
  if (std::holds_alternative<circuit::AmpsThrough>(probe)) return ReadingUnit::ampere;
  if (std::holds_alternative<circuit::WattsIn>(probe)) return ReadingUnit::watt;
  return ReadingUnit::celsius;
}

double in_own_unit(double si_value, ReadingUnit unit) noexcept {
  return unit == ReadingUnit::celsius ? values::celsius_from_kelvin(si_value) : si_value;
}

std::vector<ReadingValue> read_all(const circuit::CheckedCircuit& stage,
                                   const solve::OperatingPoint& at) {
  std::vector<ReadingValue> readings;
  readings.reserve(stage->readings.size());
  for (const auto& reading : stage->readings) readings.push_back(read_one(stage, at, reading));
  return readings;
}

std::optional<ColdMoment> read_cold_moment(const circuit::CheckedCircuit& stage,
                                           const solve::Conditions& conditions) {
  auto outcome = solve::solve_cold(stage, conditions);
  auto* state = std::get_if<solve::OperatingPoint>(&outcome);
  if (state == nullptr) return std::nullopt;
  auto readings = read_all(stage, *state);
  return ColdMoment{std::move(*state), std::move(readings)};
}

bool any_limit_broken(const std::vector<ReadingValue>& readings) noexcept {
  return std::any_of(readings.begin(), readings.end(), [](const ReadingValue& reading) {
    return reading.within_limit == false;
  });
}

}  // namespace idlepoint::answers
