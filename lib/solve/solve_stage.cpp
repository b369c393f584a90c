#include "solve/solve_stage.hpp"

#include "solve/make_operating_point.hpp"
#include "solve/stage_solver.hpp"

namespace idlepoint::solve {

Outcome solve_cold(const circuit::CheckedCircuit& circuit, const Conditions& conditions) {
  StageSolver solver(*circuit, conditions);
  const Found found = solver.solve();
  if (const auto* story = std::get_if<NotSettled>(&found)) return *story;
  return make_operating_point(*circuit, conditions, solver, std::get<Solution>(found));
}

}  // namespace idlepoint::solve
