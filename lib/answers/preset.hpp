// "Where do I set each trimmer before I switch on, and which end is the safe one?"
//
// Asked by cli/preset.cpp; rendered by report/text_preset and report/json_preset.
// Source of every rule: docs/commands.md, "preset".
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "answers/reading_values.hpp"
#include "answers/set_trimmers.hpp"
#include "answers/setup.hpp"
#include "answers/taken_out.hpp"
#include "answers/thermal_margin.hpp"
#include "answers/thermal_story.hpp"
#include "answers/trimmer_in_circuit.hpp"
#include "answers/trimmer_states.hpp"
#include "solve/not_settled.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

/// What a trimmer that can only be set with all parts in shows meanwhile: the bias that it makes,
/// between two points of the bias string, just switched on.
struct BiasMeanwhile {
  BiasPoints at;
  double whole_v = 0.0;               ///< Everything in, every trimmer in its place.
  std::optional<double> v = {};       ///< Parts out, the trimmers so; none where nothing settles.
  std::optional<double> safe_v = {};  ///< Parts out, this trimmer at its safe end.
  bool is_linked = false;             ///< `v` and `safe_v` with the output linked (LooseOutput).
};

/// One trimmer and its reading. Readings are in the reading's own unit (Celsius for temperatures).
struct TrimmerAnswer {
  circuit::PartId trimmer;
  circuit::ReadingId reading;
  ReadingUnit unit = ReadingUnit::volt;
  double target = 0.0;
  double within = 0.0;
  double value = 0.0;  ///< What the reading comes to at the preset.
  /// What it reads there just after switch-on; beside a warm state alone.
  std::optional<double> cold_value;
  bool reached = false;  ///< `value` within `within` of `target`.
  bool at_end = false;   ///< Driven past an end and left there.
  double travel = 0.0;   ///< 0 to 1, from the first-named end.
  /// Of the travel, 0 to 1; none at an end. All trimmers follow together.
  std::optional<Band> travel_band = {};
  double slope_per_travel = 0.0;      ///< The other trimmers fixed, the heat following if warm.
  std::vector<double> other_travels;  ///< Further travels that give the target too.
  TrackOhms ohms;
  /// The reading is that of parts taken out: all figures are those of the whole stage.
  bool is_of_whole = false;
  std::optional<BiasMeanwhile> meanwhile = {};
  TrimmerInCircuit in_circuit;  ///< `ohms` again, the power off and nothing lifted.
  TrimmerStates states;         ///< At both ends, half way, and with the wiper lifted; all cold.
};

/// What the one trimmer was set to where the file says nothing: from answers/crossover, and not the
/// maker's figure. Readings in the reading's own unit, ripples as fractions.
struct PresetAim {
  double target = 0.0;
  double gain_ripple = 0.0;
  /// As CrossoverAim::Why; at most one is true, neither where it is the most that stays cool.
  bool is_flattest = false;
  bool is_published = false;
  double flattest_reading = 0.0;
  double flattest_ripple = 0.0;
};

/// The preset of a whole stage.
struct Preset {
  circuit::CheckedCircuit stage;  ///< With the travels set, where there are any.
  /// Why there is no preset: rails too low, nothing to adjust, a trimmer that is broken. All below
  /// is then empty but the changes and warnings.
  std::optional<std::string> refused = {};
  std::optional<solve::OperatingPoint> state = {};  ///< At the preset, cold or warm as asked.
  std::vector<TrimmerAnswer> adjustments = {};      ///< In the file's order.
  std::vector<std::size_t> order = {};  ///< Indices into `adjustments`, the one to set first first.
  std::optional<PresetAim> aim = {};    ///< Where the file has no `adjust`: of the only adjustment.
  bool goes_round_twice = false;        ///< Two trimmers disturb each other's readings.
  std::vector<ReadingValue> readings = {};
  std::optional<ColdMoment> cold = {};  ///< Beside a warm state alone, as is the next.
  std::optional<ThermalMargin> thermal = {};
  std::vector<std::string> changes = {};  ///< Edits made to the drawing, as faults are written.
  std::vector<std::string> warnings = {};
};

/// True where every target was reached and no limit is broken.
[[nodiscard]] bool is_good(const Preset& preset) noexcept;

/// With parts taken out, a trimmer that sets what they carry has its place in the whole stage, and
/// the readings are those of the stage without them. Where the file has no `adjust`, the standing
/// current is set to what `crossover` would aim for. Thermal trouble also where a target lies
/// beyond the last position that has a warm state.
[[nodiscard]] std::variant<Preset, solve::NotSettled, ThermalStory> ask_preset(const Setup& setup);

}  // namespace idlepoint::answers
