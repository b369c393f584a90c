// A wiring compiled for solving: unknowns, elimination order, and the slot of every stamp.
//
// The modification of nodal analysis [HoRuehliBrennan1975] adds one row an ideal branch. Those rows
// hold nothing but 1 and -1, so they are eliminated here, once and exactly: points joined by ideal
// branches form a group with one unknown voltage, the others standing a fixed offset above it, and
// the branches' own currents are recovered afterwards (solve/ideal_currents). The conductance
// matrix that is left has its pivots on the diagonal. Compiled once a wiring; a solve touches
// numbers only.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "solve/elimination.hpp"
#include "solve/wiring.hpp"

namespace idlepoint::solve {

/// A two-pole's points and unknowns, and where its slope goes.
struct TwoPoleStamp {
  Index a, b;            ///< Points.
  Index row_a, row_b;    ///< Unknowns; `System::unknowns` for ground.
  Index aa, ab, ba, bb;  ///< Slots.
};

struct ThreePoleStamp {
  std::array<Index, 3> points;
  std::array<Index, 3> rows;
  std::array<Index, 9> slots;  ///< Row by row.
};

/// An insulated point: 0.5 pS to ground.
struct InsulationStamp {
  Index point;
  Index row;
  Index slot;
};

/// One step from a group's root outward: offset[point] = offset[from] + sign * emf[ideal].
struct OffsetStep {
  Index point;
  Index from;
  std::size_t ideal;
  double sign;
};

/// An ideal branch that closes a loop of ideal branches; its ends already stand a fixed voltage
/// apart.
struct LoopCloser {
  std::size_t ideal;
  std::vector<std::size_t> others;  ///< The rest of the loop.
};

struct System {
  Wiring wiring;
  Index unknowns = 0;
  std::vector<Index> unknown_of;  ///< [points]; `unknowns` for the ground group.
  std::vector<Index> point_of;  ///< [unknowns] a point of the group, a named node where it has one.
  std::vector<OffsetStep> offsets;
  std::vector<LoopCloser> loops;
  Elimination elimination;
  std::vector<TwoPoleStamp> conductors;
  std::vector<TwoPoleStamp> diodes;
  std::vector<TwoPoleStamp> lamps;
  std::vector<TwoPoleStamp> feeds;
  std::vector<ThreePoleStamp> bipolars;
  std::vector<ThreePoleStamp> fets;
  std::vector<InsulationStamp> insulation;
};

/// Cost: linear in the parts but for the elimination order.
[[nodiscard]] System compile(Wiring wiring);

/// Insulation of a clean board, from every named node and lifted lead to ground.
inline constexpr double insulation_s = 0.5e-12;

}  // namespace idlepoint::solve
