// "How does the standing current move from switch-on to thermal equilibrium, and is it stable?"
//
// Asked by cli/warmup.cpp; rendered by report/text_warmup and report/json_warmup.
// Source: docs/commands.md, "warmup"; docs/models.md, "Heat".
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "answers/heat_course.hpp"
#include "answers/setup.hpp"
#include "answers/thermal_story.hpp"
#include "solve/not_settled.hpp"
#include "solve/operating_point.hpp"
#include "solve/warm_up.hpp"

namespace idlepoint::answers {

/// Loud music: extra watts in the heat sinks of one stage, for a time.
struct Soak {
  double watts = 0.0;
  double lasts_s = 0.0;
};

/// The room warmer (or colder) for a time.
struct RoomStep {
  double kelvin = 0.0;
  double lasts_s = 0.0;
};

struct WarmupAsked {
  std::optional<Soak> soak;
  std::optional<RoomStep> room_step;
};

/// What a soak or another room does to a stage at equilibrium, and the way back. Times count from
/// its beginning.
struct Disturbed {
  double lasts_s = 0.0;
  std::vector<double> extra_w;  ///< [heat sinks] of a soak; empty for another room.
  double room_step_k = 0.0;     ///< 0 for a soak.
  Course course;
  std::vector<Swing> swings;                  ///< [quantities]
  std::vector<std::optional<double>> back_s;  ///< [quantities] after its end.
};

/// A stage that runs away, or gets too hot, on the way.
struct WarmupTrouble {
  enum class During { warm_up, soak, room_step, recovery };
  During during = During::warm_up;
  double after_s = 0.0;  ///< From the beginning of that: the limit is passed, or no rest is left.
  /// A rest exists that bears its own heat, and is missed on the way: heat sinks of unlike speed.
  bool misses_rest = false;
  ThermalStory story;  ///< Its remedies are sought for a warm-up that has no rest to miss.
};

/// The whole warm-up. Quantities are the readings, then the heat sinks.
struct Warmup {
  circuit::CheckedCircuit stage;
  solve::Conditions conditions = {};
  bool can_heat = true;  ///< False: nothing below moves.
  /// From the cold moment at 0 to `warm`; to where the trouble of a warm-up begins.
  Course course = {};
  std::optional<solve::OperatingPoint> warm = {};     ///< None where it never comes to rest.
  std::vector<std::optional<double>> settled_s = {};  ///< [quantities]
  std::vector<bool> set_with_all_parts = {};  ///< [adjustments] as answers/taken_out finds them.
  std::optional<double> all_settled_s = {};
  solve::ReturnToRest returns = {};
  std::optional<Disturbed> soak = {};
  std::optional<Disturbed> room_step = {};
  std::optional<WarmupTrouble> trouble = {};
  std::vector<std::string> changes = {};  ///< Edits made to the drawing, as faults are written.
  std::vector<std::string> warnings = {};
};

using WarmupOutcome = std::variant<Warmup, solve::NotSettled>;

[[nodiscard]] WarmupOutcome ask_warmup(const Setup& setup, const WarmupAsked& asked);

/// True where it comes to rest, and what was asked for could be done without trouble.
[[nodiscard]] bool is_good(const Warmup& answer, const WarmupAsked& asked) noexcept;

/// Marks of a clock at which a technician looks: seconds, ascending, from 10 s to 2 h.
[[nodiscard]] const std::vector<double>& clock_marks_s();

}  // namespace idlepoint::answers
