// One standing current: where the trimmer then stands, how flat the gain is, what it costs in heat.
//
// A row of the crossover answer. Source: docs/commands.md, "crossover".
#pragma once

#include <optional>
#include <vector>

#include "answers/gain_curve.hpp"
#include "circuit/checked_circuit.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

struct IdleSetting {
  double reading = 0.0;           ///< SI, as `OperatingPoint::read`.
  double travel = 0.0;            ///< Of the trimmer that sets it, 0 to 1.
  circuit::CheckedCircuit stage;  ///< Every trimmer in its place.
  solve::OperatingPoint state;    ///< At rest there, without the loudspeaker.
  GainCurve curve;                ///< With it.
};

/// A minimum is left where what varies has risen again by that.
inline constexpr double risen_again = 1.02;

/// Index of the first minimum of what varies, of settings by rising standing current: the least
/// before it has come down below a third of its most and risen again, else the least of all.
/// Beyond it come class A, flatter still, and much heat; far below it a stage that hardly passes
/// anything may seem flat. Requires a setting.
[[nodiscard]] std::size_t first_minimum(const std::vector<IdleSetting>& settings);

/// Why there is no such standing current.
enum class NoSetting {
  track_end,    ///< The trimmer does not go so far.
  heat,         ///< No warm state there, or too hot.
  not_settled,  ///< No state was found, at rest or on the way of the swing.
  hot_already,  ///< Not tried: three times past the last one that stays cool.
};

/// The rules by which a standing current counts as cool: this house's, no standard.
inline constexpr double cool_sink_rise_k = 25.0;  ///< Any heat sink above the room, at idle.
inline constexpr double cool_loop_gain = 0.5;     ///< More than half of each extra watt stays away.

/// Every heat sink within `cool_sink_rise_k`, the loop gain below `cool_loop_gain`, no part above a
/// rating. In the cold state only the ratings can be judged.
[[nodiscard]] bool is_cool(const IdleSetting& setting);

/// The hottest heat sink; none without heat sinks.
[[nodiscard]] std::optional<circuit::HeatsinkId> hottest_sink(const IdleSetting& setting);

}  // namespace idlepoint::answers
