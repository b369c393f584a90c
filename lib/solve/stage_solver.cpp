#include "solve/stage_solver.hpp"

#include <utility>

#include "devices/passive.hpp"
#include "solve/part_numbers.hpp"

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

void StageSolver::load_part(const circuit::Circuit& circuit, circuit::PartId id) {
  const circuit::Part& part = circuit.at(id);
  const Wiring& wiring = system_.wiring;
  const auto for_own = [&](const std::vector<TwoPole>& poles, auto set) {
    for (std::size_t k = 0; k < poles.size(); ++k) {
      if (poles[k].owner_a.part == id) set(k);
    }
  };
  if (const auto* resistor = std::get_if<circuit::ResistorDetails>(&part.details)) {
    const double ohm =
        devices::resistor_resistance(part.value, resistor->tempco_per_k, circuit.ambient_k).ohm;
    for_own(wiring.conductors, [&](std::size_t k) { numbers_.conductance_s[k] = 1.0 / ohm; });
  } else if (part.kind == circuit::PartKind::feed) {
    for_own(wiring.feeds, [&](std::size_t k) { numbers_.feeds[k].value_a = part.value; });
  } else {
    for_own(wiring.diodes, [&](std::size_t k) {
      numbers_.diodes[k] = diode_numbers(circuit, part, circuit.ambient_k);
    });
  }
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
