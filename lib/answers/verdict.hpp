// What each thing that is weighed leaves open: suitable, suitable with care, unsuitable.
//
// Used by the `swap` and `shelf` answers and by their words. Source: docs/commands.md, "swap".
#pragma once

#include <optional>
#include <vector>

#include "answers/demands.hpp"
#include "answers/preset.hpp"

namespace idlepoint::answers {

enum class Verdict { suitable, with_care, unsuitable };

/// What must be left of a rating, and of the thermal loop gain, for a plain yes; and for any yes.
inline constexpr double comfortable_margin = 0.2;
inline constexpr double comfortable_loop_gain = 0.5;
inline constexpr double highest_loop_gain = 0.8;

/// The worse of two.
[[nodiscard]] Verdict worse(Verdict one, Verdict other) noexcept;

/// A rating that is not given allows no more than care.
[[nodiscard]] Verdict allowed_by(const RatingCheck& check) noexcept;

/// As above; but a safe area that `old_one` (null: unknown), the same check of the part that was
/// there, breaks as well is no ground to refuse a part that is allowed no less: that is care. The
/// continuous safe area at full output is a rule of thumb that many a sound stage is outside of.
[[nodiscard]] Verdict allowed_by(const RatingCheck& check, const RatingCheck* old_one) noexcept;

/// What a clamp or a reference holds: its zener voltage, old and new; none: it has none.
struct ZenerStep {
  std::optional<double> before_v;
  std::optional<double> after_v;
};

/// None where neither type is a zener.
[[nodiscard]] std::optional<ZenerStep> compare_zeners(const circuit::Circuit& circuit,
                                                      circuit::TypeId before,
                                                      circuit::TypeId after);

/// Suitable within 5 %, with care within 15 %, else, and where one has none, unsuitable.
[[nodiscard]] Verdict allowed_by(const ZenerStep& zener) noexcept;

/// The same rating of the same part among `checks`; null for none.
[[nodiscard]] const RatingCheck* same_rating(const std::vector<RatingCheck>& checks,
                                             const RatingCheck& check) noexcept;

[[nodiscard]] Verdict allowed_by_loop_gain(double loop_gain) noexcept;

/// Within 5 % of either end of a track: no hand sets it there for good.
[[nodiscard]] bool is_at_an_end(double travel) noexcept;

/// Unsuitable where a target is out of reach, with care where one is reached within 5 % of an end
/// of the track. A stage without anything to adjust is not judged by it.
[[nodiscard]] Verdict allowed_by(const Preset& preset) noexcept;

}  // namespace idlepoint::answers
