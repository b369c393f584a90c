// How the currents at a part's terminals move with its numbers and its temperature, at fixed
// voltages.
//
// One half of every sensitivity: what a parameter does before any voltage follows. Used by
// solve/sensitivity. Exact derivatives throughout.
#pragma once

#include <vector>

#include "circuit/uncertainty.hpp"
#include "solve/heated_poles.hpp"
#include "solve/terminal_sum.hpp"

namespace idlepoint::solve {

class ParameterSlopes {
 public:
  /// At the settled state that `work` holds assembled. All references must outlive this.
  ParameterSlopes(const circuit::Circuit& circuit,
                  const System& system,
                  const Numbers& numbers,
                  const State& state,
                  const Work& work);

  /// Amperes a unit of the parameter (SI); empty where no current depends on it, as where it is a
  /// rail's or a hold's volts: see `ideal_of`. `temperature_k` is the part's own.
  [[nodiscard]] std::vector<TerminalSlope> by_parameter(const circuit::Parameter& parameter,
                                                        double temperature_k) const;

  /// Amperes per kelvin of the part alone; a resistor's is that of its tempco.
  [[nodiscard]] std::vector<TerminalSlope> by_temperature(circuit::PartId part,
                                                          double temperature_k) const;

  /// The ideal branch whose volts the parameter is: a rail's source, a hold.
  [[nodiscard]] std::optional<std::size_t> ideal_of(const circuit::Parameter& parameter) const;

 private:
  [[nodiscard]] std::vector<TerminalSlope> by_value(circuit::PartId part) const;
  [[nodiscard]] std::vector<TerminalSlope> by_field(circuit::PartId part,
                                                    const std::string& field,
                                                    double temperature_k) const;
  void add_conductor(std::size_t conductor,
                     double ohm_per_unit,
                     std::vector<TerminalSlope>& slopes) const;
  [[nodiscard]] std::optional<std::size_t> resistance_inside(circuit::PartId part,
                                                             const std::string& field) const;

  const circuit::Circuit& circuit_;
  const System& system_;
  const Numbers& numbers_;
  const State& state_;
  const Work& work_;
  std::vector<HeatedPoles> poles_;  ///< [parts of the circuit]
};

}  // namespace idlepoint::solve
