// One blind trial: a stage drawn from its tolerances with one fault that the diagnosis is not told,
// read with a meter's error; then the diagnosis, and whatever it asks to measure next.
//
// Used by the trials' benchmark and by a few tests. All draws are counter based: a trial depends on
// its seed and number alone.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "answers/diagnose.hpp"
#include "answers/suspects.hpp"

namespace idlepoint::tests {

/// How the fault is drawn: by the odds that the diagnosis itself begins with, those of a sound
/// stage too; every fault alike; none.
enum class DrawnBy { odds, evenly, healthy };

/// Answers of which the first suspect had 80 to 90 in 100, those before the last measurement too.
struct InTheEighties {
  int said = 0;
  int right = 0;
  double foretold = 0.0;  ///< Sum of their probabilities.
};

struct TrialResult {
  std::string fault;  ///< As docs/language.md writes it, or "healthy".
  bool is_first = false;
  bool is_in_first_three = false;
  bool is_grouped_with_healthy = false;  ///< No reading tells it from a sound stage.
  std::optional<int> measurements;       ///< Asked for until one suspect had above 90 %.
  double top_probability = 0.0;          ///< At the end.
  InTheEighties in_the_eighties;
  std::string top;
  std::string asked;  ///< The measurements in the order they were asked for, with what they showed.
};

class Trials {
 public:
  /// `stage` with the types at hand that a part may have been replaced by; trimmers are set as its
  /// `adjust` lines want, all parts nominal.
  explicit Trials(const circuit::CheckedCircuit& stage);

  /// None where the faulty stage has no state to read.
  [[nodiscard]] std::optional<TrialResult> run(DrawnBy drawn,
                                               std::uint64_t seed,
                                               std::uint64_t number);

  /// The stage's own readings of a drawn stage with a fault in it, with the meter's error.
  [[nodiscard]] const std::vector<answers::SuspectedFault>& faults() const noexcept {
    return faults_;
  }

 private:
  [[nodiscard]] answers::Diagnosing& diagnosing_of(std::vector<circuit::BenchReading> readings);

  circuit::CheckedCircuit stage_;
  std::optional<answers::Diagnosing> diagnosing_;  ///< Kept from trial to trial.
  std::vector<answers::SuspectedFault> faults_;
  [[nodiscard]] std::optional<std::size_t> draw_fault(DrawnBy drawn, double share) const;

  double total_weight_ = 0.0;
};

/// The readings of a file that the diagnosis is given.
[[nodiscard]] std::vector<circuit::Measurement> own_readings(const circuit::Circuit& circuit);

/// What a drawn stage shows, meter error included; `draws` depend on seed and number.
[[nodiscard]] std::optional<circuit::BenchReading> take(const circuit::CheckedCircuit& faulty,
                                                        const circuit::Measurement& measurement,
                                                        std::uint64_t seed,
                                                        std::uint64_t number);

}  // namespace idlepoint::tests
