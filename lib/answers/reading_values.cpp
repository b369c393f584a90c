#include "answers/reading_values.hpp"

#include <algorithm>
#include <utility>

#include "answers/metered.hpp"
#include "answers/taken_out.hpp"
#include "solve/solve_stage.hpp"
#include "values/constants.hpp"

namespace idlepoint::answers {
namespace {

// A meter between a point and itself loads nothing.
std::optional<double> read_with_meter(const circuit::CheckedCircuit& stage,
                                      const solve::OperatingPoint& at,
                                      const circuit::Probe& probe) {
  const auto* points = std::get_if<circuit::VoltsBetween>(&probe);
  if (points != nullptr && points->a == points->b) return 0.0;
  const auto metered = with_meter(stage, probe);
  if (!metered) return std::nullopt;
  const auto outcome = solve::solve_stage(*metered, at.conditions());
  const auto* state = std::get_if<solve::OperatingPoint>(&outcome);
  if (state == nullptr) return std::nullopt;
  return state->read(**metered, probe);
}

std::optional<Band> in_own_unit(const std::optional<Band>& band, ReadingUnit unit) {
  if (!band) return std::nullopt;
  return Band{in_own_unit(band->low, unit), in_own_unit(band->high, unit), band->bends, band->lost};
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
  judge_without(stage, at.conditions(), readings);
  return readings;
}

void add_bands(const circuit::CheckedCircuit& stage,
               const solve::Conditions& conditions,
               std::vector<ReadingValue>& readings) {
  std::vector<circuit::Probe> probes;
  for (const ReadingValue& reading : readings) probes.push_back(reading.probe);
  add_bands(find_bands(stage, conditions, probes, {}), readings);
}

void add_bands(const Bands& bands, std::vector<ReadingValue>& readings) {
  for (std::size_t index = 0; index < readings.size(); ++index) {
    ReadingValue& reading = readings[index];
    reading.band = in_own_unit(bands.readings.at(index), reading.unit);
    reading.metered_band = bands.as_metered.at(index);
  }
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
