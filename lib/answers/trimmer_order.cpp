#include "answers/trimmer_order.hpp"

#include <algorithm>
#include <cmath>
#include <variant>

#include "solve/solve_stage.hpp"

namespace idlepoint::answers {
namespace {

constexpr double moved_travel = 0.10;

double travel_towards_middle(double travel) {
  return travel > 0.5 ? travel - moved_travel : travel + moved_travel;
}

std::vector<bool> disturbed_by(const circuit::CheckedCircuit& stage,
                               const solve::OperatingPoint& at_preset,
                               circuit::PartId trimmer) {
  const auto moved = stage.edited([&](circuit::Circuit& circuit) {
    auto& track = std::get<circuit::TrimmerDetails>(circuit.at(trimmer).details);
    track.travel = travel_towards_middle(track.travel);
  });
  const auto outcome = solve::solve_cold(moved, at_preset.conditions());
  const auto* state = std::get_if<solve::OperatingPoint>(&outcome);
  std::vector<bool> disturbed;
  for (const auto& other : stage->adjustments) {
    const auto& probe = stage->at(other.reading).probe;
    disturbed.push_back(state == nullptr || std::abs(state->read(*moved, probe) -
                                                     at_preset.read(*stage, probe)) > other.within);
  }
  return disturbed;
}

bool must_wait(std::size_t candidate,
               const std::vector<bool>& placed,
               const Disturbances& disturbs) {
  for (std::size_t other = 0; other < disturbs.size(); ++other) {
    if (other == candidate || placed[other]) continue;
    if (disturbs[other][candidate] && !disturbs[candidate][other]) return true;
  }
  return false;
}

std::size_t next_in_order(const std::vector<bool>& placed, const Disturbances& disturbs) {
  std::size_t first_left = disturbs.size();
  for (std::size_t candidate = 0; candidate < disturbs.size(); ++candidate) {
    if (placed[candidate]) continue;
    if (!must_wait(candidate, placed, disturbs)) return candidate;
    first_left = std::min(first_left, candidate);
  }
  return first_left;
}

bool any_mutual_pair(const Disturbances& disturbs) {
  for (std::size_t one = 0; one < disturbs.size(); ++one) {
    for (std::size_t other = one + 1; other < disturbs.size(); ++other) {
      if (disturbs[one][other] && disturbs[other][one]) return true;
    }
  }
  return false;
}

}  // namespace

Disturbances find_disturbances(const circuit::CheckedCircuit& stage,
                               const solve::OperatingPoint& at_preset) {
  Disturbances disturbs;
  for (const auto& adjustment : stage->adjustments) {
    disturbs.push_back(disturbed_by(stage, at_preset, adjustment.trimmer));
  }
  return disturbs;
}

TrimmerOrder order_trimmers(const Disturbances& disturbs) {
  TrimmerOrder order;
  std::vector<bool> placed(disturbs.size(), false);
  while (order.first_to_last.size() < disturbs.size()) {
    const std::size_t next = next_in_order(placed, disturbs);
    placed[next] = true;
    order.first_to_last.push_back(next);
  }
  order.goes_round_twice = any_mutual_pair(disturbs);
  return order;
}

}  // namespace idlepoint::answers
