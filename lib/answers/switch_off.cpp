#include "answers/switch_off.hpp"

#include <algorithm>
#include <cmath>

namespace idlepoint::answers {
namespace {

// Upwards; the way down is the same with every sign turned.
struct BandEdge {
  double value = 0.0;
  double high = 0.0;
};

// What no reading is trusted to.
double resolution_of(const circuit::Meter& meter, ReadingUnit unit) {
  constexpr double smallest_a = 0.1e-3;
  constexpr double smallest_w = 5e-3;
  constexpr double smallest_k = 1.0;
  switch (unit) {
    case ReadingUnit::volt:
      return meter.floor_v;
    case ReadingUnit::ampere:
      return smallest_a;
    case ReadingUnit::watt:
      return smallest_w;
    case ReadingUnit::celsius:
      break;
  }
  return smallest_k;
}

BandEdge edge_of(const circuit::Meter& meter, const ReadingValue& reading, double sign) {
  const double value = reading.as_metered.value_or(reading.value);
  const auto end_of = [&](const Band& band) { return sign > 0.0 ? band.high : -band.low; };
  if (reading.metered_band) return {sign * value, end_of(*reading.metered_band)};
  const double plain = reading.band ? end_of(*reading.band) : sign * reading.value;
  const double error =
      reading.unit == ReadingUnit::celsius ? 0.0 : meter.error * std::abs(reading.value);
  return {sign * value, plain + error};
}

double to_figures(double value, int figures) {
  if (value == 0.0) return 0.0;
  const double scale = std::pow(10.0, figures - 1 - std::floor(std::log10(std::abs(value))));
  return std::round(value * scale) / scale;
}

// As few figures as keep it between the two.
double rounded_between(double value, double low, double high) {
  for (const int figures : {2, 3}) {
    const double rounded = to_figures(value, figures);
    if (rounded > low && rounded < high) return rounded;
  }
  return value;
}

std::optional<SwitchOffLimit> find_above(const BandEdge& edge,
                                         double resolution,
                                         double sign,
                                         const std::vector<FaultReads>& faults) {
  constexpr double clear_of_the_band = 2.0;  // times what the meter can tell
  constexpr double outside_the_band = 4.0;
  constexpr double share_of_the_gap = 0.75;
  const double half_width = std::max(0.0, edge.high - edge.value);
  const double clear = edge.high + std::max(0.5 * half_width, clear_of_the_band * resolution);
  std::vector<FaultReads> beyond;
  for (const auto& fault : faults) {
    if (sign * fault.value > clear) beyond.push_back({fault.fault, sign * fault.value});
  }
  if (beyond.empty()) return std::nullopt;
  std::stable_sort(beyond.begin(), beyond.end(), [](const auto& one, const auto& other) {
    return one.value < other.value;
  });
  const double nearest = beyond.front().value;
  const double room = std::max(half_width, outside_the_band * resolution);
  const double limit = edge.high + std::min(room, share_of_the_gap * (nearest - edge.high));
  SwitchOffLimit found;
  found.limit = sign * rounded_between(limit, edge.high, nearest);
  found.sound = sign * edge.high;
  found.nearest = sign * nearest;
  for (const auto& fault : beyond) found.faults.push_back(fault.fault);
  return found;
}

}  // namespace

SwitchOff find_switch_off(const circuit::Meter& meter,
                          const std::vector<ReadingValue>& sound,
                          const std::vector<FaultReads>& faults) {
  if (sound.empty()) return {};
  const double resolution = resolution_of(meter, sound.front().unit);
  const auto side = [&](double sign) {
    BandEdge outermost = edge_of(meter, sound.front(), sign);
    for (const auto& reading : sound) {
      const BandEdge edge = edge_of(meter, reading, sign);
      if (edge.high > outermost.high) outermost = edge;
    }
    return find_above(outermost, resolution, sign, faults);
  };
  return {side(1.0), side(-1.0)};
}

}  // namespace idlepoint::answers
