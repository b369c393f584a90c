#include "answers/demands.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "answers/derating.hpp"
#include "answers/part_demand.hpp"
#include "answers/safe_area.hpp"
#include "values/constants.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Circuit;
using circuit::Part;
using circuit::PartId;

constexpr double reactive_angle_rad = std::numbers::pi / 3.0;

RatingCheck judged(PartId part,
                   Rating rating,
                   std::optional<double> limit,
                   std::optional<double> demand) {
  RatingCheck check{part, rating, limit, demand};
  if (!limit || !demand) return check;
  check.ok = *demand <= *limit;
  if (*limit > 0.0) check.margin = 1.0 - *demand / *limit;
  return check;
}

RatingCheck safe_area_check(PartId id,
                            Rating rating,
                            const circuit::Ratings& ratings,
                            double share_of_power,
                            const LoadLine& line) {
  const auto worst = worst_point(ratings, share_of_power, line);
  if (!worst) return judged(id, rating, std::nullopt, line.peak_a);
  RatingCheck check = judged(id, rating, worst->limit_a, worst->current_a);
  check.at_v = worst->voltage_v;
  if (check.ok == false) check.kept_to_rad = widest_safe_phase_rad(ratings, share_of_power, line);
  return check;
}

void check_at_rest(const StageAsked& stage, PartId id, std::vector<RatingCheck>& checks) {
  const Circuit& circuit = stage.circuit;
  const Part& part = circuit.at(id);
  const circuit::Ratings& ratings = circuit.at(*part.type).ratings;
  const PartDemand asked(stage, id);
  checks.push_back(judged(id, Rating::voltage, ratings.max_voltage_v, asked.voltage_v()));
  checks.push_back(judged(id, Rating::current, ratings.max_current_a, asked.current_a()));
  // A junction that is never turned backwards asks for no such rating.
  const auto reverse_v = asked.reverse_base_v();
  if (circuit::is_bipolar(part.kind) && reverse_v != 0.0) {
    checks.push_back(
        judged(id, Rating::base_emitter_voltage, ratings.max_base_emitter_voltage_v, reverse_v));
  }
  checks.push_back(judged(id,
                          Rating::idle_power,
                          allowed_w(circuit, id, stage.state),
                          std::max(0.0, stage.state.part(id).power_w)));
  checks.push_back(judged(id,
                          Rating::junction_temperature,
                          values::celsius_from_kelvin(ratings.max_junction_temperature_k),
                          values::celsius_from_kelvin(stage.state.part(id).junction_k)));
}

void check_played_loud(const StageAsked& stage, PartId id, std::vector<RatingCheck>& checks) {
  const PartDemand asked(stage, id);
  const auto carried = asked.carries();
  if (!carried) return;
  const circuit::Ratings& ratings = stage.circuit.at(*stage.circuit.at(id).type).ratings;
  const auto allowed = allowed_w(stage.circuit, id, stage.state);
  checks.push_back(judged(id, Rating::resistive_power, allowed, asked.loud_w(*carried, 0.0)));
  checks.push_back(
      judged(id, Rating::reactive_power, allowed, asked.loud_w(*carried, reactive_angle_rad)));
  const double of_power = power_share(ratings, surroundings_of(stage.circuit, id, stage.state));
  checks.push_back(safe_area_check(
      id, Rating::safe_area_resistive, ratings, of_power, asked.load_line(*carried, 0.0)));
  checks.push_back(safe_area_check(id,
                                   Rating::safe_area_reactive,
                                   ratings,
                                   of_power,
                                   asked.load_line(*carried, reactive_angle_rad)));
}

}  // namespace

std::string_view word(Rating rating) noexcept {
  switch (rating) {
    case Rating::voltage:
      return "voltage";
    case Rating::current:
      return "current";
    case Rating::base_emitter_voltage:
      return "base_emitter_voltage";
    case Rating::idle_power:
      return "idle_power";
    case Rating::junction_temperature:
      return "junction_temperature";
    case Rating::resistive_power:
      return "resistive_power";
    case Rating::reactive_power:
      return "reactive_power";
    case Rating::safe_area_resistive:
      return "safe_area_resistive";
    case Rating::safe_area_reactive:
      return "safe_area_reactive";
  }
  return "";
}

std::vector<RatingCheck> check_ratings(const Circuit& circuit,
                                       const solve::OperatingPoint& state,
                                       const PlayedLoud* loud,
                                       const std::vector<PartId>& parts) {
  const StageAsked stage = stage_asked(circuit, state, loud);
  std::vector<RatingCheck> checks;
  for (const PartId id : parts) {
    const Part& part = circuit.at(id);
    if (!part.type || part.damage.absent || part.damage.is_link) continue;
    check_at_rest(stage, id, checks);
    if (loud != nullptr && circuit::is_transistor(part.kind)) check_played_loud(stage, id, checks);
  }
  return checks;
}

std::vector<RatingCheck> check_ratings(const circuit::CheckedCircuit& stage,
                                       const solve::OperatingPoint& state,
                                       const solve::Conditions& conditions,
                                       const std::vector<PartId>& parts) {
  const auto played = play_loud(stage, conditions);
  return check_ratings(*stage, state, std::get_if<PlayedLoud>(&played), parts);
}

std::vector<PeakDrive> peak_drives(const Circuit& circuit,
                                   const PlayedLoud& loud,
                                   const std::vector<PartId>& parts) {
  std::vector<PeakDrive> drives;
  for (const PartId id : parts) {
    const Part& part = circuit.at(id);
    if (!circuit::is_bipolar(part.kind) || part.damage.absent) continue;
    const double sign = circuit::is_p_kind(part.kind) ? -1.0 : 1.0;
    std::optional<double> most_a;
    for (const auto* top : {&loud.gives, &loud.takes}) {
      if (!*top) continue;
      const double base_a = sign * (*top)->part(id).lead_current_a[circuit::base_or_gate];
      most_a = most_a ? std::max(*most_a, base_a) : base_a;
    }
    if (most_a) drives.push_back({id, *most_a});
  }
  return drives;
}

}  // namespace idlepoint::answers
