// The rows of sampling: many variants of one stage in lanes, cold and warm.
#pragma once

#include <string>

#include "benchmarks/rows.hpp"
#include "benchmarks/stage_problem.hpp"
#include "solve/conditions.hpp"

namespace idlepoint::benchmarks {

/// The stage at its preset, every tolerance and spread of its drawing drawn; all contenders start
/// from the nominal state and stop at the same checked balance. The warm state has watts and heat
/// sinks as further unknowns.
void print_sampling_rows(const StageProblem& drawn, solve::HeatState heat, const Effort& effort);

/// What many samples hold in memory, in a child process.
void print_memory_row(const std::string& file, const Effort& effort);

/// The child's part of that: draws `samples` of the stage and holds what the `adjust` readings
/// read.
[[nodiscard]] bool hold_samples(const std::string& file, std::size_t samples);

}  // namespace idlepoint::benchmarks
