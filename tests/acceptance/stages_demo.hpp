// The demonstration stages of netlists/ as the tests take them: every file by its name, read and
// checked through the front door.
//
// A complaint, or a state that did not settle, fails the test with its own words.
#pragma once

#include <catch2/catch.hpp>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "circuit/checked_circuit.hpp"
#include "circuit/edits.hpp"
#include "complaints/render.hpp"
#include "language/read_stage.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::tests {

/// The value, or a failed test that shows the complaints.
template <class T>
T required(complaints::Result<T> result) {
  if (!result) FAIL(complaints::render(result.complaints()));
  return std::move(result).value();
}

/// Every stage file that lies in netlists/ itself, sorted: "quarry-30w.stage".
[[nodiscard]] std::vector<std::string> demo_files();

[[nodiscard]] language::StageFile read_demo(const std::string& file);

/// Read, checked, ready to be solved.
[[nodiscard]] circuit::CheckedCircuit demo_stage(const std::string& file);

/// What was tried before the solver gave up, and what it takes for likely.
[[nodiscard]] std::string story(const circuit::Circuit& circuit, const solve::NotSettled& trouble);

/// The cold state, or a failed test that tells the story.
[[nodiscard]] solve::OperatingPoint settled(const circuit::CheckedCircuit& stage,
                                            const solve::Conditions& conditions = {});

/// The stage after one edit that is known to fit.
[[nodiscard]] circuit::CheckedCircuit edited(const circuit::CheckedCircuit& stage,
                                             const circuit::Edit& edit);

/// Power that no part accounts for, in watts, beside what is given: what the rails' sources give,
/// less what their resistances, the parts and the board's insulation take. A stand-in that delivers
/// counts as a part of negative power, and as a giver.
struct PowerBalance {
  double left_over_w = 0.0;
  double given_w = 0.0;
  /// What half a picoampere at every point, each at its own volts, comes to: the currents'
  /// own balance is promised no closer, and a dead stage takes little more than that.
  double least_w = 0.0;
};

[[nodiscard]] PowerBalance power_balance(const circuit::CheckedCircuit& stage,
                                         const solve::OperatingPoint& state);

/// 1e-9 of what is given, and `least_w`.
[[nodiscard]] bool is_accounted_for(const PowerBalance& balance);

}  // namespace idlepoint::tests
