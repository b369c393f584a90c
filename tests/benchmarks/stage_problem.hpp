// A demonstration stage as a problem for any solver: compiled once, with many sets of values.
//
// Every benchmark takes its numbers from here, so that all solvers get the same ones.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "circuit/checked_circuit.hpp"
#include "solve/conditions.hpp"
#include "solve/state.hpp"

namespace idlepoint::benchmarks {

struct StageProblem {
  circuit::CheckedCircuit stage;
  solve::System system;
  solve::Numbers nominal;
  solve::State solution;  ///< Of that stage: the warm start.
};

/// Reads, checks, compiles and solves a file of netlists/. Ends the program where that fails.
[[nodiscard]] StageProblem read_problem(const std::string& file);

/// The same stage with its trimmers where their `adjust` statements want them.
[[nodiscard]] StageProblem at_preset(const StageProblem& problem,
                                     const solve::Conditions& conditions);

/// `count` sets of numbers for the problem's system: every value of the drawing and of the part
/// types, each part with a type of its own, changed by up to `spread` either way. The same ones for
/// the same seed on every machine.
[[nodiscard]] std::vector<solve::Numbers> varied_numbers(const StageProblem& problem,
                                                         double spread,
                                                         std::size_t count,
                                                         std::uint64_t seed);

}  // namespace idlepoint::benchmarks
