// "Will this substitute do?" Readings before and after, the new preset, every rating against what
// the stage asks of it, heat, thermal stability: and a verdict.
//
// Asked by cli/swap.cpp; rendered by report/text_swap and report/json_swap. The demands and the
// verdict: docs/commands.md, "swap".
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "answers/answering.hpp"
#include "answers/control_step.hpp"
#include "answers/demands.hpp"
#include "answers/played_loud.hpp"
#include "answers/preset.hpp"
#include "answers/range_cure.hpp"
#include "answers/readings.hpp"
#include "answers/stand_in_test.hpp"
#include "answers/verdict.hpp"
#include "circuit/stand_in.hpp"

namespace idlepoint::answers {

/// What is asked for: another type in a part's place, or a stand-in for a bias part.
using Replacement = std::variant<circuit::SetType, circuit::StandIn>;

struct Swapped {
  circuit::PartId part;
  std::string from;  ///< The old type's name, or "thermistor".
  std::string to;    ///< The new type's name, or the stand-in as it is written.
  /// The new type's part, or the parts of the stand-in; ids of the stage after.
  std::vector<circuit::PartId> now;
  /// At the current that the part carries before; none where it carries nothing.
  std::optional<ControlStep> control = {};
  /// Of a stand-in alone; none where it could not be tested.
  std::optional<StandInTest> stand_in = {};
  /// Where the old type or the new one is a zener.
  std::optional<ZenerStep> zener = {};
};

/// True for a stand-in, false for another type in the part itself.
[[nodiscard]] bool is_stand_in(const Swapped& swapped) noexcept;

/// A stand-in that carries next to nothing where it is: as good as left out.
[[nodiscard]] bool is_left_idle(const Swapped& swapped) noexcept;

/// Transistors side by side, of which some are now of another type: what each carries at rest.
struct Sharing {
  struct Share {
    circuit::PartId part;
    double amps = 0.0;
  };
  std::vector<Share> shares;
};

/// A stage with readings at the trimmers' places in the file, and with its preset.
struct Side {
  std::variant<Readings, solve::NotSettled, ThermalStory> readings;
  std::variant<Preset, solve::NotSettled, ThermalStory> preset;
};

/// The Readings or the Preset, if there are any.
[[nodiscard]] const Readings* readings_of(const Side& side) noexcept;
[[nodiscard]] const Preset* preset_of(const Side& side) noexcept;

/// Where the stage is judged: at its preset; at the trimmers' places where nothing is adjusted.
/// None where it has no such state.
[[nodiscard]] const solve::OperatingPoint* judged_state(const Side& side) noexcept;

struct Swap {
  circuit::CheckedCircuit stage;  ///< After, its trimmers as in the file.
  std::vector<Swapped> swaps;
  Side before;
  Side after;
  std::vector<RatingCheck> ratings_before = {};  ///< Of the old types, where they can be judged.
  std::vector<RatingCheck> ratings = {};  ///< Of the new parts, and of the drivers of new outputs.
  std::optional<PlayedLoud> loud = {};    ///< The stage after; none where it cannot be played.
  std::string not_played = {};            ///< Why it cannot be played.
  std::vector<PeakDrive> drive_before = {};  ///< Of the new parts that are bipolar transistors.
  std::vector<PeakDrive> drive_after = {};
  std::optional<double> loop_gain_before = {};  ///< None when cold.
  std::optional<double> loop_gain_after = {};
  /// Output parts of the other half that keep their old type while these got a new one.
  std::vector<circuit::PartId> left_behind = {};
  std::vector<RangeCure> cures = {};  ///< Of the first target that is out of reach after.
  std::vector<Sharing> sharing = {};
  std::vector<Answering> answering = {};  ///< What the standing current hears of the new parts.
  Verdict verdict = Verdict::suitable;
  std::vector<std::string> warnings = {};
};

/// The stage as it is does not settle: its story. A replacement that does not fit: words.
[[nodiscard]] std::variant<Swap, solve::NotSettled, ThermalStory, std::string> ask_swap(
    const Setup& setup, const std::vector<Replacement>& replacements);

}  // namespace idlepoint::answers
