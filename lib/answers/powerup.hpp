// "With the rails coming up in steps, what should I see at each, and at which reading do I switch
// off?"
//
// Asked by cli/powerup.cpp; rendered by report/text_powerup and report/json_powerup.
// Source of the rules: docs/commands.md, "powerup".
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "answers/powerup_faults.hpp"
#include "answers/reading_values.hpp"
#include "answers/series_lamp.hpp"
#include "answers/set_on_low_rails.hpp"
#include "answers/setup.hpp"
#include "answers/switch_off.hpp"
#include "answers/thermal_story.hpp"
#include "answers/trimmer_places.hpp"
#include "solve/not_settled.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

struct PowerupAsked {
  /// Fractions of the rails that are asked for; rising, each above 0.
  std::vector<double> steps = {0.25, 0.5, 0.75, 1.0};
  std::optional<SeriesLamp> lamp = {};
};

/// A stage at one step, at the first cold moment.
struct AtStep {
  solve::OperatingPoint state;
  std::vector<ReadingValue> readings;  ///< With bands.
};

/// What a step proves, from its numbers alone.
struct StepTells {
  OutputPlace output = OutputPlace::unknown;  ///< The trimmers at their safe end.
  /// The output stands where it does on full rails, in proportion, to 5 % of the distance between
  /// the outermost rails; none without an output.
  std::optional<bool> output_belongs = {};
  bool takes_hold = false;  ///< The first step at which it belongs.
  /// Every reading that a trimmer sets stands at the preset within `within` of what it does on full
  /// rails; none without such a trimmer. Trimmers without a safe end set no idle.
  std::optional<bool> idle_stands = {};
  bool may_set = false;                      ///< 95 % of the nominal rails, or more.
  std::vector<circuit::PartId> asleep = {};  ///< Transistors off that conduct on full rails.
};

struct PowerupStep {
  double rails = 0.0;                   ///< Fraction of the nominal rails.
  std::optional<AtStep> safe_end = {};  ///< None where no DC state is found.
  std::optional<AtStep> preset = {};    ///< None without a preset, too.
  StepTells tells;
  std::vector<SwitchOff> switch_off = {};  ///< [readings] a sound stage trips none at either place.
  std::vector<SwitchOff> switch_off_at_safe_end = {};  ///< Tighter: while they stand there.
};

/// What a lamp in the mains lead shows.
struct LampShows {
  LampState state;
  std::optional<std::size_t> fault = {};  ///< Of `Powerup::faults`; none: the sound stage.
  bool at_preset = false;                 ///< Else the trimmers at their safe end.
};

struct LampAnswer {
  SeriesLamp lamp;
  std::vector<LampShows> sound = {};
  /// Every fault that turns the stage hard on at full rails, in the order of `faults`; those with
  /// which no DC state is found are left out.
  std::vector<LampShows> hard_on = {};
};

struct Powerup {
  TrimmerPlaces places;  ///< Both stages as the file has them where there is no preset.
  std::optional<std::string> no_preset = {};  ///< Why there is none, as a sentence.
  solve::OperatingPoint full;                 ///< The trimmers at their safe end, full rails.
  std::optional<AtStep> full_preset = {};     ///< Without bands.
  std::vector<PowerupStep> steps = {};
  std::vector<PowerupFault> faults = {};
  std::vector<SetOnLowRails> set_too_low = {};
  std::optional<LampAnswer> lamp = {};
  std::vector<std::string> changes = {};
  std::vector<std::string> warnings = {};
};

/// False where a target is out of reach, and where rails below 95 % leave no preset.
[[nodiscard]] bool is_good(const Powerup& powerup) noexcept;

/// Every figure is of a first cold moment; the preset is that of the state asked for. Thermal
/// trouble where no position of the trimmers has a warm state. Cost: two bands a step, a solve a
/// fault and step.
[[nodiscard]] std::variant<Powerup, solve::NotSettled, ThermalStory> ask_powerup(
    const Setup& setup, const PowerupAsked& asked);

/// Rails of the working volts at which `set_too_low` is asked beside the steps below 95 %.
inline constexpr double instructive_rails = 0.9;

}  // namespace idlepoint::answers
