#include "answers/bands.hpp"

#include <algorithm>
#include <cmath>

#include "answers/copies.hpp"
#include "answers/metered.hpp"
#include "solve/batch.hpp"

namespace idlepoint::answers {
namespace {

using Draws = std::vector<double>;

constexpr double coverage_factor = 2.0;
constexpr double largest_bend = 0.1;  ///< Second-order term against the half-width.
constexpr double nothing = 1e-12;     ///< SI; below what any meter shows.

/// One standard deviation of a draw that is even over -1 to 1.
const double deviation = 1.0 / std::sqrt(3.0);

double length(const Draws& slopes) {
  double sum = 0.0;
  for (const double slope : slopes) sum += slope * slope;
  return std::sqrt(sum);
}

double half_width(const Draws& slopes) { return coverage_factor * deviation * length(slopes); }

/// All draws moved along the steepest way of one quantity by so many of its standard deviations, as
/// far as the draws reach.
Draws along(const Draws& slopes, double deviations) {
  const double size = length(slopes);
  Draws u(slopes.size(), 0.0);
  for (std::size_t k = 0; k < u.size() && size > 0.0; ++k) {
    u[k] = std::clamp(deviations * deviation * slopes[k] / size, -1.0, 1.0);
  }
  return u;
}

/// The 2.5 and 97.5 % points, the shortest way of [JCGM101] 7.7 for ranked values.
Band middle_95(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const auto count = static_cast<double>(values.size());
  const auto covered = static_cast<std::size_t>(std::lround(0.95 * count));
  const std::size_t first = (values.size() - covered) / 2;
  return {values[first], values[std::min(first + covered, values.size() - 1)], true};
}

class Finding {
 public:
  Finding(const circuit::CheckedCircuit& stage,
          const solve::Conditions& conditions,
          const Looked& looked)
      : stage_(stage), conditions_(conditions), copies_(stage, conditions, looked) {}

  Bands run() {
    const std::size_t probes = copies_.looked().probes.size();
    result_.readings.resize(probes);
    result_.as_metered.resize(probes);
    result_.positions.resize(copies_.looked().following.size());
    if (!copies_.is_sound()) return result_;
    const auto slopes = copies_.slopes();
    if (!slopes) return result_;
    readings_.assign(slopes->begin(), slopes->begin() + static_cast<std::ptrdiff_t>(probes));
    positions_.assign(slopes->begin() + static_cast<std::ptrdiff_t>(probes), slopes->end());
    find_readings();
    for (std::size_t k = 0; k < positions_.size(); ++k) find_position(k);
    for (std::size_t k = 0; k < probes; ++k) find_metered(k);
    return result_;
  }

 private:
  void find_readings() {
    const std::vector<double> bends = bends_of_readings();
    bool any_bends = false;
    for (std::size_t k = 0; k < readings_.size(); ++k) {
      const double half = half_width(readings_[k]);
      const double value = copies_.nominal()[k];
      const bool bent = bends[k] > largest_bend * half && bends[k] > nothing;
      any_bends = any_bends || bent;
      result_.readings[k] = Band{value - half, value + half, bent};
    }
    if (any_bends) sample_readings();
  }

  /// [probes] the largest second-order term found: two standard deviations to either side, along
  /// the steepest way of any reading; infinite where a copy there has no state.
  [[nodiscard]] std::vector<double> bends_of_readings() {
    std::vector<double> bends(readings_.size(), 0.0);
    for (const Draws& way : readings_) {
      if (length(way) == 0.0) continue;
      const auto above = copies_.read(along(way, 1.0));
      const auto below = copies_.read(along(way, -1.0));
      for (std::size_t k = 0; k < bends.size(); ++k) {
        const double bend =
            above && below ? 0.5 * ((*above)[k] + (*below)[k]) - copies_.nominal()[k] : HUGE_VAL;
        bends[k] = std::max(bends[k], coverage_factor * coverage_factor * std::abs(bend));
      }
    }
    return bends;
  }

  void sample_readings() {
    const auto made =
        solve::Batch::make(stage_, conditions_, copies_.uncertainty(), copies_.looked().probes);
    const auto* batch = std::get_if<solve::Batch>(&made);
    if (batch == nullptr) return;
    solve::BatchOptions options;
    options.samples = band_samples;
    options.seed = band_seed;
    const solve::Samples samples = batch->run(options);
    for (std::size_t k = 0; k < readings_.size(); ++k) {
      if (!result_.readings[k]->bends) continue;
      std::vector<double> values;
      for (std::size_t sample = 0; sample < samples.size(); ++sample) {
        if (samples.fates[sample] != solve::Fate::settled) continue;
        values.push_back(samples.at(sample, k));
      }
      if (!values.empty()) result_.readings[k] = middle_95(std::move(values));
    }
  }

  /// Linear where that holds; else solved anew where the linear theory has its ends. A place beyond
  /// the track is its end.
  void find_position(std::size_t k) {
    const double travel = copies_.travels()[k];
    const double half = half_width(positions_[k]);
    const auto end = [&](double deviations) {
      const auto placed = copies_.place(along(positions_[k], deviations));
      return placed ? (*placed)[k] : travel + std::copysign(HUGE_VAL, deviations);
    };
    const double bend = 0.5 * (end(1.0) + end(-1.0)) - travel;
    const bool bent = !(coverage_factor * coverage_factor * std::abs(bend) <= largest_bend * half);
    Band band{travel - half, travel + half, bent && half > nothing};
    if (band.bends) band = {end(-coverage_factor), end(coverage_factor), true};
    result_.positions[k] =
        Band{std::clamp(band.low, 0.0, 1.0), std::clamp(band.high, 0.0, 1.0), band.bends};
  }

  /// The band of the reading with the meter across its points, and the meter's error as one more
  /// rectangular distribution.
  void find_metered(std::size_t k) {
    const circuit::Probe& probe = copies_.looked().probes[k];
    const auto metered = with_meter(stage_, probe);
    if (!metered) return;
    Copies loaded(*metered, conditions_, {{probe}, {}});
    if (!loaded.is_sound()) return;
    const auto slopes = loaded.slopes();
    if (!slopes) return;
    const double value = loaded.nominal()[0];
    const double unloaded_half = half_width(readings_[k]);
    const double share = unloaded_half > 0.0 ? half_width((*slopes)[0]) / unloaded_half : 1.0;
    const circuit::Meter& meter = stage_->meter;
    const double error_v =
        coverage_factor * deviation * (meter.error * std::abs(value) + meter.floor_v);
    const Band& band = *result_.readings[k];
    const double down_v = share * (copies_.nominal()[k] - band.low);
    const double up_v = share * (band.high - copies_.nominal()[k]);
    result_.as_metered[k] =
        Band{value - std::hypot(down_v, error_v), value + std::hypot(up_v, error_v), band.bends};
  }

  const circuit::CheckedCircuit& stage_;
  const solve::Conditions& conditions_;
  Copies copies_;
  std::vector<Draws> readings_;   ///< [probes] slopes by each draw.
  std::vector<Draws> positions_;  ///< [following]
  Bands result_;
};

}  // namespace

Bands find_bands(const circuit::CheckedCircuit& stage,
                 const solve::Conditions& conditions,
                 const std::vector<circuit::Probe>& probes,
                 const std::vector<circuit::Adjustment>& following) {
  return Finding(stage, conditions, {probes, following}).run();
}

}  // namespace idlepoint::answers
