#include "solve/stage_solver.hpp"

#include <algorithm>
#include <utility>
#include <vector>

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

State StageSolver::state_at(std::span<const double> node_v) {
  const auto given = std::min(static_cast<std::size_t>(system_.wiring.nodes), node_v.size());
  const auto is_given = [&](Index point) { return at(point) < given; };
  State state = dead_start(system_, numbers_);
  std::vector<bool> is_set(static_cast<std::size_t>(system_.unknowns) + 1, false);
  is_set.back() = true;
  for (Index k = 0; k < system_.unknowns; ++k) {
    const Index point = system_.point_of[at(k)];
    if (!is_given(point)) continue;
    state.x[at(k)] = node_v[at(point)] - work_.offset_v[at(point)];
    is_set[at(k)] = true;
  }
  for (const TwoPoleStamp& stamp : system_.conductors) {
    if (is_set[at(stamp.row_a)] == is_set[at(stamp.row_b)]) continue;
    const Index unset = is_set[at(stamp.row_a)] ? stamp.row_b : stamp.row_a;
    state.x[at(unset)] = state.x[at(unset == stamp.row_b ? stamp.row_a : stamp.row_b)];
    is_set[at(unset)] = true;
  }
  (void)assemble(system_, numbers_, {}, Limiting::off, state, work_);
  return state;
}

Found StageSolver::solve() { return find_state(system_, numbers_, work_); }

Found StageSolver::solve_from(const State& start) {
  return find_state(system_, numbers_, work_, &start);
}

}  // namespace idlepoint::solve
