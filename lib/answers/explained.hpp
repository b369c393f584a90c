// One explanation of the readings, nothing wrong or one or two faults, fitted to them.
//
// Used by the diagnosis, which compares them.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "answers/planned.hpp"
#include "answers/stretches.hpp"
#include "answers/suspects.hpp"
#include "solve/conditions.hpp"

namespace idlepoint::answers {

/// What every explanation is held against.
struct Evidence {
  const circuit::CheckedCircuit* stage = nullptr;
  /// The same stage, light to copy: types that no part of it has are empty.
  const circuit::CheckedCircuit* light = nullptr;
  solve::Conditions conditions;
  std::vector<circuit::Measurement> measurements;
  std::vector<Observed> readings;  ///< `without_figure` where a movement alone was told.
  /// The same points on the channel that works; empty where there is none.
  std::vector<circuit::Measurement> sound_measurements;
  std::vector<Observed> sound_readings;

  /// The channel that works: its trimmers stand anywhere.
  [[nodiscard]] std::optional<BenchStage> sound_channel() const;

  std::shared_ptr<SoundWhenOff> sound_when_off = {};  ///< Of `light`.

  bool keeps_benches = false;  ///< The same points will be read again, of another copy.
};

[[nodiscard]] circuit::CheckedCircuit without_unused_types(const circuit::CheckedCircuit& stage);

struct Explanation {
  std::vector<SuspectedFault> faults;  ///< None: nothing is wrong.
  double log_prior = 0.0;
  std::optional<circuit::CheckedCircuit> faulty = {};  ///< Sizes as in the edits; set by `explain`.
  std::vector<Stretch> stretches = {};
  /// The best of the stretches with the evidence of all. None: it has no state, or is out of the
  /// question.
  std::optional<ToleranceFit> fit = {};
  std::shared_ptr<BenchStage> bench = {};        ///< That of the fit.
  std::shared_ptr<BenchStage> first_bench = {};  ///< Kept where the evidence says so.
  std::shared_ptr<Planned> planned = {};         ///< That of the best stretch.

  [[nodiscard]] std::vector<SuspectedFault> sized() const;
  /// The edits, sizes as fitted, in three figures.
  [[nodiscard]] std::vector<circuit::Edit> edits() const;
  [[nodiscard]] double log_posterior() const { return log_prior + fit->log_evidence; }
};

/// How closely an explanation that was fitted to the readings before is fitted to those that came
/// since.
enum class Fitting { exact, straight };

/// Fits the explanation, from the fit that it has to fewer readings where it has one; `hopeless`:
/// the logarithm of prior times evidence below which it is dropped.
void explain(Explanation& explanation,
             const Evidence& evidence,
             double hopeless,
             Fitting fitting = Fitting::exact);

/// What such stages show before the readings, the sizes as fitted: [measurements] mean and
/// deviation, the meter's included.
struct Before {
  std::vector<double> mean;
  std::vector<double> deviation;
};
[[nodiscard]] std::optional<Before> before_the_readings(const Explanation& explanation,
                                                        const Evidence& evidence);

}  // namespace idlepoint::answers
