// The rows of single solves: warm after small changes, cold from nothing.
#pragma once

#include "benchmarks/rows.hpp"
#include "benchmarks/stage_problem.hpp"

namespace idlepoint::benchmarks {

/// From the drawn stage's solution, all values changed by up to 1 %: from new numbers to a state
/// whose balance has been checked.
void print_warm_rows(const StageProblem& problem, const Effort& effort);

/// From nothing, all values changed by up to 20 %.
void print_cold_rows(const StageProblem& problem, const Effort& effort);

}  // namespace idlepoint::benchmarks
