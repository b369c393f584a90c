// The library from outside: reads a stage's text, checks it, solves it cold, prints a node's volts.
#include <cstdio>
#include <string>
#include <utility>
#include <variant>

#include "circuit/checked_circuit.hpp"
#include "complaints/render.hpp"
#include "language/read_stage.hpp"
#include "solve/solve_stage.hpp"

namespace {

const std::string divider = R"(stage "A divider"
hold     V1 top gnd 12V
resistor R1 top tap 3k
resistor R2 tap gnd 1k
)";

int refuse(const idlepoint::complaints::Complaints& complaints) {
  std::fputs(idlepoint::complaints::render(complaints).c_str(), stderr);
  return 2;
}

}  // namespace

int main() {
  using namespace idlepoint;
  auto stage = language::read_stage(divider, "divider.stage");
  if (!stage) return refuse(stage.complaints());

  const auto checked = circuit::check_circuit(std::move(stage).value().circuit);
  if (!checked) return refuse(checked.complaints());

  const solve::Outcome outcome = solve::solve_cold(checked.value());
  const auto* state = std::get_if<solve::OperatingPoint>(&outcome);
  if (state == nullptr) return 3;

  const auto tap = circuit::find_node(**checked, "tap");
  std::printf("tap %.6f V\n", state->voltage_v(tap.value()));
  return 0;
}
