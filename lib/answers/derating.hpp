// How many watts a part may dissipate where it sits, and as warm as it is there.
//
// Used by the ratings, the hot list and the safe area. Source: docs/models.md, "Heat" and
// "Ratings"; the straight derating line from 25 C to the highest junction temperature of every data
// sheet.
#pragma once

#include <optional>

#include "circuit/circuit.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

/// What a part's heat goes into.
struct Surroundings {
  double temperature_k = 298.15;  ///< Of the heat sink, or of the air.
  bool on_heatsink = false;
  double washer_k_per_w = 0.0;  ///< On a heat sink alone.
};

/// As the part sees them in a solved state: the heat sink as it is there, by the part's coupling.
[[nodiscard]] Surroundings surroundings_of(const circuit::Circuit& circuit,
                                           circuit::PartId id,
                                           const solve::OperatingPoint& state);

/// (Tjmax - T)/(junction to case + washer), in free air by `junction_to_ambient`, never more than
/// `max_power`, never less than 0. Where the type does not give the thermal resistance, the one
/// that its `max_power` at 25 C implies. None where it gives neither, and in free air where the
/// watts are those of a cooled case.
[[nodiscard]] std::optional<double> allowed_w(const circuit::Ratings& ratings,
                                              const Surroundings& surroundings);

/// The part of its power at 25 C that a type may dissipate: 0 to 1; 1 where the type gives no power
/// and no thermal resistance.
[[nodiscard]] double power_share(const circuit::Ratings& ratings, const Surroundings& surroundings);

/// `allowed_w` of a part with a type in a solved state.
[[nodiscard]] std::optional<double> allowed_w(const circuit::Circuit& circuit,
                                              circuit::PartId part,
                                              const solve::OperatingPoint& state);

}  // namespace idlepoint::answers
