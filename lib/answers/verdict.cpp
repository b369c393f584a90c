#include "answers/verdict.hpp"

#include <algorithm>

namespace idlepoint::answers {

Verdict worse(Verdict one, Verdict other) noexcept { return std::max(one, other); }

Verdict allowed_by(const RatingCheck& check) noexcept {
  if (!check.ok) return Verdict::with_care;
  if (!*check.ok) return Verdict::unsuitable;
  return check.margin && *check.margin < comfortable_margin ? Verdict::with_care
                                                            : Verdict::suitable;
}

Verdict allowed_by(const RatingCheck& check, const RatingCheck* old_one) noexcept {
  const Verdict alone = allowed_by(check);
  const bool is_safe_area =
      check.rating == Rating::safe_area_resistive || check.rating == Rating::safe_area_reactive;
  if (alone != Verdict::unsuitable || !is_safe_area || old_one == nullptr) return alone;
  const bool old_breaks = old_one->ok == false && old_one->limit && check.limit;
  return old_breaks && *check.limit >= *old_one->limit ? Verdict::with_care : alone;
}

const RatingCheck* same_rating(const std::vector<RatingCheck>& checks,
                               const RatingCheck& check) noexcept {
  const auto found = std::find_if(checks.begin(), checks.end(), [&](const RatingCheck& one) {
    return one.part == check.part && one.rating == check.rating;
  });
  return found == checks.end() ? nullptr : &*found;
}

Verdict allowed_by_loop_gain(double loop_gain) noexcept {
  if (loop_gain < comfortable_loop_gain) return Verdict::suitable;
  return loop_gain < highest_loop_gain ? Verdict::with_care : Verdict::unsuitable;
}

Verdict allowed_by(const Preset& preset) noexcept {
  const bool all_reached = std::all_of(preset.adjustments.begin(),
                                       preset.adjustments.end(),
                                       [](const auto& answer) { return answer.reached; });
  return all_reached ? Verdict::suitable : Verdict::unsuitable;
}

}  // namespace idlepoint::answers
