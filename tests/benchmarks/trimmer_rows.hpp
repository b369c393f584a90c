// The row of trimmer positions: what finding one costs, in cold solves of the same stage.
#pragma once

#include "benchmarks/rows.hpp"
#include "benchmarks/stage_problem.hpp"

namespace idlepoint::benchmarks {

void print_trimmer_rows(const StageProblem& problem, const Effort& effort);

}  // namespace idlepoint::benchmarks
