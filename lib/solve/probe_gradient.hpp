// What a probe reads at a state, and how that moves with the unknowns and with each trimmer.
//
// Used by the bordered Newton of trimmer settings and by the adjoint of the sensitivities.
#pragma once

#include <utility>
#include <vector>

#include "circuit/circuit.hpp"
#include "solve/assembly.hpp"
#include "solve/heat_model.hpp"
#include "solve/heated_poles.hpp"
#include "solve/ideal_currents.hpp"
#include "solve/terminal_weights.hpp"

namespace idlepoint::solve {

struct ProbeGradient {
  double value = 0.0;                  ///< As OperatingPoint::read.
  std::vector<double> by_unknown;      ///< [unknowns + 1] d(value)/dx; the last is meaningless.
  std::vector<double> by_travel;       ///< [tracks] d(value)/d(travel) at fixed voltages.
  std::vector<double> by_temperature;  ///< [heated parts] d(value)/dT at fixed voltages.
  /// What the value is made of beside ambient: terminal currents, a sink's heated parts' powers,
  /// and volts of points at fixed currents.
  TerminalWeights by_current;
  std::vector<double> by_power;    ///< [heated parts]
  std::vector<double> by_point_v;  ///< [points]
};

/// At the state that `work` holds assembled. `heat_slopes` [heated parts] and `temperatures_k` are
/// empty in the cold state, where every temperature is ambient.
[[nodiscard]] ProbeGradient probe_gradient(const circuit::Circuit& circuit,
                                           const circuit::Probe& probe,
                                           const System& system,
                                           const Numbers& numbers,
                                           const IdealCurrents& ideals,
                                           const Work& work,
                                           const HeatModel& heat,
                                           std::span<const HeatSlopes> heat_slopes,
                                           const Eigen::VectorXd& temperatures_k);

/// d(balance)/d(travel) of one track, [unknowns + 1], into `slopes`.
void balance_by_travel(const circuit::Circuit& circuit,
                       const System& system,
                       const Numbers& numbers,
                       std::size_t track,
                       const Work& work,
                       std::span<double> slopes);

}  // namespace idlepoint::solve
