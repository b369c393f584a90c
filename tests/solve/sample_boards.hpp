// Circuits that several tests walk over: stages of every kind of part, and random ones.
#pragma once

#include <vector>

#include "board.hpp"

namespace idlepoint::solve {

/// 10 V, 4.7 kilohm, one diode.
[[nodiscard]] Board junction_behind_resistor();
/// Two npn transistors, the second's emitter feeding the first's base.
[[nodiscard]] Board feedback_pair();
/// Complementary output stage on +-24 V: feed, diode, trimmer, multiplier, drivers, outputs.
[[nodiscard]] Board output_stage();
/// Junction FET pair, mosfet follower with a body diode, a p-mosfet.
[[nodiscard]] Board fet_stage();
/// Zener in series with a lamp, a pnp series regulator, a thermistor-like divider.
[[nodiscard]] Board regulator();

[[nodiscard]] std::vector<Board> sample_boards();

/// Resistors, diodes, transistors of all kinds, feeds, holds, links, trimmers and a lamp between
/// random nodes; two rails. Every node has a resistor to ground or to a rail.
[[nodiscard]] Board random_board(unsigned seed);

}  // namespace idlepoint::solve
