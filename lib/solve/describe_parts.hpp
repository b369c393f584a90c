// The draughtsman of solve/wiring: adds one part after another to a Wiring and its Numbers.
//
// Used by `describe` alone.
#pragma once

#include "circuit/circuit.hpp"
#include "solve/wiring.hpp"

namespace idlepoint::solve {

class Sketch {
 public:
  Sketch(const circuit::Circuit& circuit, const Conditions& conditions);

  void add_part(circuit::PartId id);

  [[nodiscard]] Index new_point() { return result_.wiring.points++; }
  void add_ideal(Index a, Index b, double emf_v, const Owner& owner_a, const Owner& owner_b);
  /// An ideal branch where `ohm` is 0, a conductor otherwise.
  void add_resistance(Index a, Index b, double ohm, const Owner& owner_a, const Owner& owner_b);

  [[nodiscard]] Wiring& wiring() noexcept { return result_.wiring; }
  [[nodiscard]] Description finish() && { return std::move(result_); }

 private:
  void add_two_terminal(const circuit::Part& part, circuit::PartId id);
  void add_trimmer(const circuit::Part& part, circuit::PartId id);
  void add_diode(const circuit::Part& part, circuit::PartId id);
  void add_bipolar(const circuit::Part& part, circuit::PartId id);
  void add_fet(const circuit::Part& part, circuit::PartId id);
  void add_fet_junctions(const FetNumbers& fet, const ThreePole& pole);
  void add_damage(const circuit::Part& part, circuit::PartId id);
  void add_lead_points(const circuit::Part& part);

  /// The inner point behind a lead's resistance, or the lead's own point where that is 0. `inner`
  /// is emptied of its lead in the first case.
  [[nodiscard]] Index behind(circuit::PartId id,
                             std::size_t lead,
                             double ohm,
                             std::optional<std::size_t>& inner_lead);

  const circuit::Circuit& circuit_;
  Conditions conditions_;
  Description result_;
};

}  // namespace idlepoint::solve
