// How the currents of one device law move with one field of its type, at fixed voltages.
//
// Used by solve/parameter_slopes.
#pragma once

#include <string>

#include "circuit/circuit.hpp"

namespace idlepoint::solve {

class LawSlopes {
 public:
  /// Requires a part with a type, and a field of its law; a field that a fault's gain replaces is
  /// taken as that gain.
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
  circuit::PartType above_;
  circuit::PartType below_;
  double step_;
  double temperature_k_;
};

}  // namespace idlepoint::solve
