// One stage on the bench, sound or with one fault in it, whose parts stand anywhere within their
// tolerances: what the meter shows, and how that moves with every draw.
//
// The stage is compiled once with its power on and, where a reading needs it, once with its power
// off; meters, solved with the stage where their load is felt, are switched by values. Used by the
// diagnosis.
#pragma once

#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "answers/meter_figures.hpp"
#include "answers/sound_when_off.hpp"
#include "answers/suspects.hpp"
#include "circuit/uncertainty.hpp"
#include "solve/conditions.hpp"

namespace idlepoint::answers {

/// Rows: measurements. Volts for the ohms range too, at its leads: what does not run off to
/// infinity where there is no way through. Else SI, kelvin.
struct Shown {
  std::vector<double> values;
  std::vector<std::vector<double>> by_draw;  ///< [measurements][draws], then sizes; where asked.
};

/// `of_sizes`: those by draws, which cost much with the power off, are left at 0.
enum class Slopes { none, of_sizes, of_all };

class BenchStage {
 public:
  /// `stage` has the faults in it already; those of `sized` have a size to be fitted. The
  /// uncertainty is that of the stage but for the sized parts' own numbers. `sound`, where there is
  /// one: that stage without the faults. `earlier`: the same stage with the first of the
  /// measurements; what it has wired is shared.
  BenchStage(const circuit::CheckedCircuit& stage,
             const solve::Conditions& conditions,
             std::vector<SuspectedFault> sized,
             std::vector<circuit::Measurement> measurements,
             std::shared_ptr<SoundWhenOff> sound = nullptr,
             const BenchStage* earlier = nullptr);
  ~BenchStage();
  BenchStage(BenchStage&&) noexcept;
  BenchStage& operator=(BenchStage&&) noexcept;

  [[nodiscard]] std::size_t draws() const noexcept;
  [[nodiscard]] std::size_t sizes() const noexcept;
  [[nodiscard]] const circuit::Uncertainty& uncertainty() const noexcept;

  /// With the draws at `u`, each -1 to 1 in a stage within its tolerances, and the sizes at `t`;
  /// none where that stage has no state, with the power on or off. `from`: of the measurements that
  /// one and those after it alone.
  [[nodiscard]] std::optional<Shown> show(std::span<const double> u,
                                          std::span<const double> t,
                                          Slopes slopes,
                                          std::size_t from = 0);

  /// Of volts beside its own measurements, with the power on; all slopes. For planning: the meter's
  /// load is taken from what lies behind the points, as if all were straight.
  [[nodiscard]] std::optional<Shown> foresee(const std::vector<circuit::Probe>& volts,
                                             std::span<const double> u,
                                             std::span<const double> t);

  /// The same with the draws in the middle, and slopes; reckoned once for all that ask. What is
  /// shown next does not depend on what was shown before.
  [[nodiscard]] const std::optional<Shown>& first_look(std::span<const double> t);

  [[nodiscard]] std::size_t measurements() const noexcept;

 private:
  class Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace idlepoint::answers
