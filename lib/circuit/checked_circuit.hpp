// A circuit that the topology checks have passed: the only thing that can be solved.
#pragma once

#include <utility>

#include "circuit/circuit.hpp"
#include "complaints/result.hpp"

namespace idlepoint::circuit {

/// Made by `check_circuit` and, from another checked circuit, by edits. Edits are solved whatever
/// the checks would say of them: the checks judge the drawing as written.
class CheckedCircuit {
 public:
  [[nodiscard]] const Circuit& circuit() const noexcept { return circuit_; }
  const Circuit* operator->() const noexcept { return &circuit_; }
  const Circuit& operator*() const noexcept { return circuit_; }

  /// Warnings of the check, in order of place.
  [[nodiscard]] const complaints::Complaints& warnings() const noexcept { return warnings_; }

  /// A copy with `change` applied to its circuit: for edits, sampled values and settings, which
  /// keep every id valid.
  template <class Change>
  [[nodiscard]] CheckedCircuit edited(Change&& change) const {
    CheckedCircuit copy = *this;
    std::forward<Change>(change)(copy.circuit_);
    return copy;
  }

 private:
  friend complaints::Result<CheckedCircuit> check_circuit(Circuit circuit);
  CheckedCircuit(Circuit circuit, complaints::Complaints warnings)
      : circuit_(std::move(circuit)), warnings_(std::move(warnings)) {}

  Circuit circuit_;
  complaints::Complaints warnings_;
};

/// Judges the drawing (circuit/topology.hpp). Complaints hold every error AND every warning; a
/// circuit with blanks is refused with one complaint a blank (kind "blank").
[[nodiscard]] complaints::Result<CheckedCircuit> check_circuit(Circuit circuit);

}  // namespace idlepoint::circuit
