#include "answers/flattest_band.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "circuit/uncertainty.hpp"
#include "solve/draws.hpp"

namespace idlepoint::answers {
namespace {

/// Natural logarithm of the reading, either side of the nominal flattest.
constexpr double step = 0.25;
constexpr std::size_t coarse_points = 41;

/// Where the parabola through the ripples at -step, 0, step has its lowest point, no further out
/// than three steps; none where it has none.
std::optional<double> lowest_of(const std::array<double, 3>& ripple) {
  const double bend = ripple[0] - 2.0 * ripple[1] + ripple[2];
  if (!(bend > 0.0)) return std::nullopt;
  return std::clamp(0.5 * step * (ripple[0] - ripple[2]) / bend, -3.0 * step, 3.0 * step);
}

std::optional<double> offset_of(IdleFinder& finder, const FlattestAsked& asked) {
  std::array<double, 3> ripple = {};
  for (std::size_t k = 0; k < ripple.size(); ++k) {
    const double at = asked.reading * std::exp(step * (static_cast<double>(k) - 1.0));
    const auto setting = finder.at(at, asked.swing_v, coarse_points);
    if (!setting) return std::nullopt;
    ripple[k] = setting->curve.ripple();
  }
  return lowest_of(ripple);
}

circuit::CheckedCircuit drawn_stage(const circuit::CheckedCircuit& stage,
                                    const circuit::Uncertainty& uncertainty,
                                    std::size_t sample) {
  std::vector<double> u;
  for (std::size_t k = 0; k < uncertainty.draws.size(); ++k) {
    u.push_back(solve::draw(band_seed, sample, k));
  }
  const auto values = circuit::values_at(*stage, uncertainty, u);
  return circuit::with_parameters(stage, uncertainty.parameters, values);
}

}  // namespace

std::optional<Band> flattest_band(IdleFinder& nominal, const FlattestAsked& asked) {
  const auto uncertainty = circuit::uncertainty(*nominal.stage());
  if (uncertainty.draws.empty()) return std::nullopt;
  const auto middle = offset_of(nominal, asked);
  if (!middle) return std::nullopt;
  double sum = 0.0;
  double squares = 0.0;
  std::size_t found = 0;
  for (std::size_t sample = 0; sample < flattest_samples; ++sample) {
    IdleFinder finder(
        drawn_stage(nominal.stage(), uncertainty, sample), asked.adjustment, asked.conditions);
    finder.begin_from(nominal, asked.reading);
    const auto offset = offset_of(finder, asked);
    if (!offset) continue;
    const double moved = *offset - *middle;
    sum += moved;
    squares += moved * moved;
    ++found;
  }
  if (2 * found < flattest_samples) return std::nullopt;
  const auto count = static_cast<double>(found);
  const double mean = sum / count;
  const double deviation =
      std::sqrt(std::max(0.0, squares - count * mean * mean) / std::max(1.0, count - 1.0));
  Band band;
  const double one = asked.reading * std::exp(mean - 2.0 * deviation);
  const double other = asked.reading * std::exp(mean + 2.0 * deviation);
  band.low = std::min(one, other);
  band.high = std::max(one, other);
  band.bends = true;
  band.lost = 1.0 - count / static_cast<double>(flattest_samples);
  return band;
}

}  // namespace idlepoint::answers
