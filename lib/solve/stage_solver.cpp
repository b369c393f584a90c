#include "solve/stage_solver.hpp"

#include <utility>

namespace idlepoint::solve {

StageSolver::StageSolver(const circuit::Circuit& circuit, const Conditions& conditions) {
  Description description = describe(circuit, conditions);
  system_ = compile(std::move(description.wiring));
  numbers_ = std::move(description.numbers);
  prepare(system_, numbers_, work_);
}

void StageSolver::load(const circuit::Circuit& circuit, const Conditions& conditions) {
  Description description = describe(circuit, conditions);
  if (description.wiring != system_.wiring) system_ = compile(std::move(description.wiring));
  numbers_ = std::move(description.numbers);
  prepare(system_, numbers_, work_);
}

void StageSolver::set_travel(const circuit::Circuit& circuit, std::size_t track, double travel) {
  const Track& stretches = system_.wiring.tracks[track];
  const TrackConductance conductance = track_conductance(circuit.at(stretches.part), travel);
  if (stretches.stretch_a) numbers_.conductance_s[*stretches.stretch_a] = conductance.a_s;
  if (stretches.stretch_b) numbers_.conductance_s[*stretches.stretch_b] = conductance.b_s;
  prepare(system_, numbers_, work_);
}

void StageSolver::set_temperature(const circuit::Circuit& circuit,
                                  circuit::PartId part,
                                  const HeatedPoles& poles,
                                  double temperature_k) {
  solve::set_temperature(circuit, part, poles, temperature_k, numbers_);
  if (!poles.conductors.empty()) prepare(system_, numbers_, work_);
}

Found StageSolver::solve() { return find_state(system_, numbers_, work_); }

Found StageSolver::solve_from(const State& start) {
  return find_state(system_, numbers_, work_, &start);
}

}  // namespace idlepoint::solve
