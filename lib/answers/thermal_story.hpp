// A stage that finds no rest as it warms up, or one that is too hot: who leads, and what would
// hold it.
//
// Given by readings, preset and check in the place of warm figures. Source: docs/models.md, "Heat".
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers/setup.hpp"
#include "circuit/checked_circuit.hpp"
#include "solve/conditions.hpp"
#include "solve/thermal_trouble.hpp"

namespace idlepoint::answers {

/// Each alone would hold the stage, all else as it is. None: no value of it does, or it is not
/// there. Values are the nearest to the present ones, found to 1 %.
struct WhatWouldHold {
  /// Of the leading part's heat sink, to air; down to a tenth of the present one.
  std::optional<double> heatsink_k_per_w;
  /// Of the leading part and of the others on that sink with the same washer; down to 0.
  std::optional<double> washer_k_per_w;
  /// Junction to air of a leading part without a heat sink; down to a tenth.
  std::optional<double> free_air_k_per_w;
  /// Of those on that sink that feel less than all of its rise, raised together to this share.
  std::optional<double> coupling;
  std::vector<circuit::PartId> put_back;  ///< Loose parts that hold it, back on their sinks.
  struct Setting {
    circuit::PartId trimmer;
    double travel = 0.0;
  };
  std::vector<Setting> settings;    ///< The nearest travel that holds, of each trimmer that can.
  std::optional<double> ambient_k;  ///< The hottest room, down to 0 C.
};

struct ThermalStory {
  circuit::CheckedCircuit stage;
  solve::Conditions conditions;
  solve::ThermalTrouble trouble;
  bool at_preset = false;  ///< The trimmers stand where the targets would have them, not the file.
  WhatWouldHold remedies;
  std::vector<std::string> changes;  ///< Edits made to the drawing, as faults are written.
  std::vector<std::string> warnings;
};

/// Cost: that of `find_edge` a remedy.
[[nodiscard]] WhatWouldHold find_what_would_hold(const circuit::CheckedCircuit& stage,
                                                 const solve::Conditions& conditions,
                                                 const solve::ThermalTrouble& trouble);

/// The story of `setup` with its trimmers as in `stage`.
[[nodiscard]] ThermalStory tell_thermal(const Setup& setup,
                                        const circuit::CheckedCircuit& stage,
                                        const solve::ThermalTrouble& trouble);

}  // namespace idlepoint::answers
