// The row of single faults: every open and short of the drawing, each solved from nothing.
#pragma once

#include "benchmarks/rows.hpp"
#include "benchmarks/stage_problem.hpp"

namespace idlepoint::benchmarks {

void print_fault_rows(const StageProblem& problem, const Effort& effort);

}  // namespace idlepoint::benchmarks
