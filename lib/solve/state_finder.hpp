// The cold or warm state of a stage whose trimmers and values move.
//
// One circuit compiled once, with its heat. Used by solve_stage, by the search for trimmer
// positions and by the warm-up in time. The warm state is found by raising the thermal resistances
// from 0, then by following the heat sinks in time.
#pragma once

#include <variant>

#include "solve/bordered_newton.hpp"
#include "solve/thermal_trouble.hpp"

namespace idlepoint::solve {

/// No temperature is followed further: 400 C.
inline constexpr double hottest_followed_k = 673.15;

/// A state at rest: the electrical one and, in the warm state, the temperatures.
struct Rest {
  BorderedState at;  ///< `travels` is empty.
  SolverReport report;
  bool has_other_states = false;
  double loop_gain = 0.0;       ///< 0 in the cold state.
  Eigen::VectorXd power_w;      ///< [heated parts]
  Eigen::VectorXd sink_rise_k;  ///< [sinks] above ambient.
};

using RestOrStory = std::variant<Rest, NotSettled, ThermalTrouble>;

class StateFinder {
 public:
  /// The circuit must outlive this.
  StateFinder(const circuit::Circuit& circuit, const Conditions& conditions);

  /// Takes over the circuit's numbers, which have changed in place; its wiring and its thermal
  /// resistances have not.
  void load(const Conditions& conditions);

  /// The same of one part alone, as StageSolver::load_part.
  void load_part(circuit::PartId part) { solver_.load_part(circuit_, part); }

  /// From ambient, or from a neighbouring state where `start` is given (as from ambient where that
  /// fails). On success the solver's numbers and work hold the state.
  [[nodiscard]] RestOrStory find(const Rest* start = nullptr);

  /// As `find`, but without following the sinks in time, which only tells how it goes wrong: for
  /// the many positions of a scan.
  [[nodiscard]] std::optional<Rest> find_quickly(const Rest* start = nullptr);

  /// From a neighbouring state of the same wiring alone: for a search that walks. None where
  /// Newton does not get there, the loop gain is 1 or more, or a junction is above its maximum.
  [[nodiscard]] std::optional<Rest> find_near(const Rest& start);

  /// Iterates from `rest` to the rest of `heat`, a model of the same parts: inside every law,
  /// balance checked, loop gain that of the stage itself at the model's scale. False, and `rest` of
  /// no use, where there is none.
  [[nodiscard]] bool settle(Rest& rest, const HeatModel& heat);

  /// Where the sinks' next step finds no rest for the junctions: these in time, the sinks held.
  /// True where they come to rest below 400 C. `passed`: the first maximum that is passed.
  [[nodiscard]] bool follow_junctions(Rest& rest,
                                      const HeatModel& held,
                                      std::optional<ThermalTrouble>& passed);

  /// What is said of a state in which a junction stands above its maximum.
  [[nodiscard]] ThermalTrouble trouble(ThermalTrouble::Kind kind, const Rest& rest) const;

  /// What a probe reads at a state that the work arrays hold; SI, kelvin.
  [[nodiscard]] double read(const circuit::Probe& probe, const Rest& rest);

  [[nodiscard]] StageSolver& solver() noexcept { return solver_; }
  [[nodiscard]] BorderedNewton& newton() noexcept { return newton_; }
  /// Empty of parts in the cold state.
  [[nodiscard]] const HeatModel& heat() const noexcept { return heat_; }

 private:
  [[nodiscard]] std::variant<Rest, NotSettled> find_cold();
  [[nodiscard]] bool raise_heat(Rest& rest);
  [[nodiscard]] bool is_cool_enough(const Rest& rest) const;
  [[nodiscard]] RestOrStory follow_sinks(const Rest& cold);
  void note_passing(Rest& rest, std::optional<ThermalTrouble>& passed);

  const circuit::Circuit& circuit_;
  HeatModel heat_;
  StageSolver solver_;
  BorderedNewton newton_;
};

/// The heated part that stands highest against its maximum junction temperature.
struct Hottest {
  std::size_t part = 0;   ///< Among HeatModel::parts.
  double excess_k = 0.0;  ///< Above its maximum; negative below.
};
[[nodiscard]] std::optional<Hottest> hottest(const circuit::Circuit& circuit,
                                             const HeatModel& heat,
                                             const Eigen::VectorXd& temperatures_k);

}  // namespace idlepoint::solve
