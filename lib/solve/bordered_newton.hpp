// Newton's method with temperatures and trimmer travels as further unknowns.
//
// Each heated part adds one unknown, its temperature, and one equation, its heat balance; each
// wanted reading adds one equation, reading = target, and its trimmer's travel as the unknown. The
// bordered system is solved by blocks: one back-substitution a further unknown on the factors of
// the stage's own slopes, and a small dense system for the border. All derivatives are exact. Used
// by solve/warm_state, solve/adjust, solve/sensitivity.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <span>
#include <vector>

#include "circuit/circuit.hpp"
#include "solve/heat_model.hpp"
#include "solve/heated_poles.hpp"
#include "solve/ideal_currents.hpp"
#include "solve/probe_gradient.hpp"
#include "solve/stage_solver.hpp"

namespace idlepoint::solve {

/// One trimmer and what it is to reach.
struct Wanted {
  std::size_t track;  ///< Among `system().wiring.tracks`.
  circuit::Probe probe;
  double target = 0.0;  ///< SI; kelvin for celsius readings.
};

struct BorderedState {
  State state;
  Eigen::VectorXd temperatures_k;  ///< [heated parts]
  std::vector<double> travels;     ///< [wanted]
};

struct BorderedResult {
  bool settled = false;
  int steps = 0;
};

/// The border at one assembled state; rows and columns: heated parts, then wanted.
struct Border {
  std::vector<std::vector<double>> answers;  ///< [columns][unknowns + 1] dx/d(column).
  std::vector<HeatSlopes> heat;              ///< [heated parts]
  std::vector<ProbeGradient> readings;       ///< [wanted]
  Eigen::MatrixXd power_by;                  ///< [heated parts][columns] watts, voltages following.
  Eigen::MatrixXd reading_by;                ///< [wanted][columns], voltages following.
};

/// The sum of a[k] b[k] over the leading `size`.
[[nodiscard]] double dot(const std::vector<double>& a,
                         const std::vector<double>& b,
                         std::size_t size);

class BorderedNewton {
 public:
  /// `heat` empty of parts: the cold state. All references must outlive this.
  BorderedNewton(const circuit::Circuit& circuit, StageSolver& solver, HeatModel heat);

  /// Steps state, temperatures and travels together from where they are. Travels stay on the track:
  /// a solution past an end does not settle. On success the solver's numbers and work hold it.
  [[nodiscard]] BorderedResult iterate(std::span<const Wanted> wanted, BorderedState& at);

  /// The border at a settled state; empty where the slopes are singular.
  [[nodiscard]] std::optional<Border> border(std::span<const Wanted> wanted,
                                             const BorderedState& at);

  /// [heated parts] powers and slopes at an assembled state.
  [[nodiscard]] std::vector<HeatSlopes> heat_slopes_at(const BorderedState& at);

  /// [wanted] d(reading)/d(its own trimmer's travel), other trimmers fixed, temperatures following.
  [[nodiscard]] std::vector<double> slopes_by_travel(const Border& border) const;

  /// The largest real part among the eigenvalues of (rise per watt) x (power by temperature,
  /// voltages following), 0 where none is positive: docs/models.md, "Heat".
  [[nodiscard]] double loop_gain(const Border& border) const;

  /// The border's own equations by its unknowns, the stage's following: heat balances in kelvin,
  /// then readings. Rows and columns as the border's.
  [[nodiscard]] Eigen::MatrixXd matrix(const Border& border) const;

  /// [heated parts] watts at a border.
  [[nodiscard]] static Eigen::VectorXd powers(const Border& border);

  [[nodiscard]] const HeatModel& heat() const noexcept { return heat_; }
  void set_heat(HeatModel heat) { heat_ = std::move(heat); }
  [[nodiscard]] const std::vector<HeatedPoles>& poles() const noexcept { return poles_; }
  [[nodiscard]] const IdealCurrents& ideals() const noexcept { return ideals_; }

 private:
  void apply(std::span<const Wanted> wanted, const BorderedState& at);
  [[nodiscard]] bool add_answer(std::vector<double> balance_by, Border& border);
  [[nodiscard]] bool is_settled(std::span<const Wanted> wanted,
                                const Border& border,
                                const BorderedState& at) const;
  [[nodiscard]] bool take_step(std::span<const Wanted> wanted,
                               const Border& border,
                               BorderedState& at);

  const circuit::Circuit& circuit_;
  StageSolver& solver_;
  HeatModel heat_;
  std::vector<HeatedPoles> poles_;
  IdealCurrents ideals_;
};

/// Travel is kept this far from a track's end where the end itself would be 0 ohm.
[[nodiscard]] double nearest_travel(const circuit::Part& trimmer, double travel) noexcept;

}  // namespace idlepoint::solve
