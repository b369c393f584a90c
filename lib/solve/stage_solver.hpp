// One circuit compiled once, solved as often as asked.
//
// For answers that solve the same drawing many times: trimmer positions, variants, sweeps. For a
// single question use solve/solve_stage.
#pragma once

#include <span>

#include "circuit/circuit.hpp"
#include "solve/conditions.hpp"
#include "solve/find_state.hpp"
#include "solve/heated_poles.hpp"

namespace idlepoint::solve {

class StageSolver {
 public:
  StageSolver(const circuit::Circuit& circuit, const Conditions& conditions);

  /// Takes over other values. Compiles anew only where the wiring differs (a fault that changes
  /// topology, a resistance that became 0).
  void load(const circuit::Circuit& circuit, const Conditions& conditions);

  /// Takes over what one resistor, feed or diode has become, its wiring as before: for a meter that
  /// is put on and taken off. Not for a resistance that was or becomes 0, nor a diode with a series
  /// resistance.
  void load_part(const circuit::Circuit& circuit, circuit::PartId part);

  /// Sets one trimmer's travel, 0 to 1, in the numbers alone; `track` indexes
  /// `system().wiring.tracks`. A stretch of 0 ohm is part of the wiring: for such a track edit the
  /// circuit and `load` it.
  void set_travel(const circuit::Circuit& circuit, std::size_t track, double travel);

  /// Rescales one part's numbers to a temperature.
  void set_temperature(const circuit::Circuit& circuit,
                       circuit::PartId part,
                       const HeatedPoles& poles,
                       double temperature_k);

  /// From a cold start.
  [[nodiscard]] Found solve();

  /// From a neighbouring state of the same wiring; as `solve()` where that fails.
  [[nodiscard]] Found solve_from(const State& start);

  /// For `solve_from`: where another stage of the same nodes stands, `node_v` [nodes]. It may lack
  /// the last ones, which an edit added here: they, and points inside parts, stand as what conducts
  /// to them does. Junctions stand as their points do.
  [[nodiscard]] State state_at(std::span<const double> node_v);

  [[nodiscard]] const System& system() const noexcept { return system_; }
  [[nodiscard]] const Numbers& numbers() const noexcept { return numbers_; }
  [[nodiscard]] Work& work() noexcept { return work_; }

 private:
  System system_;
  Numbers numbers_;
  Work work_;
};

}  // namespace idlepoint::solve
