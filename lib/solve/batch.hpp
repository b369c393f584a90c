// Many variants of one stage: what every reading becomes as the parts differ.
//
// Draws are counter based (solve/draws), so a sample depends on the seed and its index alone.
// Blocks of samples run side by side in lanes and over threads; a lane that fails is tried in
// strides, and in the cold state then alone, with continuation. The bits are the same on any number
// of lanes and threads. Used by the bands where they are sampled, and by `spread`.
#pragma once

#include <functional>
#include <optional>
#include <variant>
#include <vector>

#include "circuit/checked_circuit.hpp"
#include "circuit/uncertainty.hpp"
#include "solve/lane_kernels.hpp"
#include "solve/state_finder.hpp"

namespace idlepoint::solve {

struct BatchOptions {
  std::size_t samples = 10000;
  std::uint64_t seed = 1;
  std::size_t first = 0;    ///< Index of the first sample.
  std::size_t threads = 0;  ///< 0: as many as the machine has.
  /// For tests and benchmarks; none: the fastest for the stage on this machine.
  const LaneKernel* kernel = nullptr;
  /// Called after every block, from one thread at a time, with the samples done so far; false stops
  /// with what there is. Where it stops, the samples done are those of a prefix.
  std::function<bool(std::size_t done)> go_on = {};
};

struct Samples {
  std::size_t columns = 0;     ///< Readings, then positions.
  std::vector<double> values;  ///< [samples][columns] SI, kelvin; not a number where failed.
  std::vector<Fate> fates;     ///< [samples]

  [[nodiscard]] std::size_t size() const noexcept { return fates.size(); }
  [[nodiscard]] double at(std::size_t sample, std::size_t column) const {
    return values[sample * columns + column];
  }
};

/// A stage made ready for its variants; the nominal state is solved once.
class Batch {
 public:
  /// follow: every trimmer with an `adjust` follows its target, and its position is a further
  /// column, in the order of the adjustments. Such a circuit must stand at its preset.
  enum class Trimmers { fixed, follow };

  /// The circuit must outlive the batch. A story where the nominal stage itself has no state.
  [[nodiscard]] static std::variant<Batch, NotSettled, ThermalTrouble> make(
      const circuit::CheckedCircuit& circuit,
      const Conditions& conditions,
      circuit::Uncertainty uncertainty,
      std::vector<circuit::Probe> probes,
      Trimmers trimmers = Trimmers::fixed);

  [[nodiscard]] Samples run(const BatchOptions& options) const;

  /// [columns] at the nominal values.
  [[nodiscard]] const std::vector<double>& nominal() const noexcept { return nominal_; }

  /// Empty where a spread moves what lanes do not move: every sample is then solved alone.
  [[nodiscard]] const std::optional<LanePlan>& plan() const noexcept { return plan_; }

 private:
  Batch(const circuit::CheckedCircuit& circuit,
        const Conditions& conditions,
        circuit::Uncertainty uncertainty,
        std::vector<circuit::Probe> probes)
      : circuit_(&circuit),
        conditions_(conditions),
        uncertainty_(std::move(uncertainty)),
        probes_(std::move(probes)) {}

  void run_block(const BatchOptions& options, std::size_t begin, Samples& samples) const;
  [[nodiscard]] Fate solve_alone(std::uint64_t seed,
                                 std::uint64_t sample,
                                 std::span<double> values) const;

  const circuit::CheckedCircuit* circuit_;
  Conditions conditions_;
  circuit::Uncertainty uncertainty_;
  std::vector<circuit::Probe> probes_;
  bool trimmers_follow_ = false;
  std::vector<double> nominal_;
  std::optional<LanePlan> plan_;
};

}  // namespace idlepoint::solve
