// Exact solutions over the travels of the trimmers, dense enough to draw the rest between them.
//
// The sheet's sliders move through these: the page holds no solver. Used by answers/sheet; printed
// by report/json_sheet; drawn by lib/report/page/between.js with the formula of
// answers/interpolation.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "answers/setup.hpp"
#include "circuit/checked_circuit.hpp"

namespace idlepoint::answers {

/// Why a place of the trimmers has no figures: warm, none that is stable and cool enough; no state
/// at all.
enum class NoState { none, no_rest, not_settled };

/// "finds no rest", "does not settle"; empty for none.
[[nodiscard]] std::string_view word(NoState why) noexcept;

/// One exact solution.
struct SliderPoint {
  NoState why_not = NoState::none;
  /// Volts of every node, in the circuit's order; then one current a part (`slider_current_a`);
  /// then every reading in its own unit. Empty where there is no state.
  std::vector<double> values = {};
  /// Of every reading: as far as the picture may be off (`find_sliders`). Not drawn.
  std::vector<double> within = {};
};

/// A current that says what a part carries: of a part with two leads, from the first into the
/// second; of a transistor, into its collector or drain; of a trimmer, the largest of its legs
/// without its sign.
[[nodiscard]] double slider_current_a(const circuit::Part& part,
                                      const std::vector<double>& lead_current_a);

/// Trimmers that move together: one, or two; none in a stage without.
struct SliderGrid {
  std::vector<circuit::PartId> trimmers;
  std::vector<std::vector<double>> axes;  ///< [trimmers] travels, ascending, first 0, last 1.
  /// Every combination, the last trimmer's travel moving fastest. Trimmers that are not of this
  /// grid stand where the stage has them.
  std::vector<SliderPoint> cold;
  std::vector<SliderPoint> warm;  ///< Empty where the warm state is not asked for.
};

struct Sliders {
  circuit::CheckedCircuit stage;  ///< With the travels that the sliders begin at.
  /// One grid of both where there are two trimmers; else one a trimmer, moving alone. Without a
  /// trimmer one grid of no axes and a single point.
  std::vector<SliderGrid> grids;
};

/// What is drawn between the points of a grid at travels, one a trimmer of it: empty values, and
/// why, where a corner of the cell around them has no state.
[[nodiscard]] SliderPoint drawn_at(const SliderGrid& grid,
                                   const std::vector<SliderPoint>& points,
                                   const std::vector<double>& travels);

/// Trimmers that the stage has and that are whole. Refined until, half way between any two
/// neighbours, every reading that is drawn lies within a twentieth of its band of an exact solution
/// (by the plain sum of tolerances, and of no band wider than twice the reading and ten times
/// narrower than that sum; or 20 uV, 20 uA, 0.05 C), and every node within half a millivolt or a
/// thousandth; not below 1/256 of the travel. `go_on` is called with the share done, 0 to 1; false
/// ends with what there is.
[[nodiscard]] Sliders find_sliders(const Setup& setup,
                                   const std::function<bool(double share_done)>& go_on);

}  // namespace idlepoint::answers
