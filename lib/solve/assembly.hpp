// The equations at one state: every point's current balance and its slopes.
//
// The balance f(x) of a group of points is the sum of the currents that leave it; a solution has
// f = 0. Resistor currents are g (va - vb) at the state itself, device currents come from the laws
// at the junction voltages that the limiter allows, continued along their tangents. Sign
// conventions: docs/how_it_solves.md.
#pragma once

#include <span>
#include <vector>

#include "solve/state.hpp"
#include "solve/system.hpp"

namespace idlepoint::solve {

/// How the equations are bent while a continuation is under way; as built: the stage itself.
struct Drive {
  double sources = 1.0;    ///< Fraction of every source.
  double shunt_s = 0.0;    ///< From every unknown to ground.
  double inertia_s = 0.0;  ///< Capacitance over time step, against `anchor`.
  std::span<const double> anchor =
      {};  ///< [unknowns] state at the last step; empty without inertia.
};

struct TwoPoleTangent {
  double current_a = 0.0;
  double conductance_s = 0.0;
};

/// Currents into the first two terminals and their slopes by those two terminals' voltages; the
/// third terminal's are what is missing to zero.
struct ThreePoleTangent {
  double current_0_a = 0.0;
  double current_1_a = 0.0;
  double s00 = 0.0, s01 = 0.0, s10 = 0.0, s11 = 0.0;
};

/// All arrays of one solve; sized once.
struct Work {
  std::vector<double> point_v;    ///< [points]
  std::vector<double> balance_a;  ///< [unknowns + 1]
  std::vector<double> slopes_s;   ///< [slots] d(balance)/dx.
  std::vector<double> factors;    ///< [slots]
  bool factors_are_finite = false;
  std::vector<double> step;            ///< [unknowns + 1]
  std::vector<double> scratch;         ///< [unknowns + 1]
  std::vector<double> product;         ///< [unknowns + 1]
  std::vector<double> right;           ///< [unknowns + 1]
  std::vector<double> fixed_slopes_s;  ///< [slots] of the conductors and the insulation.
  std::vector<double> offset_v;        ///< [points] above the group's root, sources in full.
  double lowest_v = 0.0;               ///< No passive part takes a point below this,
  double highest_v = 0.0;              ///< nor above this; infinite where a feed drives a current.
  std::vector<TwoPoleTangent> diodes;
  std::vector<TwoPoleTangent> lamps;
  std::vector<TwoPoleTangent> feeds;
  std::vector<ThreePoleTangent> bipolars;
  std::vector<ThreePoleTangent> fets;
};

/// Sizes `work` for the system, and sums what does not change during a solve.
void prepare(const System& system, const Numbers& numbers, Work& work);

enum class Limiting { on, off };

/// Fills point voltages, tangents, balances and slopes at `state`. With limiting on, junctions move
/// only as far from their remembered voltages as is safe, and the result says whether all arrived.
/// With it off the laws are evaluated where the state stands.
bool assemble(const System& system,
              const Numbers& numbers,
              const Drive& drive,
              Limiting limiting,
              State& state,
              Work& work);

}  // namespace idlepoint::solve
