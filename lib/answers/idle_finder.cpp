#include "answers/idle_finder.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "solve/make_operating_point.hpp"

namespace idlepoint::answers {
namespace {

constexpr double near_enough = 2e-3;  ///< Of the target.

NoSetting why_out_of_reach(const solve::Setting& setting) {
  constexpr double at_the_end = 1e-6;
  const double to_end = std::min(setting.travel, 1.0 - setting.travel);
  return setting.at_end && to_end > at_the_end ? NoSetting::heat : NoSetting::track_end;
}

double log_distance(double one, double other) { return std::abs(std::log(one / other)); }

}  // namespace

IdleFinder::IdleFinder(circuit::CheckedCircuit stage,
                       std::size_t adjustment,
                       const solve::Conditions& conditions)
    : stage_(std::move(stage)),
      adjustment_(adjustment),
      conditions_(conditions),
      finder_(*stage_, conditions_) {
  for (const auto& one : stage_->adjustments) {
    tracks_.push_back(solve::track_of(finder_.solver().system().wiring, one.trimmer).value());
  }
  at_end_.assign(tracks_.size(), false);
}

std::optional<NoSetting> IdleFinder::search(double target, const solve::SafeEnds& safe_ends) {
  const auto wanted = stage_.edited([&](circuit::Circuit& circuit) {
    auto& adjustment = circuit.adjustments.at(adjustment_);
    adjustment.target = target;
    adjustment.within = near_enough * std::abs(target);
  });
  const auto outcome = solve::solve_adjustments(wanted, conditions_, safe_ends);
  if (std::holds_alternative<solve::ThermalTrouble>(outcome)) return NoSetting::heat;
  const auto* adjusted = std::get_if<solve::Adjusted>(&outcome);
  if (adjusted == nullptr) return NoSetting::not_settled;
  const auto& moved = adjusted->settings.at(adjustment_);
  if (!moved.reached) return why_out_of_reach(moved);
  IdlePosition position;
  position.target = target;
  for (std::size_t k = 0; k < tracks_.size(); ++k) {
    position.travels.push_back(adjusted->settings[k].travel);
    at_end_[k] = k != adjustment_ && adjusted->settings[k].at_end;
  }
  set_travels(position.travels);
  auto found = finder_.find();
  auto* rest = std::get_if<solve::Rest>(&found);
  if (rest == nullptr) return NoSetting::not_settled;
  position.rest = std::move(*rest);
  known_.push_back(std::move(position));
  return std::nullopt;
}

void IdleFinder::begin_from(const IdleFinder& other, double target) {
  at_end_ = other.at_end_;
  known_ = {other.nearest(target)};
  set_travels(known_.front().travels);
}

void IdleFinder::set_travels(const std::vector<double>& travels) {
  for (std::size_t k = 0; k < tracks_.size(); ++k) {
    finder_.solver().set_travel(*stage_, tracks_[k], travels[k]);
  }
}

const IdlePosition& IdleFinder::nearest(double target) const {
  return *std::min_element(known_.begin(), known_.end(), [&](const auto& one, const auto& other) {
    return log_distance(one.target, target) < log_distance(other.target, target);
  });
}

std::optional<IdlePosition> IdleFinder::step(const IdlePosition& from, double target) {
  std::vector<solve::Wanted> wanted;
  solve::BorderedState at = from.rest.at;
  at.travels.clear();
  for (std::size_t k = 0; k < tracks_.size(); ++k) {
    if (at_end_[k]) continue;
    const auto& adjustment = stage_->adjustments[k];
    wanted.push_back({tracks_[k],
                      stage_->at(adjustment.reading).probe,
                      k == adjustment_ ? target : adjustment.target});
    at.travels.push_back(from.travels[k]);
  }
  if (!finder_.newton().iterate(wanted, at).settled) return std::nullopt;
  IdlePosition position{target, from.rest, from.travels};
  for (std::size_t k = 0, moved = 0; k < tracks_.size(); ++k) {
    if (!at_end_[k]) position.travels[k] = at.travels[moved++];
  }
  at.travels.clear();
  position.rest.at = std::move(at);
  set_travels(position.travels);
  auto rest = finder_.find_near(position.rest);
  if (!rest) return std::nullopt;
  position.rest = std::move(*rest);
  return position;
}

/// In one step of the reading's logarithm, else in 2, 4, 8.
std::optional<IdlePosition> IdleFinder::reach(double target) {
  const IdlePosition start = nearest(target);
  for (const int parts : {1, 2, 4, 8}) {
    std::optional<IdlePosition> position = start;
    for (int part = 1; part <= parts && position; ++part) {
      const double share = static_cast<double>(part) / parts;
      position = step(*position, start.target * std::pow(target / start.target, share));
    }
    if (position) return position;
  }
  return std::nullopt;
}

std::optional<IdleSetting> IdleFinder::at(double target, double swing_v, std::size_t points) {
  const auto position = reach(target);
  if (!position) return std::nullopt;
  auto state = solve::make_operating_point(*stage_, conditions_, finder_, position->rest);
  auto stage = stage_.edited([&](circuit::Circuit& circuit) {
    for (std::size_t k = 0; k < tracks_.size(); ++k) {
      auto& trimmer = circuit.at(circuit.adjustments[k].trimmer);
      std::get<circuit::TrimmerDetails>(trimmer.details).travel = position->travels[k];
    }
  });
  auto curve = gain_curve(stage, state, swing_v, points);
  if (!curve) return std::nullopt;
  known_.push_back(*position);
  return IdleSetting{
      state.read(*stage_, stage_->at(stage_->adjustments[adjustment_].reading).probe),
      position->travels[adjustment_],
      std::move(stage),
      std::move(state),
      std::move(*curve)};
}

}  // namespace idlepoint::answers
