// One part of a type between ideal sources, as a sheet's test circuit has it, solved by the solver.
//
// Independent of how the type's data were made.
#pragma once

#include "circuit/part_type.hpp"

namespace idlepoint::shelf {

/// At a collector current and collector-emitter volts (both positive for a pnp too), 25 C.
struct Conducting {
  double gain;   ///< Collector over base current.
  double vbe_v;  ///< Positive.
};
[[nodiscard]] Conducting conducting(const circuit::PartType& type,
                                    double collector_a,
                                    double collector_emitter_v);

/// At a collector and a base current, hard on.
struct Bottomed {
  double vce_v;  ///< Positive.
  double vbe_v;
};
[[nodiscard]] Bottomed bottomed(const circuit::PartType& type, double collector_a, double base_a);

/// Of a diode, at its current.
[[nodiscard]] double forward_v(const circuit::PartType& type, double current_a);

}  // namespace idlepoint::shelf
