#include "solve/warm_up.hpp"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace idlepoint::solve {
namespace {

constexpr int most_time_steps = 2000;
constexpr double shortest_step_s = 1e-4;

double scaled_error(const TimeStep& step) {
  constexpr double absolute_k = 1e-4;
  constexpr double relative = 1e-5;
  double worst = 0.0;
  for (Eigen::Index k = 0; k < step.error.size(); ++k) {
    const double allowed_k = absolute_k + relative * std::abs(step.end.value[k]);
    worst = std::max(worst, std::abs(step.error[k]) / allowed_k);
  }
  return worst;
}

double distance_k(const Eigen::VectorXd& a, const Eigen::VectorXd& b) {
  return a.size() == 0 ? 0.0 : (a - b).cwiseAbs().maxCoeff();
}

bool is_above_limit(const HeatingStage& stage, const Rest& rest) {
  const auto hot = hottest(stage.circuit(), stage.heat(), rest.at.temperatures_k);
  return hot && hot->excess_k > 0.0;
}

bool is_beyond_following(const Rest& rest) {
  const auto& temperatures_k = rest.at.temperatures_k;
  return temperatures_k.size() > 0 && temperatures_k.maxCoeff() > hottest_followed_k;
}

class Follower {
 public:
  Follower(HeatingStage& stage, const Rest& begin, const Heating& heating)
      : stage_(stage), heating_(heating), rest_(begin) {
    add({0.0, begin.sink_rise_k, stage.warming(begin, heating.extra_w)});
  }

  WarmUp run() {
    double seconds = first_step_s();
    for (int step = 0; step < most_time_steps; ++step) {
      if (is_over()) return finish();
      const double left_s = heating_.lasts_s - now_s();
      const bool is_last = seconds >= left_s;
      seconds = advance(is_last ? left_s : seconds);
      if (seconds < shortest_step_s) {
        if (!leap()) break;
        seconds = first_step_s();
      }
      if (is_beyond_following(rest_)) break;
    }
    const bool is_lost = seconds < shortest_step_s || is_beyond_following(rest_);
    warm_up_.end = is_lost ? WarmUp::End::runs_away : WarmUp::End::swings;
    return finish();
  }

 private:
  [[nodiscard]] double now_s() const { return warm_up_.points.back().seconds; }

  [[nodiscard]] double first_step_s() const {
    const double slowest_s = stage_.slowest_s();
    return slowest_s > 0.0 ? 1e-3 * slowest_s : 1.0;
  }

  /// Takes a step, or refuses it; returns the length to try next.
  double advance(double seconds) {
    Rest reached = rest_;
    const auto solve = [&](const Eigen::VectorXd& base_k,
                           double share_s) -> std::optional<Eigen::VectorXd> {
      auto next = stage_.step(base_k, share_s, heating_.extra_w, reached);
      if (!next) return std::nullopt;
      reached = *std::move(next);
      return reached.sink_rise_k;
    };
    const auto step = take_time_step(solve, warm_up_.points.back(), seconds);
    if (!step) return 0.25 * seconds;
    const double error = scaled_error(*step);
    if (error <= 1.0) {
      rest_ = std::move(reached);
      add(step->end);
    }
    return next_step_s(seconds, error);
  }

  void add(TimePoint point) {
    warm_up_.points.push_back(std::move(point));
    warm_up_.rests.push_back(rest_);
    if (!warm_up_.passed && is_above_limit(stage_, rest_)) find_passing();
  }

  /// A rest of the junctions that ends under way is left for another, where there is one.
  bool leap() {
    constexpr int most_times = 3;
    std::optional<ThermalTrouble> passed;
    auto beyond = ++leaps_ > most_times ? std::nullopt : stage_.leap(rest_, passed);
    if (passed && !warm_up_.passed) warm_up_.passed = {now_s(), *passed};
    if (!beyond) return false;
    rest_ = *std::move(beyond);
    add({now_s(), rest_.sink_rise_k, stage_.warming(rest_, heating_.extra_w)});
    return true;
  }

  /// Where between the last two points the limit is passed, to a thousandth of the step.
  void find_passing() {
    Rest above = rest_;
    double after_s = now_s();
    if (warm_up_.points.size() > 1) {
      double before_s = warm_up_.points[warm_up_.points.size() - 2].seconds;
      const double narrow_s = 1e-3 * (after_s - before_s);
      while (after_s - before_s > narrow_s) {
        const double middle_s = 0.5 * (before_s + after_s);
        auto middle = stage_.hold(value_at(warm_up_.points, middle_s), above);
        if (!middle) break;
        if (is_above_limit(stage_, *middle)) {
          above = *std::move(middle);
          after_s = middle_s;
        } else {
          before_s = middle_s;
        }
      }
    }
    warm_up_.passed = {after_s, stage_.trouble(ThermalTrouble::Kind::runaway, above)};
  }

  bool is_over() {
    if (heating_.lasts_s - now_s() <= shortest_step_s) {
      warm_up_.end = WarmUp::End::time_up;
      return true;
    }
    if (std::isfinite(heating_.lasts_s)) return false;
    const auto equilibrium = stage_.equilibrium(rest_);
    if (!equilibrium) return false;
    const Eigen::VectorXd& target_k = equilibrium->sink_rise_k;
    double way_k = 0.0;
    for (const TimePoint& point : warm_up_.points) {
      way_k = std::max(way_k, distance_k(point.value, target_k));
    }
    if (distance_k(rest_.sink_rise_k, target_k) > 1e-3 * way_k + 1e-5) return false;
    rest_ = *equilibrium;
    warm_up_.end = WarmUp::End::at_rest;
    return true;
  }

  WarmUp finish() {
    warm_up_.rest = rest_;
    return std::move(warm_up_);
  }

  HeatingStage& stage_;
  const Heating& heating_;
  Rest rest_;
  int leaps_ = 0;
  WarmUp warm_up_;
};

}  // namespace

WarmUp follow(HeatingStage& stage, const Rest& begin, const Heating& heating) {
  return Follower(stage, begin, heating).run();
}

std::optional<Rest> rest_at(HeatingStage& stage, const WarmUp& warm_up, double seconds) {
  const auto& points = warm_up.points;
  if (seconds >= points.back().seconds) return stage.hold(warm_up.rest.sink_rise_k, warm_up.rest);
  std::size_t nearest = 0;
  while (nearest + 1 < points.size() && points[nearest + 1].seconds <= seconds) ++nearest;
  return stage.hold(value_at(points, seconds), warm_up.rests[nearest]);
}

ReturnToRest return_to_rest(HeatingStage& stage, const Rest& rest) {
  ReturnToRest result;
  if (stage.sinks() == 0) return result;
  for (const auto& rate : stage.warming_by_rise(rest).eigenvalues()) {
    if (rate.real() > 0.0) result.is_stable = false;
    if (rate.real() < 0.0) result.time_constants_s.push_back(-1.0 / rate.real());
    if (rate.imag() > 1e-3 * std::abs(rate.real())) {
      result.swing_s = 2.0 * std::numbers::pi / rate.imag();
    }
  }
  std::sort(result.time_constants_s.rbegin(), result.time_constants_s.rend());
  return result;
}

}  // namespace idlepoint::solve
