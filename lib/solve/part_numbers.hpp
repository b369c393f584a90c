// The law's numbers of one part at one temperature.
//
// Used when a circuit is described (cold: all at ambient) and when the warm state moves a part's
// temperature.
#pragma once

#include "circuit/circuit.hpp"
#include "solve/wiring.hpp"

namespace idlepoint::solve {

/// Requires a part of kind diode.
[[nodiscard]] DiodeNumbers diode_numbers(const circuit::Circuit& circuit,
                                         const circuit::Part& part,
                                         double temperature_k);

/// Requires npn or pnp; a fault's gain takes the place of the type's.
[[nodiscard]] BipolarNumbers bipolar_numbers(const circuit::Circuit& circuit,
                                             const circuit::Part& part,
                                             double temperature_k);

[[nodiscard]] FetNumbers fet_numbers(const circuit::Circuit& circuit,
                                     const circuit::Part& part,
                                     double temperature_k);

/// A gate junction or the body diode of a FET at the temperature of its numbers.
[[nodiscard]] DiodeNumbers fet_junction_numbers(const FetNumbers& fet);

}  // namespace idlepoint::solve
