// Where the time of one Newton step and of one solve goes.
#pragma once

#include "benchmarks/rows.hpp"
#include "benchmarks/stage_problem.hpp"

namespace idlepoint::benchmarks {

void print_step_rows(const StageProblem& problem, const Effort& effort);

}  // namespace idlepoint::benchmarks
