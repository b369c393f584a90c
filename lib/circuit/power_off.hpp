// The stage with the mains plug out and its reservoirs empty: what an ohm-meter finds in circuit.
//
// Used by `poweroff` and by `diagnose` for readings taken before any power; hand_meter.hpp has the
// meter. Source: docs/commands.md, "poweroff".
#pragma once

#include "circuit/checked_circuit.hpp"

namespace idlepoint::circuit {

/// What stands between a rail's node and ground with the power off, beside the rail's own source
/// resistance: the supply's bleeder and whatever else its reservoir feeds.
inline constexpr double supply_when_off_ohm = 1e3;

/// The same drawing, dead: every rail at 0 V behind its source resistance and
/// `supply_when_off_ohm`, `hold` and `feed` taken away (open), capacitors open but for their
/// leakage as ever. A lost rail stays lost: its node has no way to ground of its own. Every id
/// stays valid, so that an edit fits before and after alike. The loudspeaker is where
/// solve::Conditions says; `rails` there changes nothing.
[[nodiscard]] CheckedCircuit power_off(const CheckedCircuit& stage);

}  // namespace idlepoint::circuit
