#include "answers/thermal_margin.hpp"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>

#include "answers/warm_edge.hpp"

namespace idlepoint::answers {
namespace {

/// From where a thing stands to how far it is moved, and how finely its edge is found.
struct Range {
  double from;
  double to;
  double width;
};

/// Where, between a state that is cool enough and one that is not, a junction reaches its maximum.
double hot_at(const Mover& move, const Range& range, double from_k, double to_k) {
  std::uintmax_t evaluations = 20;
  const auto excess_k = [&](double value) {
    const auto look = look_warm(move(value));
    return look ? look->excess_k : to_k;
  };
  const auto close = [&](double a, double b) { return std::abs(a - b) <= range.width; };
  const auto [low, high] =
      range.from < range.to ? boost::math::tools::toms748_solve(
                                  excess_k, range.from, range.to, from_k, to_k, close, evaluations)
                            : boost::math::tools::toms748_solve(
                                  excess_k, range.to, range.from, to_k, from_k, close, evaluations);
  return range.from < range.to ? low : high;
}

/// The first of some places along the range without a state, if there is one.
std::optional<double> first_without(const Mover& move, const Range& range) {
  for (const double place : {0.25, 0.5, 1.0}) {
    const double value = range.from + place * (range.to - range.from);
    if (!look_warm(move(value))) return value;
  }
  return std::nullopt;
}

/// A state may also end because it is followed no further than 400 C; its loop gain is then low.
bool ends_by_gain(const WarmLook& last) {
  constexpr double gain_near_one = 0.7;
  return last.loop_gain > gain_near_one;
}

Edge find_edge(const Mover& move, const Range& range) {
  Edge edge;
  if (std::abs(range.to - range.from) <= range.width) return edge;
  double last = range.to;
  const auto without = first_without(move, range);
  if (without) {
    const auto has_state = [&](double value) { return look_warm(move(value)).has_value(); };
    last = last_holding(has_state, range.from, *without, range.width);
  }
  const auto first_look = look_warm(move(range.from));
  const auto last_look = look_warm(move(last));
  if (!first_look || !last_look) return edge;
  if (without && ends_by_gain(*last_look)) edge.reaches_one_at = last;
  if (first_look->excess_k < 0.0 && last_look->excess_k > 0.0) {
    edge.too_hot_at =
        hot_at(move, {range.from, last, range.width}, first_look->excess_k, last_look->excess_k);
  }
  return edge;
}

Edge edge_of_room(const circuit::Circuit& circuit, const solve::Conditions& conditions) {
  if (circuit.ambient_k >= hottest_room_tried_k) return {};
  return find_edge(move_room(circuit, conditions), {circuit.ambient_k, hottest_room_tried_k, 0.1});
}

Edge edge_of_rails(const circuit::Circuit& circuit, const solve::Conditions& conditions) {
  const auto move = [&](double rails) {
    MovedStage moved{circuit, conditions};
    moved.conditions.rails = rails;
    return moved;
  };
  if (conditions.rails >= highest_rails_tried) return {};
  return find_edge(move, {conditions.rails, highest_rails_tried, 1e-3});
}

TrimmerEdges edges_of_trimmer(const circuit::Circuit& circuit,
                              const solve::Conditions& conditions,
                              circuit::PartId trimmer) {
  const auto move = move_trimmer(circuit, conditions, trimmer);
  const double travel = travel_of(circuit, trimmer);
  return {trimmer, find_edge(move, {travel, 0.0, 1e-3}), find_edge(move, {travel, 1.0, 1e-3})};
}

}  // namespace

ThermalMargin find_thermal_margin(const circuit::CheckedCircuit& stage,
                                  const solve::OperatingPoint& warm) {
  const solve::Conditions& conditions = warm.conditions();
  ThermalMargin margin;
  margin.loop_gain = warm.loop_gain();
  margin.ambient_k = edge_of_room(*stage, conditions);
  margin.rails = edge_of_rails(*stage, conditions);
  for (const auto trimmer : trimmers_that_turn(*stage)) {
    margin.trimmers.push_back(edges_of_trimmer(*stage, conditions, trimmer));
  }
  return margin;
}

}  // namespace idlepoint::answers
