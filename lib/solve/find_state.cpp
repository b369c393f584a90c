#include "solve/find_state.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "solve/balance_check.hpp"
#include "solve/continuation.hpp"
#include "solve/law_range.hpp"
#include "solve/stability.hpp"
#include "solve/story.hpp"

namespace idlepoint::solve {
namespace {

/// One search for a state: the ladders' results are judged here, and the story collected.
class Search {
 public:
  Search(const System& system, const Numbers& numbers, Work& work)
      : system_(system), numbers_(numbers), work_(work) {}

  Found run(const State* start) {
    if (auto contradiction = contradictory_loop(system_, numbers_)) return *contradiction;
    if (start != nullptr) {
      state_ = *start;
      if (settles(plain_newton(system_, numbers_, state_, work_))) return solution_;
    }
    state_ = cold_start(system_, numbers_);
    if (settles(plain_newton(system_, numbers_, state_, work_))) return solution_;
    if (settles(lower_shunt(system_, numbers_, state_, work_))) return solution_;
    if (settles(raise_rails(system_, numbers_, state_, work_))) return solution_;
    state_ = cold_start(system_, numbers_);
    if (settles(follow_in_time(system_, numbers_, 1.0, state_, work_))) return solution_;
    return tell(system_, work_, std::move(story_));
  }

 private:
  /// True where the ladder arrived at a state that is accepted, or at an unstable one from which
  /// such a state could be reached; `solution_` then holds it.
  bool settles(const LadderResult& result) {
    if (!accepts(result)) return false;
    if (is_stable(system_, numbers_, state_, work_)) return true;
    story_.tried.back().stopped_at = "a balance that would not stay";
    solution_.has_other_states = true;
    return leaves_unstable_balance();
  }

  bool leaves_unstable_balance() {
    const State unstable = state_;
    const GrowingMode mode = growing_mode(system_, work_);
    for (const double side : {1.0, -1.0}) {
      state_ = unstable;
      for (std::size_t k = 0; k < static_cast<std::size_t>(system_.unknowns); ++k) {
        state_.x[k] += side * mode.direction_v[k];
      }
      const double inertia_s = std::clamp(4.0 * mode.rate_s, 1e-9, 1.0);
      if (!accepts(follow_in_time(system_, numbers_, inertia_s, state_, work_))) continue;
      if (is_stable(system_, numbers_, state_, work_)) return true;
      story_.tried.back().stopped_at = "a balance that would not stay";
    }
    return false;
  }

  /// Settled, inside every law, balanced: then `solution_` holds state and report.
  bool accepts(const LadderResult& result) {
    story_.tried.push_back(result.attempt);
    if (!result.settled) return false;
    const BalanceCheck check = check_balance(system_, numbers_, state_, work_);
    if (!check.holds) {
      story_.tried.back().stopped_at = "rounding larger than the balance";
      return false;
    }
    if (const auto outside = find_outside_law(system_, numbers_, state_, work_)) {
      note_outside(system_, *outside, story_);
      return false;
    }
    int steps = 0;
    for (const Attempt& attempt : story_.tried) steps += attempt.steps;
    solution_.state = state_;
    solution_.report = {steps, result.attempt.strategy, check.worst_a};
    return true;
  }

  const System& system_;
  const Numbers& numbers_;
  Work& work_;
  State state_;
  NotSettled story_;
  Solution solution_;
};

}  // namespace

Found find_state(const System& system, const Numbers& numbers, Work& work, const State* start) {
  return Search(system, numbers, work).run(start);
}

}  // namespace idlepoint::solve
