#include "answers/bands.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "answers/copies.hpp"
#include "answers/distribution.hpp"
#include "answers/linear_sum.hpp"
#include "answers/metered.hpp"
#include "solve/batch.hpp"
#include "solve/draws.hpp"

namespace idlepoint::answers {
namespace {

using Draws = DrawSlopes;

constexpr double nothing = 1e-12;  ///< SI; below what any meter shows.

/// Stages that tell whether a reading bends: the first of those that its band is sampled with.
constexpr std::size_t first_samples = 1000;

class BandSearch {
 public:
  BandSearch(const circuit::CheckedCircuit& stage,
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
    for (std::size_t k = 0; k < readings_.size(); ++k) {
      const double half = half_width(readings_[k]);
      result_.readings[k] =
          Band{copies_.nominal()[k] - half, copies_.nominal()[k] + half, false, 0.0};
    }
    const auto made =
        solve::Batch::make(stage_, conditions_, copies_.uncertainty(), copies_.looked().probes);
    const auto* batch = std::get_if<solve::Batch>(&made);
    if (batch == nullptr) return;
    solve::BatchOptions options;
    options.seed = band_seed;
    options.samples = first_samples;
    const std::vector<bool> bends = bends_of(batch->run(options));
    if (std::find(bends.begin(), bends.end(), true) == bends.end()) return;
    options.samples = band_samples;
    sample_readings(batch->run(options), bends);
  }

  /// [probes] whether what the linear sum leaves over in sampled stages, the second-order term and
  /// all beyond it, is more than its share of the half-width; any stage without a state is enough.
  [[nodiscard]] std::vector<bool> bends_of(const solve::Samples& samples) const {
    std::vector<double> squares(readings_.size(), 0.0);
    bool all_rest = true;
    std::vector<double> u(copies_.uncertainty().draws.size());
    for (std::size_t sample = 0; sample < samples.size(); ++sample) {
      all_rest = all_rest && samples.fates[sample] == solve::Fate::settled;
      for (std::size_t k = 0; k < u.size(); ++k) u[k] = solve::draw(band_seed, sample, k);
      for (std::size_t k = 0; k < squares.size() && all_rest; ++k) {
        const double linear = std::inner_product(u.begin(), u.end(), readings_[k].begin(), 0.0);
        const double left = samples.at(sample, k) - copies_.nominal()[k] - linear;
        squares[k] += left * left;
      }
    }
    std::vector<bool> bends;
    for (std::size_t k = 0; k < squares.size(); ++k) {
      const double left =
          coverage_factor * std::sqrt(squares[k] / static_cast<double>(samples.size()));
      const double half = half_width(readings_[k]);
      bends.push_back(half > nothing && (!all_rest || left > largest_bend * half));
    }
    return bends;
  }

  void sample_readings(const solve::Samples& samples, const std::vector<bool>& bends) {
    const auto settled = static_cast<std::size_t>(
        std::count(samples.fates.begin(), samples.fates.end(), solve::Fate::settled));
    const double lost = 1.0 - static_cast<double>(settled) / static_cast<double>(samples.size());
    for (std::size_t k = 0; k < readings_.size() && settled > 0; ++k) {
      if (!bends[k]) continue;
      std::vector<double> values;
      for (std::size_t sample = 0; sample < samples.size(); ++sample) {
        if (samples.fates[sample] != solve::Fate::settled) continue;
        values.push_back(samples.at(sample, k));
      }
      result_.readings[k] = middle_95(std::move(values));
      result_.readings[k]->lost = lost;
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
    Band band{travel - half, travel + half, bent && half > nothing, 0.0};
    if (band.bends) band = {end(-coverage_factor), end(coverage_factor), true, 0.0};
    result_.positions[k] =
        Band{std::clamp(band.low, 0.0, 1.0), std::clamp(band.high, 0.0, 1.0), band.bends, 0.0};
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
        coverage_factor * deviation_of_a_draw() * (meter.error * std::abs(value) + meter.floor_v);
    const Band& band = *result_.readings[k];
    const double down_v = share * (copies_.nominal()[k] - band.low);
    const double up_v = share * (band.high - copies_.nominal()[k]);
    result_.as_metered[k] = Band{value - std::hypot(down_v, error_v),
                                 value + std::hypot(up_v, error_v),
                                 band.bends,
                                 band.lost};
  }

  const circuit::CheckedCircuit& stage_;
  const solve::Conditions& conditions_;
  Copies copies_;
  std::vector<Draws> readings_;   ///< [probes] slopes by each draw.
  std::vector<Draws> positions_;  ///< [following]
  Bands result_;
};

}  // namespace

Band middle_95(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return {value_below_which(0.025, values), value_below_which(0.975, values), true, 0.0};
}

Bands find_bands(const circuit::CheckedCircuit& stage,
                 const solve::Conditions& conditions,
                 const std::vector<circuit::Probe>& probes,
                 const std::vector<circuit::Adjustment>& following) {
  return BandSearch(stage, conditions, {probes, following}).run();
}

}  // namespace idlepoint::answers
