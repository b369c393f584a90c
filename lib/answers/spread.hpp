// "How much of a reading is the parts' tolerance, and whose?"
//
// Asked by cli/spread.cpp; rendered by report/text_spread and report/json_spread. Many stages of
// the same drawing, each with parts of its own drawn from their tolerances and spreads
// (circuit/uncertainty), solved one by one; then once more with every trimmer following its target.
// Source: docs/commands.md, "spread"; [JCGM101].
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "answers/distribution.hpp"
#include "answers/reading_values.hpp"
#include "answers/setup.hpp"
#include "answers/shares.hpp"
#include "answers/thermal_story.hpp"
#include "solve/not_settled.hpp"

namespace idlepoint::answers {

struct SpreadAsked {
  std::size_t samples = 10000;  ///< Stages drawn; 1 or more.
  std::uint64_t seed = 1;       ///< The same seed draws the same stages.
  std::size_t threads = 0;      ///< 0: as many as the machine has. The answer is the same.
  /// Called now and then with the share of the work that is done, 0 to 1; false stops with what
  /// there is.
  std::function<bool(double share_done)> go_on = {};
};

/// A reading over the stages drawn, in its own unit.
struct SampledReading {
  std::optional<Distribution> values;   ///< None where no stage came to rest.
  std::optional<double> outside_limit;  ///< Share of them; none without a limit.
};

struct SpreadOfReading {
  ReadingValue nominal;  ///< Without `as_metered`.
  SampledReading as_it_stands;
  std::optional<SampledReading> when_set;  ///< Every trimmer set anew in each stage.
  Shares shares;                           ///< Trimmers as they stand.
};

struct SpreadOfPosition {
  circuit::PartId trimmer;
  circuit::ReadingId reading;
  double nominal_travel = 0.0;
  std::optional<Distribution> travel;  ///< Over the stages in which every target is reached.
  double reached = 0.0;  ///< Share of the stages at rest in which this reading is within `within`.
  Shares shares;
};

/// How many stages a figure rests on.
struct Drawn {
  std::size_t done = 0;          ///< Fewer than asked for where it was stopped.
  std::size_t failed = 0;        ///< Of those: without figures.
  std::size_t too_hot = 0;       ///< Of the failed: come to rest, but above a maximum.
  std::size_t out_of_reach = 0;  ///< Of the done: at rest, with a trimmer at an end of its track.
};

struct Spread {
  circuit::CheckedCircuit stage;  ///< With the trimmers as they stand.
  solve::Conditions conditions;
  std::size_t samples = 0;  ///< Asked for.
  std::uint64_t seed = 1;
  bool interrupted = false;
  std::size_t draws = 0;  ///< Numbers of the stage that differ from one to the next, on their own.
  Drawn as_it_stands = {};
  std::optional<Drawn> when_set = {};  ///< None: see `why_not_set`.
  std::optional<std::string> why_not_set = {};
  bool target_out_of_reach = false;  ///< With the nominal parts.
  std::vector<SpreadOfReading> readings = {};
  std::vector<SpreadOfPosition> positions = {};  ///< In the order of the adjustments.
  std::vector<std::string> changes = {};
  std::vector<std::string> warnings = {};
};

/// True where the nominal stage keeps its limits and reaches its targets; a limit that other
/// stages break is told, and is no fault of this one.
[[nodiscard]] bool is_good(const Spread& spread) noexcept;

/// Cost: a few microseconds to a few tens of them a sample and run; the preset once. A story where
/// the nominal stage itself has no state.
[[nodiscard]] std::variant<Spread, solve::NotSettled, ThermalStory> ask_spread(
    const Setup& setup, const SpreadAsked& asked);

}  // namespace idlepoint::answers
