#include "answers/thermal_story.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "answers/warm_edge.hpp"
#include "values/constants.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Circuit;
using circuit::PartId;

constexpr double smallest_share_tried = 0.1;

/// The value nearest to `present`, which does not hold, on the way from `safest`, if that does.
std::optional<double> nearest_that_holds(const Mover& move,
                                         double present,
                                         double safest,
                                         double width) {
  if (present == safest || !holds_warm(move(safest))) return std::nullopt;
  return find_edge(move, {safest, present, width}).first();
}

/// Finds a resistance in proportion, so that a small one is found as closely as a large one.
std::optional<double> nearest_resistance(const Mover& move, double present_k_per_w) {
  constexpr double width = 0.01;
  const auto move_by_log = [&](double log_value) { return move(std::exp(log_value)); };
  const double present = std::log(present_k_per_w);
  const auto found =
      nearest_that_holds(move_by_log, present, present + std::log(smallest_share_tried), width);
  if (!found) return std::nullopt;
  return std::exp(*found);
}

std::optional<double> sink_that_holds(const Circuit& circuit,
                                      const solve::Conditions& conditions,
                                      circuit::HeatsinkId sink) {
  const auto move = [&](double k_per_w) {
    MovedStage moved{circuit, conditions};
    moved.circuit.heatsinks[sink.index].resistance_k_per_w = k_per_w;
    return moved;
  };
  const double present = circuit.at(sink).resistance_k_per_w;
  return present > 0.0 ? nearest_resistance(move, present) : std::nullopt;
}

std::optional<double> washer_that_holds(const Circuit& circuit,
                                        const solve::Conditions& conditions,
                                        PartId leader) {
  const auto& mounting = circuit.at(leader).mounting;
  if (mounting.washer_k_per_w <= 0.0) return std::nullopt;
  const auto move = [&](double k_per_w) {
    MovedStage moved{circuit, conditions};
    for (auto& part : moved.circuit.parts) {
      const bool is_alike = part.mounting.heatsink == mounting.heatsink &&
                            part.mounting.washer_k_per_w == mounting.washer_k_per_w;
      if (is_alike) part.mounting.washer_k_per_w = k_per_w;
    }
    return moved;
  };
  return nearest_that_holds(move, mounting.washer_k_per_w, 0.0, 0.01 * mounting.washer_k_per_w);
}

bool feels_less(const circuit::Part& part, circuit::HeatsinkId sink) {
  return part.mounting.heatsink == sink && part.mounting.coupling < 1.0 && !part.damage.loose;
}

std::optional<double> coupling_that_holds(const Circuit& circuit,
                                          const solve::Conditions& conditions,
                                          circuit::HeatsinkId sink) {
  double least = 1.0;
  for (const auto& part : circuit.parts) {
    if (feels_less(part, sink)) least = std::min(least, part.mounting.coupling);
  }
  const auto move = [&](double share) {
    MovedStage moved{circuit, conditions};
    for (auto& part : moved.circuit.parts) {
      if (feels_less(part, sink)) part.mounting.coupling = std::max(part.mounting.coupling, share);
    }
    return moved;
  };
  return nearest_that_holds(move, least, 1.0, 0.005);
}

std::vector<PartId> parts_to_put_back(const Circuit& circuit, const solve::Conditions& conditions) {
  std::vector<PartId> parts;
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    if (!circuit.parts[index].damage.loose || !circuit.parts[index].mounting.heatsink) continue;
    MovedStage moved{circuit, conditions};
    moved.circuit.parts[index].damage.loose = false;
    if (holds_warm(moved)) parts.push_back(PartId{index});
  }
  return parts;
}

std::optional<double> free_air_that_holds(const Circuit& circuit,
                                          const solve::Conditions& conditions,
                                          PartId leader) {
  const auto type = circuit.at(leader).type;
  if (!type || !circuit.at(*type).ratings.junction_to_ambient_k_per_w) return std::nullopt;
  const auto move = [&](double k_per_w) {
    MovedStage moved{circuit, conditions};
    moved.circuit.types.push_back(circuit.at(*type));
    moved.circuit.types.back().ratings.junction_to_ambient_k_per_w = k_per_w;
    moved.circuit.at(leader).type = circuit::TypeId{moved.circuit.types.size() - 1};
    return moved;
  };
  return nearest_resistance(move, *circuit.at(*type).ratings.junction_to_ambient_k_per_w);
}

std::optional<double> room_that_holds(const Circuit& circuit, const solve::Conditions& conditions) {
  const double coldest_k = values::kelvin_from_celsius(0.0);
  if (circuit.ambient_k <= coldest_k) return std::nullopt;
  return nearest_that_holds(move_room(circuit, conditions), circuit.ambient_k, coldest_k, 0.5);
}

/// The nearer of the travels that hold, towards either end.
std::optional<double> travel_that_holds(const Circuit& circuit,
                                        const solve::Conditions& conditions,
                                        PartId trimmer) {
  const auto move = move_trimmer(circuit, conditions, trimmer);
  const double present = travel_of(circuit, trimmer);
  std::optional<double> nearest;
  for (const double end : {0.0, 1.0}) {
    const auto found = nearest_that_holds(move, present, end, 2e-3);
    if (found && (!nearest || std::abs(*found - present) < std::abs(*nearest - present))) {
      nearest = found;
    }
  }
  return nearest;
}

}  // namespace

WhatWouldHold find_what_would_hold(const circuit::CheckedCircuit& stage,
                                   const solve::Conditions& conditions,
                                   const solve::ThermalTrouble& trouble) {
  WhatWouldHold found;
  if (trouble.heatsink) {
    found.heatsink_k_per_w = sink_that_holds(*stage, conditions, *trouble.heatsink);
    found.washer_k_per_w = washer_that_holds(*stage, conditions, trouble.part);
    found.coupling = coupling_that_holds(*stage, conditions, *trouble.heatsink);
  } else {
    found.free_air_k_per_w = free_air_that_holds(*stage, conditions, trouble.part);
  }
  for (const PartId trimmer : trimmers_that_turn(*stage)) {
    const auto travel = travel_that_holds(*stage, conditions, trimmer);
    if (travel) found.settings.push_back({trimmer, *travel});
  }
  found.put_back = parts_to_put_back(*stage, conditions);
  found.ambient_k = room_that_holds(*stage, conditions);
  return found;
}

ThermalStory tell_thermal(const Setup& setup,
                          const circuit::CheckedCircuit& stage,
                          const solve::ThermalTrouble& trouble) {
  return {stage,
          setup.conditions,
          trouble,
          false,
          find_what_would_hold(stage, setup.conditions, trouble),
          setup.changes,
          standing_warnings(setup)};
}

}  // namespace idlepoint::answers
