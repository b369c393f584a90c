// How the currents of one device law move with one field of its type, at fixed voltages.
//
// Exact: the law is run with dual numbers, the field carrying the derivative. Used by
// solve/parameter_slopes.
#pragma once

#include <string>
#include <variant>

#include "circuit/circuit.hpp"
#include "devices/dual.hpp"

namespace idlepoint::solve {

class LawSlopes {
 public:
  /// Requires a part with a type, and a field of its law that has a number; a gain that a fault has
  /// set is taken for the type's.
  LawSlopes(const circuit::Circuit& circuit,
            const circuit::Part& part,
            const std::string& field,
            double temperature_k);

  struct Bipolar {
    double collector_a;
    double base_a;
  };
  /// Amperes a unit of the field, of the n-kind law.
  [[nodiscard]] Bipolar bipolar(double ube_v, double ubc_v) const;
  [[nodiscard]] double channel(double ugs_v, double uds_v) const;
  /// One junction of a diode, a gate junction or the body diode.
  [[nodiscard]] double junction(double junction_v) const;

 private:
  using Dual = devices::Dual;
  std::variant<devices::BasicDiodeData<Dual>,
               devices::BasicBipolarData<Dual>,
               devices::BasicFetData<Dual>>
      law_;
  double temperature_k_;
};

}  // namespace idlepoint::solve
