#include "answers/off_figures.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>
#include <variant>

#include "answers/bands.hpp"
#include "answers/copies.hpp"
#include "answers/linear_sum.hpp"
#include "solve/batch.hpp"
#include "solve/stage_solver.hpp"
#include "solve/state.hpp"

namespace idlepoint::answers {
namespace {

using circuit::CheckedCircuit;
using circuit::Circuit;
using circuit::HandMeter;
using circuit::VoltsBetween;

/// Stages that a band is drawn from where the linear sum does not hold: enough beside a meter's own
/// error, and there may be hundreds of such bands.
constexpr std::size_t off_band_samples = 400;

constexpr double infinite = std::numeric_limits<double>::infinity();

HandMeter add_meter(Circuit& circuit, const VoltsBetween& points, OffRange range) {
  const bool is_reversed = range == OffRange::ohms_reversed || range == OffRange::diode_reversed;
  const auto red = is_reversed ? points.b : points.a;
  const auto black = is_reversed ? points.a : points.b;
  return is_ohms(range) ? circuit::add_ohms_range(circuit, red, black)
                        : circuit::add_diode_range(circuit, red, black);
}

std::optional<double> shown(OffRange range, double volts) {
  return is_ohms(range) ? circuit::ohms_shown(volts) : circuit::diode_shown(volts);
}

/// In the figure's own unit, on and on beyond what the display shows.
double unlimited(OffRange range, double volts) {
  if (!is_ohms(range)) return volts;
  const double left_v = circuit::ohms_range_v - volts;
  if (left_v <= 0.0) return infinite;
  return circuit::ohms_range_v / circuit::ohms_range_a * volts / left_v;
}

double slope_by_volts(OffRange range, double volts) {
  if (!is_ohms(range)) return 1.0;
  const double left_v = circuit::ohms_range_v - volts;
  const double test_ohm = circuit::ohms_range_v / circuit::ohms_range_a;
  return test_ohm * circuit::ohms_range_v / (left_v * left_v);
}

std::optional<double> limited(OffRange range, double figure) {
  const double open = is_ohms(range) ? circuit::ohms_are_open_ohm : circuit::diode_is_open_v;
  if (!(figure < open)) return std::nullopt;
  return std::max(0.0, figure);
}

/// The middle 95 % of `off_band_samples` stages; left as it is where none of them finds a state.
void sample_band(OffFigure& figure,
                 const Copies& copies,
                 OffRange range,
                 const CheckedCircuit& stage,
                 const solve::Conditions& conditions) {
  const auto made =
      solve::Batch::make(stage, conditions, copies.uncertainty(), copies.looked().probes);
  const auto* batch = std::get_if<solve::Batch>(&made);
  if (batch == nullptr) return;
  solve::BatchOptions options;
  options.samples = off_band_samples;
  options.seed = band_seed;
  const auto samples = batch->run(options);
  std::vector<double> volts;
  for (std::size_t sample = 0; sample < samples.size(); ++sample) {
    if (samples.fates[sample] == solve::Fate::settled) volts.push_back(samples.at(sample, 0));
  }
  if (volts.empty()) return;
  const Band band = middle_95(std::move(volts));
  figure.low = shown(range, band.low);
  figure.high = shown(range, band.high);
}

/// Each end where the linear sum of the figure has it, or sampled where the figure bends.
void add_band(OffFigure& figure,
              Copies& copies,
              OffRange range,
              const CheckedCircuit& stage,
              const solve::Conditions& conditions) {
  const auto slopes = copies.slopes();
  if (!slopes) return;
  const double volts = copies.nominal()[0];
  const double value = unlimited(range, volts);
  const double half = half_width(slopes->front()) * slope_by_volts(range, volts);
  const auto at = [&](double deviations) {
    const auto read = copies.read(along(slopes->front(), deviations));
    return read ? unlimited(range, read->front()) : infinite;
  };
  const double bend = 0.5 * (at(1.0) + at(-1.0)) - value;
  const bool bends = figure.value &&
                     !(coverage_factor * coverage_factor * std::abs(bend) <= largest_bend * half) &&
                     half > 1e-6 * value;
  figure.low = limited(range, value - half);
  figure.high = limited(range, value + half);
  if (bends) sample_band(figure, copies, range, stage, conditions);
}

}  // namespace

bool can_tell(OffRange range, const OffFigure& sound, const std::optional<double>& other) noexcept {
  const double floor = is_ohms(range) ? ohms_meter_floor_ohm : diode_meter_floor_v;
  const double open = is_ohms(range) ? circuit::ohms_are_open_ohm : circuit::diode_is_open_v;
  const double surely_through = is_ohms(range) ? 0.5 * open : open - 0.2;  // nearer may be either
  if (!sound.value || !other) {
    if (!sound.value && !other) return false;
    const double through = sound.value ? sound.high.value_or(open) : *other;
    return through < surely_through;
  }
  const double value = *sound.value;
  const double low = sound.low.value_or(0.0);
  const double high = sound.high.value_or(infinite);
  const double error = off_meter_share * std::max(value, *other) + floor;
  const bool is_nothing = value <= floor;  // a band of nothing says nothing of the other's
  const double above = is_nothing ? 0.0 : std::clamp(high / value - 1.0, 0.0, 1.0);
  const double below = is_nothing ? 0.0 : std::clamp(1.0 - low / value, 0.0, 1.0);
  return *other * (1.0 - below) - error > high || *other * (1.0 + above) + error < low;
}

MeteredOff with_off_meter(const CheckedCircuit& off, const VoltsBetween& points, OffRange range) {
  HandMeter meter;
  auto stage = off.edited([&](Circuit& circuit) {
    meter = add_meter(circuit, points, range);
    circuit::connect(circuit, meter);
  });
  return {std::move(stage), meter};
}

std::optional<OffFigure> off_figure(const CheckedCircuit& off,
                                    const VoltsBetween& points,
                                    OffRange range,
                                    const solve::Conditions& conditions) {
  const auto metered = with_off_meter(off, points, range);
  Copies copies(metered.stage, conditions, {{metered.meter.points}, {}});
  if (!copies.is_sound()) return std::nullopt;
  OffFigure figure;
  figure.value = shown(range, copies.nominal()[0]);
  figure.low = figure.high = figure.value;
  add_band(figure, copies, range, metered.stage, conditions);
  return figure;
}

bool find_off_values(const CheckedCircuit& off,
                     const VoltsBetween& points,
                     const solve::Conditions& conditions,
                     const ByRange<bool>& wanted,
                     const ByRange<std::vector<double>>& near_v,
                     ByRange<std::optional<double>>& values) {
  Circuit circuit = *off;
  ByRange<HandMeter> meters;
  for (std::size_t k = 0; k < meters.size(); ++k) {
    meters[k] = add_meter(circuit, points, every_off_range[k]);
  }
  solve::StageSolver solver(circuit, conditions);
  for (std::size_t k = 0; k < meters.size(); ++k) {
    if (!wanted[k]) continue;
    circuit::connect(circuit, meters[k]);
    solver.load(circuit, conditions);
    const auto found =
        solver.solve_from(near_v[k].empty() ? solve::dead_start(solver.system(), solver.numbers())
                                            : solver.state_at(near_v[k]));
    if (!std::holds_alternative<solve::Solution>(found)) return false;
    circuit::disconnect(circuit, meters[k]);
    const auto& point_v = solver.work().point_v;
    const auto& held = meters[k].points;
    values[k] = shown(every_off_range[k], point_v.at(held.a.index) - point_v.at(held.b.index));
  }
  return true;
}

}  // namespace idlepoint::answers
