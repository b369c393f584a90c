#include "answers/warmup.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "answers/readings.hpp"
#include "answers/soak_shares.hpp"
#include "answers/taken_out.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::answers {
namespace {

using solve::HeatingStage;
using solve::Rest;
using solve::WarmUp;

using During = WarmupTrouble::During;

struct Passing {
  solve::ThermalTrouble trouble;
  During during;
  double after_s;
};

// Too hot where it comes to rest, or the time is up; a runaway where it does not.
std::optional<Passing> passing_of(const HeatingStage& stage, const WarmUp& stretch, During during) {
  using Kind = solve::ThermalTrouble::Kind;
  const bool runs_away = stretch.end == WarmUp::End::runs_away;
  if (!stretch.passed && !runs_away) return std::nullopt;
  const double last_s = stretch.points.back().seconds;
  if (!stretch.passed) return Passing{stage.trouble(Kind::runaway, stretch.rest), during, last_s};
  auto trouble = stretch.passed->trouble;
  if (!runs_away) {
    const auto at_rest = stage.trouble(Kind::too_hot, stretch.rest);
    if (during == During::warm_up && at_rest.junction_k > trouble.junction_k) trouble = at_rest;
    trouble.kind = Kind::too_hot;
  }
  return Passing{trouble, during, stretch.passed->seconds};
}

// Close together at first, where all moves, and at the marks of the clock; a second after the
// beginning where only what stands in free air moves.
std::vector<double> course_times(double end_s) {
  constexpr int count = 60;
  if (!(end_s > 0.0)) return {1.0};
  std::vector<double> times_s;
  for (int k = 1; k <= count; ++k) {
    const double part = static_cast<double>(k) / count;
    times_s.push_back(end_s * part * part);
  }
  for (const double mark_s : clock_marks_s()) {
    if (mark_s < end_s) times_s.push_back(mark_s);
  }
  std::sort(times_s.begin(), times_s.end());
  times_s.erase(std::unique(times_s.begin(), times_s.end()), times_s.end());
  return times_s;
}

std::vector<std::string> capacity_warnings(const circuit::Circuit& circuit) {
  std::vector<std::string> warnings;
  for (const auto& sink : circuit.heatsinks) {
    if (sink.capacity_j_per_k) continue;
    warnings.push_back(
        fmt::format("No capacity is entered for {}: {:.0f} J/K is taken. The times rest on that; "
                    "aluminium has 0.9 J/K a gram.",
                    sink.name,
                    solve::assumed_capacity_j_per_k));
  }
  return warnings;
}

/// One question from beginning to end.
class Asker {
 public:
  Asker(const Setup& setup, const WarmupAsked& asked)
      : setup_(setup), asked_(asked), stage_(setup.stage, setup.conditions) {}

  WarmupOutcome ask() {
    auto cold = solve::solve_cold(setup_.stage, setup_.conditions);
    if (auto* story = std::get_if<solve::NotSettled>(&cold)) return std::move(*story);
    cold_ = std::get<solve::OperatingPoint>(std::move(cold));
    answer_.can_heat = circuit::can_heat(stage_.circuit());
    answer_.course = empty_course(stage_.circuit());
    auto begin = stage_.begin();
    if (auto* story = std::get_if<solve::NotSettled>(&begin)) return std::move(*story);
    if (const auto* trouble = std::get_if<solve::ThermalTrouble>(&begin)) {
      passing_ = Passing{*trouble, During::warm_up, 0.0};
    } else {
      warm_up(std::get<Rest>(begin));
    }
    put_first(0.0, quantities_of(stage_.circuit(), *cold_), answer_.course);
    if (answer_.warm) disturb();
    if (passing_) tell_trouble();
    finish();
    return std::move(answer_);
  }

 private:
  [[nodiscard]] solve::Heating idling() const {
    solve::Heating heating;
    heating.extra_w = Eigen::VectorXd::Zero(stage_.sinks());
    return heating;
  }

  void warm_up(const Rest& begin) {
    auto stretch = solve::follow(stage_, begin, idling());
    passing_ = passing_of(stage_, stretch, During::warm_up);
    const bool at_rest = stretch.end == WarmUp::End::at_rest;
    const Rest last = stretch.rest;
    HeatCourse course;
    course.add(stage_, std::move(stretch));
    const double end_s = passing_ ? passing_->after_s : course.end_s();
    if (answer_.can_heat) answer_.course = course.course(course_times(end_s));
    answer_.settled_s.assign(answer_.course.readings.size() + answer_.course.heatsinks.size(), {});
    if (at_rest && !passing_) judge_rest(last, course);
  }

  void judge_rest(const Rest& last, HeatCourse& course) {
    rest_ = stage_.equilibrium(last).value_or(last);
    answer_.warm = stage_.moment(rest_);
    answer_.returns = solve::return_to_rest(stage_, rest_);
    last_ = quantities_of(stage_.circuit(), *answer_.warm);
    bands_ = settled_bands(stage_.circuit(), last_);
    answer_.settled_s = settled_times(course, last_, bands_, 0.0);
    answer_.all_settled_s = 0.0;
    for (const auto& settled : answer_.settled_s) {
      answer_.all_settled_s = std::max(*answer_.all_settled_s, settled.value_or(course.end_s()));
    }
  }

  void disturb() {
    if (asked_.soak) soak(*asked_.soak);
    if (asked_.room_step && !passing_) step_room(*asked_.room_step);
  }

  void soak(const Soak& soak) {
    const auto shares = soak_shares(setup_.stage, *cold_, soak.watts);
    if (!shares) {
      answer_.warnings.emplace_back(
          "No soak: no part that heats sits on a heat sink, so the watts have nowhere to go.");
      return;
    }
    Disturbed disturbed;
    solve::Heating heating = idling();
    heating.lasts_s = soak.lasts_s;
    for (std::size_t k = 0; k < shares->size(); ++k) {
      disturbed.extra_w.push_back(soak.watts * (*shares)[k]);
      heating.extra_w[static_cast<Eigen::Index>(k)] = disturbed.extra_w[k];
    }
    HeatCourse course;
    auto stretch = solve::follow(stage_, rest_, heating);
    passing_ = passing_of(stage_, stretch, During::soak);
    if (passing_) return;
    const Rest end = stretch.rest;
    course.add(stage_, std::move(stretch));
    recover(end, std::move(course), soak.lasts_s, std::move(disturbed), answer_.soak);
  }

  /// The sinks keep their temperature while the room changes around them.
  void step_room(const RoomStep& step) {
    const auto moved =
        setup_.stage.edited([&](circuit::Circuit& circuit) { circuit.ambient_k += step.kelvin; });
    HeatingStage elsewhere(moved, setup_.conditions);
    const Eigen::VectorXd step_k = Eigen::VectorXd::Constant(stage_.sinks(), step.kelvin);
    const auto begin = elsewhere.hold(rest_.sink_rise_k - step_k, rest_);
    if (!begin) {
      answer_.warnings.emplace_back("No other room: no steady state was found at once there.");
      return;
    }
    solve::Heating heating = idling();
    heating.lasts_s = step.lasts_s;
    auto stretch = solve::follow(elsewhere, *begin, heating);
    passing_ = passing_of(elsewhere, stretch, During::room_step);
    if (passing_) return;
    const auto back = stage_.hold(stretch.rest.sink_rise_k + step_k, stretch.rest);
    if (!back) return;
    Disturbed disturbed;
    disturbed.room_step_k = step.kelvin;
    HeatCourse course;
    course.add(elsewhere, std::move(stretch));
    recover(*back, std::move(course), step.lasts_s, std::move(disturbed), answer_.room_step);
  }

  void recover(const Rest& from,
               HeatCourse course,
               double lasts_s,
               Disturbed disturbed,
               std::optional<Disturbed>& into) {
    auto stretch = solve::follow(stage_, from, idling());
    passing_ = passing_of(stage_, stretch, During::recovery);
    if (passing_) return;
    course.add(stage_, std::move(stretch));
    disturbed.lasts_s = lasts_s;
    disturbed.swings = swings(course, last_);
    disturbed.back_s = settled_times(course, last_, bands_, lasts_s);
    auto times_s = course_times(course.end_s());
    times_s.push_back(lasts_s);
    std::sort(times_s.begin(), times_s.end());
    disturbed.course = course.course(times_s);
    put_first(0.0, last_, disturbed.course);
    into = std::move(disturbed);
  }

  void tell_trouble() {
    const auto& trouble = passing_->trouble;
    const bool on_the_way = passing_->during == During::warm_up;
    const bool misses_rest = on_the_way && std::holds_alternative<solve::OperatingPoint>(
                                               solve::solve_stage(setup_.stage, setup_.conditions));
    auto story = on_the_way && !misses_rest
                     ? tell_thermal(setup_, setup_.stage, trouble)
                     : ThermalStory{setup_.stage, setup_.conditions, trouble, false, {}, {}, {}};
    answer_.trouble =
        WarmupTrouble{passing_->during, passing_->after_s, misses_rest, std::move(story)};
  }

  void finish() {
    answer_.conditions = setup_.conditions;
    answer_.set_with_all_parts = set_with_all_parts(setup_.stage, setup_.conditions);
    answer_.changes = setup_.changes;
    auto warnings = standing_warnings(setup_);
    for (auto& text : capacity_warnings(*setup_.stage)) warnings.push_back(std::move(text));
    if (answer_.warm) {
      for (auto& text : state_warnings(*setup_.stage, *answer_.warm)) {
        warnings.push_back(std::move(text));
      }
    }
    for (auto& text : answer_.warnings) warnings.push_back(std::move(text));
    answer_.warnings = std::move(warnings);
  }

  const Setup& setup_;
  const WarmupAsked& asked_;
  HeatingStage stage_;
  std::optional<solve::OperatingPoint> cold_;
  Rest rest_;
  std::vector<double> last_;
  std::vector<double> bands_;
  std::optional<Passing> passing_;
  Warmup answer_{setup_.stage};
};

}  // namespace

WarmupOutcome ask_warmup(const Setup& setup, const WarmupAsked& asked) {
  return Asker(setup, asked).ask();
}

bool is_good(const Warmup& answer, const WarmupAsked& asked) noexcept {
  return answer.warm && !answer.trouble && (!asked.soak || answer.soak) &&
         (!asked.room_step || answer.room_step);
}

const std::vector<double>& clock_marks_s() {
  static const std::vector<double> marks_s = {
      10.0, 30.0, 60.0, 120.0, 300.0, 600.0, 1200.0, 2400.0, 3600.0, 7200.0};
  return marks_s;
}

}  // namespace idlepoint::answers
