// How every reading and every trimmer position moves with every number of the stage.
//
// Adjoint: one transposed solve a reading on the factors of the solution itself, whatever the count
// of parameters; in the warm state through the border of temperatures, for trimmer positions
// through that of the travels. All derivatives are exact. Used by the bands and by `spread`.
// Source: docs/how_it_solves.md, "Sensitivities"; [DirectorRohrer1969] in docs/sources.md.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "circuit/uncertainty.hpp"
#include "solve/state_finder.hpp"

namespace idlepoint::solve {

/// Slopes of one quantity: a reading (SI, kelvin) or a travel (0 to 1).
struct Sensitivity {
  std::vector<double> by_parameter;      ///< [parameters asked for] a unit of the parameter, SI.
  std::vector<double> by_temperature;    ///< [parts] per kelvin put on that part alone.
  double by_ambient = 0.0;               ///< Per kelvin of the room.
  std::vector<double> by_sink_k_per_w;   ///< [heat sinks] 0 in the cold state.
  std::vector<double> by_mount_k_per_w;  ///< [parts] junction to case and washer, or to air.
  /// Of volts between two points alone: the ohms that lie behind them for a small current.
  double source_ohm = 0.0;
};

struct Sought {
  std::span<const circuit::Probe> probes;  ///< Read with the trimmers where they stand.
  std::span<const Wanted> wanted;          ///< All trimmers that follow, together.
  std::span<const circuit::Parameter> parameters;
  bool with_heat = true;  ///< False: only `by_parameter` is filled.
};

struct Sensitivities {
  std::vector<Sensitivity> readings;   ///< [probes] trimmers fixed.
  std::vector<Sensitivity> positions;  ///< [wanted] travels at which all wanted readings keep.
};

/// At `rest`, which `finder` has just found for `circuit` (its work arrays still hold it); the
/// travels of `circuit` are those of the state. Lamps' rated values and resistances of exactly 0
/// are not followed. Empty where the slopes are singular.
[[nodiscard]] std::optional<Sensitivities> sensitivities(const circuit::Circuit& circuit,
                                                         StateFinder& finder,
                                                         const Rest& rest,
                                                         const Sought& sought);

}  // namespace idlepoint::solve
