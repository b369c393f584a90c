// The solvers that are compared, each as something to time: a variant's numbers to a checked state.
//
// Used by the rows of single solves and by those of samples.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "benchmarks/kinsol_solver.hpp"
#include "benchmarks/klu_matrix.hpp"
#include "benchmarks/rows.hpp"
#include "benchmarks/stage_problem.hpp"

namespace idlepoint::benchmarks {

/// Where a contender's steps are added up.
using StepCounts = std::vector<double>;

/// From the problem's solution, or from no guess.
enum class Start { warm, cold };

// All references must outlive the contender.

[[nodiscard]] Contender ours(const StageProblem& problem,
                             const std::vector<solve::Numbers>& variants,
                             Start start,
                             StepCounts& steps);

[[nodiscard]] Contender klu(const StageProblem& problem,
                            const std::vector<solve::Numbers>& variants,
                            Start start,
                            Pivots pivots,
                            StepCounts& steps);

[[nodiscard]] Contender kinsol(const StageProblem& problem,
                               const std::vector<solve::Numbers>& variants,
                               Start start,
                               const KinsolSettings& settings,
                               StepCounts& steps);

/// The setting with the fewest failures, and among those the fastest: KINSOL at its best.
[[nodiscard]] KinsolSettings best_settings(
    Matrix matrix,
    Start start,
    std::size_t pieces,
    const std::function<Contender(const KinsolSettings&)>& make);
[[nodiscard]] KinsolSettings best_settings(const StageProblem& problem,
                                           const std::vector<solve::Numbers>& variants,
                                           Matrix matrix,
                                           Start start);

[[nodiscard]] std::string describe(const KinsolSettings& settings);

}  // namespace idlepoint::benchmarks
