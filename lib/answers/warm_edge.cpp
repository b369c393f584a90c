#include "answers/warm_edge.hpp"

#include <algorithm>
#include <cmath>

#include "solve/state_finder.hpp"

namespace idlepoint::answers {
namespace {

constexpr double lifted_maximum_k = 673.15;  // 400 C, docs/models.md, "Heat"

circuit::Circuit with_lifted_maxima(circuit::Circuit circuit) {
  for (auto& type : circuit.types) type.ratings.max_junction_temperature_k = lifted_maximum_k;
  return circuit;
}

}  // namespace

Mover move_room(const circuit::Circuit& circuit, const solve::Conditions& conditions) {
  return [&](double ambient_k) {
    MovedStage moved{circuit, conditions};
    moved.circuit.ambient_k = ambient_k;
    return moved;
  };
}

Mover move_trimmer(const circuit::Circuit& circuit,
                   const solve::Conditions& conditions,
                   circuit::PartId trimmer) {
  return [&circuit, &conditions, trimmer](double travel) {
    MovedStage moved{circuit, conditions};
    std::get<circuit::TrimmerDetails>(moved.circuit.at(trimmer).details).travel = travel;
    return moved;
  };
}

std::vector<circuit::PartId> trimmers_that_turn(const circuit::Circuit& circuit) {
  std::vector<circuit::PartId> trimmers;
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    const auto& part = circuit.parts[index];
    if (part.kind == circuit::PartKind::trimmer && !part.damage.absent && !part.damage.wiper_open) {
      trimmers.push_back(circuit::PartId{index});
    }
  }
  return trimmers;
}

double travel_of(const circuit::Circuit& circuit, circuit::PartId trimmer) {
  return std::get<circuit::TrimmerDetails>(circuit.at(trimmer).details).travel;
}

std::optional<WarmLook> look_warm(const MovedStage& moved) {
  const circuit::Circuit lifted = with_lifted_maxima(moved.circuit);
  solve::Conditions warm = moved.conditions;
  warm.heat = solve::HeatState::warm;
  solve::StateFinder finder(lifted, warm);
  const auto rest = finder.find_quickly();
  if (!rest) return std::nullopt;
  WarmLook look;
  look.loop_gain = rest->loop_gain;
  const auto& temperatures_k = rest->at.temperatures_k;
  if (temperatures_k.size() == 0) return look;
  look.hottest_k = temperatures_k.maxCoeff();
  const auto hot = solve::hottest(moved.circuit, finder.heat(), temperatures_k);
  if (hot) look.excess_k = hot->excess_k;
  return look;
}

bool holds_warm(const MovedStage& moved) {
  const auto look = look_warm(moved);
  return look && look->excess_k <= 0.0;
}

double last_holding(const std::function<bool(double)>& holds,
                    double holding,
                    double failing,
                    double width) {
  while (std::abs(failing - holding) > width) {
    const double middle = 0.5 * (holding + failing);
    (holds(middle) ? holding : failing) = middle;
  }
  return holding;
}

}  // namespace idlepoint::answers
