// "Power off, nothing lifted: what should my ohm-meter and my diode range read in circuit between
// these points, both ways round, and what would each suspect read instead?"
//
// Asked by cli/poweroff.cpp; rendered by report/text_poweroff and report/json_poweroff.
// Source of every rule: docs/commands.md, "poweroff".
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "answers/off_suspects.hpp"
#include "answers/setup.hpp"
#include "answers/trimmer_in_circuit.hpp"
#include "solve/not_settled.hpp"

namespace idlepoint::answers {

struct OffPoint {
  /// What it is looked at for; a point that serves several stands in the first.
  enum class Group {
    asked,     ///< On the command line, or a reading of the file in volts.
    junction,  ///< Two leads of a transistor or a diode, the way it conducts first.
    resistor,  ///< The ends of a part that is a resistance to a meter.
  };
  Group group = Group::asked;
  std::string name;                    ///< Of the file's reading; else empty.
  std::vector<circuit::PartId> parts;  ///< With a lead on both points.
  circuit::VoltsBetween points;
  ByRange<OffFigure> figures;
  std::vector<OffSuspect> suspects;  ///< All that a meter can tell, the likeliest clear ones first.
};

struct OffTrimmer {
  circuit::PartId trimmer;
  double travel = 0.0;   ///< Of its preset.
  bool reached = false;  ///< False: the nearest it comes.
  std::optional<circuit::TrackEnd> safe_end;
  TrimmerInCircuit ohms;
};

struct PowerOff {
  circuit::CheckedCircuit stage;  ///< As drawn, trimmers where the file or `--at` has them.
  solve::Conditions conditions;
  std::vector<OffPoint> points;
  std::vector<OffTrimmer> trimmers;  ///< In the order of the adjustments.
  std::optional<std::string>
      no_preset;          ///< Why there are no trimmers, where the file adjusts some.
  std::size_t tried = 0;  ///< Faults.
  std::vector<std::string> changes;
  std::vector<std::string> warnings;
};

/// `asked`: these points alone; none: those that docs/commands.md lists. No point may be twice the
/// same node. `go_on` is called with the share done; false ends with the points done so far.
[[nodiscard]] std::variant<PowerOff, solve::NotSettled> ask_poweroff(
    const Setup& setup,
    const std::vector<circuit::VoltsBetween>& asked,
    const std::function<bool(double share_done)>& go_on);

}  // namespace idlepoint::answers
