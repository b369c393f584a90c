// What a fault endangers: parts asked for more than they stand, fuses, the loudspeaker, heat.
//
// Part of the fault answer. Limits are those of the types (answers/derating), of resistors' and
// capacitors' own ratings, and of IEC 60127 for fuses; a volt of DC as what a loudspeaker's
// protection trips at is common practice, with no source.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "answers/fault_moves.hpp"
#include "circuit/checked_circuit.hpp"
#include "solve/thermal_trouble.hpp"

namespace idlepoint::answers {

enum class Peril {
  power,         ///< Watts above what the part may have where it sits.
  current,       ///< Above the type's largest.
  voltage,       ///< Collector to emitter, drain to source, backwards along a diode; a capacitor's.
  base_emitter,  ///< Backwards above the type's limit, not yet broken down.
  breakdown,     ///< Emitter to base broken down: `value` volts backwards.
  fuse_blows,    ///< Above 2.1 times its rating: within minutes or sooner.
  fuse_at_risk,  ///< Above its rating.
  loudspeaker,   ///< DC at the load, connected: `value` volts, `amps`.
  rail_down,     ///< A rail that gives way: `value` volts where `limit` were.
  runaway,       ///< No rest as it warms up.
  too_hot,       ///< A rest too hot for a junction: `value` degrees Celsius, `limit`.
};

/// The word in JSON: "power", "current", ..., "too hot".
[[nodiscard]] std::string_view word(Peril peril) noexcept;

struct Danger {
  Peril peril = Peril::power;
  std::optional<circuit::PartId> part = {};
  std::optional<circuit::RailId> rail = {};
  double value = 0.0;    ///< SI; degrees Celsius.
  double limit = 0.0;    ///< The same; 0 where there is none.
  double amps = 0.0;     ///< Of a loudspeaker.
  bool is_warm = false;  ///< Only once it has warmed through.
};

/// Of the faulty state, less what the sound stage shows too; the fullest first.
[[nodiscard]] std::vector<Danger> find_dangers(const Moves& moves);

/// The same of the state that the faulty stage comes to as it warms up, less what `already` names.
[[nodiscard]] std::vector<Danger> dangers_of_warmth(const StageState& warm,
                                                    const std::vector<Danger>& already);

[[nodiscard]] Danger danger_of(const solve::ThermalTrouble& trouble,
                               const circuit::Circuit& circuit);

/// A load that gets a volt of DC or more in `loaded`, the faulty stage with its load connected.
[[nodiscard]] std::vector<Danger> dangers_of_load(const StageState& loaded);

/// Parts above a rating or broken down, cold; no fuses.
[[nodiscard]] std::vector<circuit::PartId> stressed_parts(const std::vector<Danger>& dangers);

/// Those to be changed even if they test good: of those above their watts alone, the ones by half
/// as much again.
[[nodiscard]] std::vector<circuit::PartId> parts_to_replace(const std::vector<Danger>& dangers);

/// Above this times its rating a fuse blows within minutes (IEC 60127).
inline constexpr double fuse_blows_at = 2.1;

}  // namespace idlepoint::answers
