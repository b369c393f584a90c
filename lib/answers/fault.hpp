// "What would this fault do to every reading, and why?": the chain of cause on paper.
//
// Asked by cli/fault.cpp; rendered by report/text_fault and report/json_fault. Source:
// docs/commands.md, "fault".
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "answers/fault_chain.hpp"
#include "answers/fault_dangers.hpp"
#include "answers/reading_values.hpp"
#include "answers/setup.hpp"
#include "answers/thermal_story.hpp"
#include "circuit/edits.hpp"
#include "solve/not_settled.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

struct FaultAsked {
  Setup sound;  ///< The stage before, and the conditions of both.
  circuit::CheckedCircuit faulty;
  std::vector<circuit::Edit> faults;  ///< That make the one of the other, in order.
};

struct FaultReading {
  std::string name;
  circuit::Probe probe;
  ReadingUnit unit = ReadingUnit::volt;
  double healthy = 0.0;  ///< In its own unit, as is the next.
  double faulty = 0.0;
  bool is_shown = false;  ///< The stage's meter shows the change beyond its own error.
  std::optional<double> once_blown = {};  ///< With the fuses open that blow.
};

struct Fault {
  circuit::CheckedCircuit sound;
  circuit::CheckedCircuit faulty;
  solve::OperatingPoint sound_state;
  solve::OperatingPoint faulty_state;
  std::vector<circuit::Edit> faults;
  std::vector<FaultReading> readings;
  std::vector<ChainStep> chain;
  std::vector<Danger> dangers;
  std::vector<circuit::PartId> blown;  ///< Fuses that blow, in the order they do.
  std::optional<solve::OperatingPoint> blown_state = {};
  std::optional<solve::OperatingPoint> warm_state = {};  ///< Beside a cold one, where it is found.
  std::vector<std::string> changes;  ///< Of the sound stage, as faults are written.
  std::vector<std::string> warnings;

  [[nodiscard]] Moves moves() const { return {{*sound, sound_state}, {*faulty, faulty_state}}; }
};

/// The faulty stage has no state: the sound one had.
struct FaultyNotSettled {
  solve::NotSettled story;
};

/// Solves both stages in the state that the conditions ask for, the faulty one warm as well where
/// it can heat, with the load on it and with blown fuses open. Thermal stories are of the sound
/// stage, or of the faulty one where the warm state was asked for.
[[nodiscard]] std::variant<Fault, solve::NotSettled, FaultyNotSettled, ThermalStory> ask_fault(
    const FaultAsked& asked);

}  // namespace idlepoint::answers
