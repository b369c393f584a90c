#include "answers/tolerance_fit.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <boost/math/quadrature/gauss.hpp>
#include <cmath>
#include <numbers>

namespace idlepoint::answers {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// One meter reads both channels: what it is wrong on one, it is mostly wrong on the other.
constexpr double one_meter = 0.8;

constexpr int most_fit_steps = 14;
constexpr int most_fit_halvings = 6;
constexpr double settled_change = 0.01;  ///< Of half the chi-square.
/// A fit without hope goes on while each step leaves less than this share of what it lacks: where
/// an idle current is a hundred times the healthy one, the first look says little.
constexpr double worth_another_step = 0.5;
constexpr int steps_of_a_size = 4;     ///< So many are taken where a size is looked for.
constexpr double farthest_draw = 1.6;  ///< A rectangular draw ends at 1.

/// By so much later readings may make a suspect's chi-square grow for it to be brought up straight.
constexpr double surprising_chi_square = 6.0;

/// What is left of a size's evidence where it may stand anywhere from `low` to `high`, of a range
/// of which every place is as likely: the logarithm of the integral of exp(slope d - sharpness d^2
/// / 2) over its places, d their distance from `at`.
double log_share_of_stretch(double at, double slope, double sharpness, double low, double high) {
  constexpr double range = 2.0 / deviation_of_draw;
  constexpr double widths = 7.0;
  constexpr double least = 1e-9;
  const double curb = std::max(sharpness, least);
  const double top = std::clamp(at + slope / curb, low, high);
  const double from = std::max(low, top - widths / std::sqrt(curb));
  const double to = std::min(high, top + widths / std::sqrt(curb));
  const auto logarithm = [&](double x) {
    return slope * (x - at) - 0.5 * sharpness * (x - at) * (x - at);
  };
  const double highest = logarithm(top);
  const double integral = boost::math::quadrature::gauss<double, 30>::integrate(
      [&](double x) { return std::exp(logarithm(x) - highest); }, from, to);
  return highest + std::log(integral / range);
}

class ToleranceFitting {
 public:
  ToleranceFitting(const std::vector<Channel>& channels, const std::vector<SizeStretch>& stretches)
      : channels_(channels),
        stretches_(stretches),
        unknowns_(*channels[0].stage, channels.size() > 1 ? channels[1].stage : nullptr) {
    Index rows = 0;
    for (const Channel& channel : channels) rows += static_cast<Index>(channel.readings.size());
    observed_ = VectorXd(rows);
    noise_ = MatrixXd::Zero(rows, rows);
    Index row = 0;
    for (const Channel& channel : channels) {
      for (const Observed& one : channel.readings) {
        observed_[row] = one.value;
        noise_(row, row) = one.deviation * one.deviation;
        ++row;
      }
    }
    share_the_meter();
    noise_factors_.compute(noise_);
  }

  std::optional<ToleranceFit> run(const FitStart& start, double hopeless) {
    VectorXd at = VectorXd::Zero(unknowns_.count());
    for (std::size_t s = 0; s < stretches_.size(); ++s) {
      at[unknowns_.of_size(s)] = 0.5 * (stretches_[s].low + stretches_[s].high) / deviation_of_draw;
    }
    if (start.earlier != nullptr) at = start.earlier->unknowns;
    auto seen =
        start.earlier == nullptr ? first_look(at) : look_on(*start.earlier, start.straight_from);
    if (!seen) return std::nullopt;
    if (start.straight_from != nullptr) return go_straight(*seen, *start.earlier);
    double miss = objective(*seen, at);
    double last_evidence = -1e300;
    double lacked = 1e300;
    const bool is_curved = start.earlier == nullptr && !stretches_.empty();
    for (int step = 0; step < most_fit_steps; ++step) {
      const VectorXd wanted = target(*seen, at);
      const double evidence = log_evidence_;
      const double lacks = hopeless - std::max(evidence, last_evidence);
      const bool may_stop = step > (is_curved ? steps_of_a_size : 0);
      if (may_stop && lacks > 0.0 && lacks >= worth_another_step * lacked) return std::nullopt;
      lacked = lacks;
      last_evidence = evidence;
      const double to_gain = miss - 0.5 * chi_square_;  // if all is straight from here
      if (to_gain < settled_change) break;
      const double change = advance(wanted, at, *seen, miss);
      if (seen->slopes.size() == 0) {
        seen = look(at, true);
        if (!seen) return std::nullopt;
      }
      if (std::abs(change) < settled_change) break;
    }
    (void)target(*seen, at);
    if (log_evidence_ < hopeless) return std::nullopt;
    return finish(*seen, at);
  }

 private:
  struct Seen {
    VectorXd shown;
    MatrixXd slopes;
  };

  /// The same points read on both channels.
  void share_the_meter() {
    if (channels_.size() < 2) return;
    const auto first = static_cast<Index>(channels_[0].readings.size());
    const auto both = std::min(first, static_cast<Index>(channels_[1].readings.size()));
    for (Index k = 0; k < both; ++k) {
      const double shared = one_meter * std::sqrt(noise_(k, k) * noise_(first + k, first + k));
      noise_(k, first + k) = shared;
      noise_(first + k, k) = shared;
    }
  }

  std::optional<Seen> look(const VectorXd& at, bool with_slopes) {
    Seen seen = nothing_seen(with_slopes);
    Index row = 0;
    for (std::size_t c = 0; c < channels_.size(); ++c) {
      unknowns_.place(c, at, u_, t_);
      const auto shown =
          channels_[c].stage->show(u_, t_, with_slopes ? Slopes::of_all : Slopes::none);
      if (!shown) return std::nullopt;
      row = put(*shown, c, row, seen);
    }
    return seen;
  }

  /// With all draws in the middle.
  std::optional<Seen> first_look(const VectorXd& at) {
    Seen seen = nothing_seen(true);
    Index row = 0;
    for (std::size_t c = 0; c < channels_.size(); ++c) {
      unknowns_.place(c, at, u_, t_);
      const auto& shown = channels_[c].stage->first_look(t_);
      if (!shown) return std::nullopt;
      row = put(*shown, c, row, seen);
    }
    return seen;
  }

  /// What the earlier fit has seen where it ended, and the readings that came since.
  std::optional<Seen> look_on(const ToleranceFit& earlier, const Shown* added) {
    if (added == nullptr && earlier.is_straight) return look(earlier.unknowns, true);
    Seen seen = nothing_seen(true);
    const auto second =
        channels_.size() > 1 ? static_cast<Index>(channels_[1].readings.size()) : Index{0};
    const auto before = static_cast<Index>(earlier.shown.size()) - second;
    const auto now = static_cast<Index>(channels_[0].readings.size());
    const Eigen::Map<const VectorXd> shown(earlier.shown.data(), before + second);
    seen.shown.head(before) = shown.head(before);
    seen.shown.tail(second) = shown.tail(second);
    seen.slopes.topRows(before) = earlier.slopes.topRows(before);
    seen.slopes.bottomRows(second) = earlier.slopes.bottomRows(second);
    if (before == now) return seen;
    if (added != nullptr) {
      put(*added, 0, before, seen);
      return seen;
    }
    unknowns_.place(0, earlier.unknowns, u_, t_);
    const auto shown_now =
        channels_[0].stage->show(u_, t_, Slopes::of_all, static_cast<std::size_t>(before));
    if (!shown_now) return std::nullopt;
    put(*shown_now, 0, before, seen);
    return seen;
  }

  [[nodiscard]] Seen nothing_seen(bool with_slopes) const {
    Seen seen{VectorXd(observed_.size()), MatrixXd()};
    if (with_slopes) seen.slopes = MatrixXd(observed_.size(), unknowns_.count());
    return seen;
  }

  /// From row `row` on; returns the row after.
  Index put(const Shown& shown, std::size_t channel, Index row, Seen& seen) const {
    const auto count = static_cast<Index>(shown.values.size());
    for (Index k = 0; k < count; ++k) {
      seen.shown[row + k] = shown.values[static_cast<std::size_t>(k)];
    }
    if (seen.slopes.size() != 0) {
      seen.slopes.middleRows(row, count) = unknowns_.by_unknown(channel, shown.by_draw);
    }
    return row + count;
  }

  /// Sizes are free within their stretches: they cost nothing.
  [[nodiscard]] double objective(const Seen& seen, const VectorXd& at) const {
    const VectorXd miss = observed_ - seen.shown;
    double draws = at.squaredNorm();
    for (std::size_t s = 0; s < stretches_.size(); ++s) {
      draws -= at[unknowns_.of_size(s)] * at[unknowns_.of_size(s)];
    }
    return 0.5 * miss.dot(noise_factors_.solve(miss)) + 0.5 * draws;
  }

  [[nodiscard]] MatrixXd size_slopes(const MatrixXd& slopes) const {
    MatrixXd columns(slopes.rows(), static_cast<Index>(stretches_.size()));
    for (std::size_t s = 0; s < stretches_.size(); ++s) {
      columns.col(static_cast<Index>(s)) = slopes.col(unknowns_.of_size(s));
    }
    return columns;
  }

  /// Where the readings are best explained if all is straight from here; and the evidence then.
  VectorXd target(const Seen& seen, const VectorXd& at) {
    MatrixXd by_draw = seen.slopes;
    for (std::size_t s = 0; s < stretches_.size(); ++s) by_draw.col(unknowns_.of_size(s)).setZero();
    const MatrixXd by_size = size_slopes(seen.slopes);
    covariance_.compute(noise_ + by_draw * by_draw.transpose());
    VectorXd left = observed_ - seen.shown + seen.slopes * at;
    const VectorXd sizes = best_sizes(by_size, left, at);
    left -= by_size * sizes;
    const VectorXd weighted = covariance_.solve(left);
    chi_square_ = left.dot(weighted);
    const double log_root = covariance_.matrixLLT().diagonal().array().abs().log().sum();
    log_evidence_ = -0.5 * chi_square_ - log_root -
                    0.5 * static_cast<double>(left.size()) * std::log(2.0 * std::numbers::pi);
    const double longest = farthest_draw / deviation_of_draw;
    VectorXd wanted = (by_draw.transpose() * weighted).cwiseMax(-longest).cwiseMin(longest);
    for (std::size_t s = 0; s < stretches_.size(); ++s) {
      const auto column = by_size.col(static_cast<Index>(s));
      const double size = sizes[static_cast<Index>(s)];
      wanted[unknowns_.of_size(s)] = size;
      log_evidence_ += log_share_of_stretch(size,
                                            column.dot(weighted),
                                            column.dot(covariance_.solve(column)),
                                            stretches_[s].low / deviation_of_draw,
                                            stretches_[s].high / deviation_of_draw);
    }
    return wanted;
  }

  /// The sizes within their stretches that leave the least of `left`, in the scale of the unknowns;
  /// where nothing depends on one, it stays.
  [[nodiscard]] VectorXd best_sizes(const MatrixXd& by_size,
                                    const VectorXd& left,
                                    const VectorXd& at) const {
    constexpr double hold = 0.05;
    constexpr int rounds = 8;
    const MatrixXd weighted = covariance_.solve(by_size);
    const MatrixXd sharpness = by_size.transpose() * weighted;
    const VectorXd pull = weighted.transpose() * left;
    VectorXd sizes(by_size.cols());
    for (Index s = 0; s < sizes.size(); ++s) {
      sizes[s] = at[unknowns_.of_size(static_cast<std::size_t>(s))];
    }
    const VectorXd was = sizes;
    for (int round = 0; round < (sizes.size() > 1 ? rounds : 1); ++round) {
      for (Index s = 0; s < sizes.size(); ++s) {
        const SizeStretch& stretch = stretches_[static_cast<std::size_t>(s)];
        const double others = sharpness.row(s).dot(sizes) - sharpness(s, s) * sizes[s];
        sizes[s] = std::clamp((pull[s] - others + hold * was[s]) / (sharpness(s, s) + hold),
                              stretch.low / deviation_of_draw,
                              stretch.high / deviation_of_draw);
      }
    }
    return sizes;
  }

  /// Towards `wanted`, as far as it gets better. Returns by how much.
  double advance(const VectorXd& wanted, VectorXd& at, Seen& seen, double& miss) {
    const VectorXd way = wanted - at;
    double share = 1.0;
    for (int halving = 0; halving <= most_fit_halvings; ++halving, share *= 0.5) {
      const VectorXd there = at + share * way;
      auto look_there = look(there, halving == 0);
      if (!look_there) continue;
      const double miss_there = objective(*look_there, there);
      if (!(miss_there < miss)) continue;
      const double change = miss - miss_there;
      at = there;
      seen = std::move(*look_there);
      miss = miss_there;
      return change;
    }
    return 0.0;
  }

  /// None where the new readings are a surprise: what is straight for a little way need not be so
  /// for a long one.
  std::optional<ToleranceFit> go_straight(Seen& seen, const ToleranceFit& earlier) {
    const VectorXd wanted = target(seen, earlier.unknowns);
    if (chi_square_ > earlier.chi_square + surprising_chi_square) return std::nullopt;
    seen.shown += seen.slopes * (wanted - earlier.unknowns);
    ToleranceFit fit = finish(seen, wanted);
    fit.is_straight = true;
    fit.slopes_u = earlier.slopes_u;
    fit.slopes_t = earlier.slopes_t;
    return fit;
  }

  ToleranceFit finish(const Seen& seen, const VectorXd& at) {
    ToleranceFit fit;
    fit.log_evidence = log_evidence_;
    fit.chi_square = chi_square_;
    unknowns_.place(0, at, fit.u, fit.t);
    fit.unknowns = at;
    fit.slopes = seen.slopes;
    fit.slopes_u = fit.u;
    fit.slopes_t = fit.t;
    fit.stretches = stretches_;
    const MatrixXd all = noise_ + seen.slopes * seen.slopes.transpose();
    fit.weights = all.llt().solve(MatrixXd::Identity(all.rows(), all.cols()));
    VectorXd left = observed_ - seen.shown + seen.slopes * at;
    for (std::size_t s = 0; s < stretches_.size(); ++s) {
      left -= seen.slopes.col(unknowns_.of_size(s)) * at[unknowns_.of_size(s)];
    }
    const VectorXd weighted = fit.weights * left;
    fit.shown.assign(seen.shown.begin(), seen.shown.end());
    for (std::size_t k = 0; k < channels_[0].readings.size(); ++k) {
      const auto row = static_cast<Index>(k);
      fit.off.push_back(weighted[row] / std::sqrt(fit.weights(row, row)));
    }
    return fit;
  }

  const std::vector<Channel>& channels_;
  const std::vector<SizeStretch> stretches_;  ///< [sizes of the first channel]
  Unknowns unknowns_;
  VectorXd observed_;
  MatrixXd noise_;
  Eigen::LLT<MatrixXd> noise_factors_;
  Eigen::LLT<MatrixXd> covariance_;
  double log_evidence_ = 0.0;
  double chi_square_ = 0.0;
  std::vector<double> u_;
  std::vector<double> t_;
};

}  // namespace

std::optional<ToleranceFit> fit_tolerances(const std::vector<Channel>& channels,
                                           const FitStart& start,
                                           double hopeless) {
  const auto& stretches = start.earlier == nullptr ? start.stretches : start.earlier->stretches;
  return ToleranceFitting(channels, stretches).run(start, hopeless);
}

}  // namespace idlepoint::answers
