#include "answers/tolerance_fit.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <tuple>

namespace idlepoint::answers {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Of a draw, or a size, that is even over -1 to 1.
const double deviation_of_draw = 1.0 / std::sqrt(3.0);

/// One meter reads both channels: what it is wrong on one, it is mostly wrong on the other.
constexpr double one_meter = 0.8;

/// What a drawing or a type's data may be wrong by in both channels alike: of a part's value, and
/// of a type's field against its own spread. Common practice, no source.
constexpr double drawing_error = 0.05;
constexpr double data_error_share = 1.0;

constexpr int most_fit_steps = 14;
constexpr int most_fit_halvings = 6;
constexpr double far_off = 60.0;         ///< Nothing within the tolerances makes up for that.
constexpr double settled_change = 0.01;  ///< Of half the chi-square.
constexpr double farthest_draw = 1.6;    ///< A rectangular draw ends at 1.

using DrawKey = std::tuple<bool, std::size_t, std::string, std::size_t>;

DrawKey key_of(const circuit::Uncertainty& all, const circuit::Draw& draw) {
  const circuit::Parameter& parameter = all.parameters[draw.effects.front().parameter];
  const auto* rail = std::get_if<circuit::RailId>(&parameter.owner);
  const std::size_t owner =
      rail != nullptr ? rail->index : std::get<circuit::PartId>(parameter.owner).index;
  return {rail != nullptr, owner, parameter.field, draw.effects.size()};
}

struct Common {
  double shared = 0.0;
  double own = 0.0;
};

Common common_of(const circuit::Uncertainty& all, const circuit::Draw& draw) {
  const circuit::Effect& effect = draw.effects.front();
  const circuit::Parameter& parameter = all.parameters[effect.parameter];
  if (std::holds_alternative<circuit::RailId>(parameter.owner)) return {deviation_of_draw, 0.0};
  if (parameter.field == "value") return {drawing_error / effect.half_width, deviation_of_draw};
  return {data_error_share * deviation_of_draw, deviation_of_draw};
}

}  // namespace

Unknowns::Unknowns(const BenchStage& suspect, const BenchStage* sound) {
  std::vector<const BenchStage*> channels = {&suspect};
  if (sound != nullptr) channels.push_back(sound);
  std::map<DrawKey, std::vector<std::pair<std::size_t, std::size_t>>> places;
  for (std::size_t c = 0; c < channels.size(); ++c) {
    const circuit::Uncertainty& all = channels[c]->uncertainty();
    draws_.emplace_back(all.draws.size());
    for (std::size_t k = 0; k < all.draws.size(); ++k) {
      places[key_of(all, all.draws[k])].emplace_back(c, k);
    }
  }
  for (std::size_t c = 0; c < channels.size(); ++c) {
    const circuit::Uncertainty& all = channels[c]->uncertainty();
    for (std::size_t k = 0; k < all.draws.size(); ++k) {
      const auto& same = places[key_of(all, all.draws[k])];
      const bool is_shared = same.size() == channels.size() && channels.size() > 1 &&
                             same.front().first != same.back().first;
      const Common common =
          is_shared ? common_of(all, all.draws[k]) : Common{0.0, deviation_of_draw};
      if (common.own > 0.0) draws_[c][k].push_back({count_++, common.own});
      if (!is_shared) continue;
      if (c == 0) {
        draws_[c][k].push_back({count_++, common.shared});
      } else {
        const auto [first, index] = same.front();
        draws_[c][k].push_back({draws_[first][index].back().unknown, common.shared});
      }
    }
    sizes_.emplace_back();
    for (std::size_t s = 0; s < channels[c]->sizes(); ++s) sizes_[c].push_back(count_++);
  }
}

void Unknowns::place(std::size_t channel,
                     const VectorXd& unknowns,
                     std::vector<double>& u,
                     std::vector<double>& t) const {
  u.assign(draws_[channel].size(), 0.0);
  for (std::size_t k = 0; k < u.size(); ++k) {
    for (const Term& term : draws_[channel][k]) u[k] += term.factor * unknowns[term.unknown];
  }
  t.clear();
  for (const Index size : sizes_[channel]) {
    t.push_back(std::clamp(deviation_of_draw * unknowns[size], -1.0, 1.0));
  }
}

MatrixXd Unknowns::by_unknown(std::size_t channel,
                              const std::vector<std::vector<double>>& by_draw) const {
  const std::size_t draws = draws_[channel].size();
  MatrixXd slopes = MatrixXd::Zero(static_cast<Index>(by_draw.size()), count_);
  for (std::size_t row = 0; row < by_draw.size(); ++row) {
    for (std::size_t k = 0; k < draws; ++k) {
      for (const Term& term : draws_[channel][k]) {
        slopes(static_cast<Index>(row), term.unknown) += term.factor * by_draw[row][k];
      }
    }
    for (std::size_t s = 0; s < sizes_[channel].size(); ++s) {
      slopes(static_cast<Index>(row), sizes_[channel][s]) +=
          deviation_of_draw * by_draw[row][draws + s];
    }
  }
  return slopes;
}

namespace {

class Fitting {
 public:
  explicit Fitting(const std::vector<Channel>& channels)
      : channels_(channels),
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
    for (std::size_t s = 0; s < start.sizes.size(); ++s) {
      at[unknowns_.of_size(s)] = start.sizes[s] / deviation_of_draw;
    }
    if (start.earlier != nullptr) at = start.earlier->unknowns;
    auto seen = start.earlier == nullptr ? first_look(at) : look(at, true);
    if (!seen) return std::nullopt;
    double miss = objective(*seen, at);
    double last_evidence = 0.0;
    for (int step = 0; step < most_fit_steps; ++step) {
      const VectorXd wanted = target(*seen, at);
      const double evidence = log_evidence_;
      const bool is_curved = start.earlier == nullptr && !start.sizes.empty();
      if (step > (is_curved ? 1 : 0) && std::max(evidence, last_evidence) < hopeless) {
        return std::nullopt;
      }
      if (step == 0 && !is_curved && evidence < hopeless - far_off) return std::nullopt;
      last_evidence = evidence;
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
      const auto shown = channels_[c].stage->show(u_, t_, with_slopes);
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

  [[nodiscard]] double objective(const Seen& seen, const VectorXd& at) const {
    const VectorXd miss = observed_ - seen.shown;
    return 0.5 * miss.dot(noise_factors_.solve(miss)) + 0.5 * at.squaredNorm();
  }

  /// Where the readings are best explained if all is straight from here; and the evidence then.
  VectorXd target(const Seen& seen, const VectorXd& at) {
    const VectorXd left = observed_ - seen.shown + seen.slopes * at;
    const MatrixXd covariance = noise_ + seen.slopes * seen.slopes.transpose();
    covariance_.compute(covariance);
    const VectorXd weighted = covariance_.solve(left);
    chi_square_ = left.dot(weighted);
    const double log_root = covariance_.matrixLLT().diagonal().array().abs().log().sum();
    log_evidence_ = -0.5 * chi_square_ - log_root -
                    0.5 * static_cast<double>(left.size()) * std::log(2.0 * std::numbers::pi);
    VectorXd wanted = seen.slopes.transpose() * weighted;
    const double longest = farthest_draw / deviation_of_draw;
    return wanted.cwiseMax(-longest).cwiseMin(longest);
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

  ToleranceFit finish(const Seen& seen, const VectorXd& at) {
    ToleranceFit fit;
    fit.log_evidence = log_evidence_;
    fit.chi_square = chi_square_;
    unknowns_.place(0, at, fit.u, fit.t);
    fit.unknowns = at;
    fit.slopes = seen.slopes;
    fit.weights = covariance_.solve(MatrixXd::Identity(observed_.size(), observed_.size()));
    const VectorXd weighted = fit.weights * (observed_ - seen.shown + seen.slopes * at);
    for (std::size_t k = 0; k < channels_[0].readings.size(); ++k) {
      const auto row = static_cast<Index>(k);
      fit.shown.push_back(seen.shown[row]);
      fit.off.push_back(weighted[row] / std::sqrt(fit.weights(row, row)));
    }
    return fit;
  }

  const std::vector<Channel>& channels_;
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
  return Fitting(channels).run(start, hopeless);
}

}  // namespace idlepoint::answers
