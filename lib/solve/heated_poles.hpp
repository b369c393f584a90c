// Which poles make a part's heat, how much, and how its temperature moves their currents.
//
// The bridge between the electrical system and HeatModel: powers with their gradients, slopes of
// the balances by temperature, and the rescaling of a part's numbers. Used by the bordered Newton,
// the loop gain and the sensitivities.
#pragma once

#include <span>
#include <vector>

#include "circuit/circuit.hpp"
#include "solve/assembly.hpp"
#include "solve/heat_model.hpp"
#include "solve/terminal_sum.hpp"

namespace idlepoint::solve {

/// Indices into a system's families of poles.
struct HeatedPoles {
  std::vector<std::size_t> conductors;  ///< Resistances inside the part, or the thermistor itself.
  std::vector<std::size_t> diodes;
  std::vector<std::size_t> bipolars;
  std::vector<std::size_t> fets;
};

/// [heated parts]
[[nodiscard]] std::vector<HeatedPoles> heated_poles(const HeatModel& model, const Wiring& wiring);

/// Rescales the numbers of one part to a temperature.
void set_temperature(const circuit::Circuit& circuit,
                     circuit::PartId id,
                     const HeatedPoles& poles,
                     double temperature_k,
                     Numbers& numbers);

/// At an assembled state; `by_unknown` and `balance_by_k` have unknowns + 1 elements.
struct HeatSlopes {
  double power_w = 0.0;
  double power_w_per_k = 0.0;            ///< At fixed voltages.
  std::vector<double> by_unknown;        ///< d(power)/dx.
  std::vector<double> balance_by_k;      ///< d(balance)/dT.
  std::vector<TerminalSlope> terminals;  ///< By temperature.
};

[[nodiscard]] HeatSlopes heat_slopes(const circuit::Circuit& circuit,
                                     circuit::PartId id,
                                     const HeatedPoles& poles,
                                     double temperature_k,
                                     const System& system,
                                     const Numbers& numbers,
                                     const State& state,
                                     const Work& work);

}  // namespace idlepoint::solve
