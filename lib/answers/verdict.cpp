#include "answers/verdict.hpp"

#include <algorithm>
#include <cmath>

#include "circuit/type_fields.hpp"

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

std::optional<ZenerStep> compare_zeners(const circuit::Circuit& circuit,
                                        circuit::TypeId before,
                                        circuit::TypeId after) {
  const ZenerStep step{circuit::field_value(circuit.at(before), "zener_voltage"),
                       circuit::field_value(circuit.at(after), "zener_voltage")};
  if (!step.before_v && !step.after_v) return std::nullopt;
  return step;
}

Verdict allowed_by(const ZenerStep& zener) noexcept {
  if (!zener.before_v || !zener.after_v) return Verdict::unsuitable;
  constexpr double alike = 0.05;
  constexpr double near_by = 0.15;
  const double off = std::abs(*zener.after_v / *zener.before_v - 1.0);
  if (off <= alike) return Verdict::suitable;
  return off <= near_by ? Verdict::with_care : Verdict::unsuitable;
}

bool is_at_an_end(double travel) noexcept {
  constexpr double margin = 0.05;
  return travel < margin || travel > 1.0 - margin;
}

Verdict allowed_by(const Preset& preset) noexcept {
  Verdict verdict = Verdict::suitable;
  for (const auto& answer : preset.adjustments) {
    if (!answer.reached) return Verdict::unsuitable;
    if (is_at_an_end(answer.travel)) verdict = Verdict::with_care;
  }
  return verdict;
}

}  // namespace idlepoint::answers
