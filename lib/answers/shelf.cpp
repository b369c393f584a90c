#include "answers/shelf.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

#include "answers/taken_out.hpp"
#include "circuit/edits.hpp"
#include "solve/adjust.hpp"

namespace idlepoint::answers {
namespace {

using circuit::PartId;
using circuit::TypeId;

/// The stage at the places that the targets want, or where it stands without targets.
struct SetStage {
  circuit::CheckedCircuit stage;
  solve::OperatingPoint state;
  std::vector<CandidatePlace> places;
};

std::optional<SetStage> set_up(const circuit::CheckedCircuit& stage,
                               const solve::Conditions& conditions) {
  if (stage->adjustments.empty()) {
    auto outcome = solve::solve_stage(stage, conditions);
    auto* state = std::get_if<solve::OperatingPoint>(&outcome);
    if (state == nullptr) return std::nullopt;
    return SetStage{stage, std::move(*state), {}};
  }
  auto outcome = solve::solve_adjustments(
      stage, conditions, solve::SafeEnds(stage->adjustments.size(), std::nullopt));
  auto* adjusted = std::get_if<solve::Adjusted>(&outcome);
  if (adjusted == nullptr) return std::nullopt;
  SetStage set{std::move(adjusted->circuit), std::move(adjusted->state), {}};
  for (const auto& setting : adjusted->settings) {
    set.places.push_back({setting.trimmer, setting.reading, setting.travel, setting.reached});
  }
  return set;
}

// What there is least of: a broken rating, then the smallest margin.
bool decides_before(const RatingCheck& one,
                    const RatingCheck& other,
                    const std::vector<RatingCheck>& old_checks) {
  const auto rank = [&](const RatingCheck& check) {
    return std::tuple(-static_cast<int>(allowed_by(check, same_rating(old_checks, check))),
                      check.margin.value_or(1.0));
  };
  return rank(one) < rank(other);
}

Candidate judge(const Setup& setup,
                PartId part,
                TypeId type,
                const std::vector<RatingCheck>& old_checks) {
  Candidate candidate{type};
  const auto stage =
      setup.stage.edited([&](circuit::Circuit& circuit) { circuit.at(part).type = type; });
  const auto set = set_up(stage, setup.conditions);
  if (!set) {
    candidate.finds_rest = false;
    candidate.verdict = Verdict::unsuitable;
    return candidate;
  }
  candidate.places = set->places;
  candidate.zener = compare_zeners(*setup.stage, *setup.stage->at(part).type, type);
  if (candidate.zener) candidate.verdict = allowed_by(*candidate.zener);
  const auto checks = check_ratings(set->stage, set->state, setup.conditions, {part});
  for (const auto& check : checks) {
    candidate.verdict = worse(candidate.verdict, allowed_by(check, same_rating(old_checks, check)));
    if (!check.limit) {
      candidate.not_given.push_back(check);
    } else if (!candidate.deciding || decides_before(check, *candidate.deciding, old_checks)) {
      candidate.deciding = check;
    }
  }
  if (setup.conditions.heat == solve::HeatState::warm) {
    candidate.loop_gain = set->state.loop_gain();
    candidate.verdict = worse(candidate.verdict, allowed_by_loop_gain(*candidate.loop_gain));
  }
  const bool all_reached = std::all_of(
      set->places.begin(), set->places.end(), [](const auto& place) { return place.reached; });
  if (!all_reached) candidate.verdict = Verdict::unsuitable;
  const bool any_at_an_end =
      std::any_of(set->places.begin(), set->places.end(), [](const auto& place) {
        return is_at_an_end(place.travel);
      });
  if (any_at_an_end) candidate.verdict = worse(candidate.verdict, Verdict::with_care);
  return candidate;
}

/// How far from the speed of the part that is there; as good as endless where one is not given.
double unlike_speed(const circuit::Circuit& circuit, TypeId type, TypeId old_type) {
  const auto& now = circuit.at(type).ratings.transition_frequency_hz;
  const auto& before = circuit.at(old_type).ratings.transition_frequency_hz;
  constexpr double unknown = 100.0;
  return now && before ? std::abs(std::log(*now / *before)) : unknown;
}

void sort_best_first(Shelf& shelf) {
  const circuit::Circuit& circuit = *shelf.stage;
  const TypeId old_type = *circuit.at(shelf.part).type;
  const double like_speed = std::log(3.0);
  const auto rank = [&](const Candidate& candidate) {
    const double in_hand = candidate.deciding ? candidate.deciding->margin.value_or(0.0) : -1.0;
    return std::tuple(candidate.verdict,
                      unlike_speed(circuit, candidate.type, old_type) > like_speed,
                      -in_hand,
                      circuit.at(candidate.type).name);
  };
  std::sort(shelf.candidates.begin(),
            shelf.candidates.end(),
            [&](const Candidate& one, const Candidate& other) { return rank(one) < rank(other); });
}

}  // namespace

Shelf ask_shelf(const Setup& asked,
                PartId part,
                const std::function<bool(double share_done)>& go_on) {
  Setup setup = asked;
  setup.stage = with_all_parts(asked.stage);
  const circuit::Circuit& circuit = *setup.stage;
  Shelf shelf{setup.stage, setup.conditions, part};
  shelf.changes = setup.changes;
  shelf.warnings = standing_warnings(setup);
  if (!taken_out(*asked.stage).empty()) {
    shelf.warnings.push_back(judged_with_all_parts(*asked.stage));
  }
  if (const auto set = set_up(setup.stage, setup.conditions)) {
    shelf.old_checks = check_ratings(set->stage, set->state, setup.conditions, {part});
  }
  std::vector<TypeId> types;
  for (std::size_t index = 0; index < circuit.types.size(); ++index) {
    const bool is_its_own = TypeId{index} == *circuit.at(part).type;
    if (circuit.types[index].kind == circuit.at(part).kind && !is_its_own) types.push_back({index});
  }
  for (std::size_t index = 0; index < types.size(); ++index) {
    if (!go_on(static_cast<double>(index) / static_cast<double>(types.size()))) break;
    shelf.candidates.push_back(judge(setup, part, types[index], shelf.old_checks));
  }
  sort_best_first(shelf);
  return shelf;
}

}  // namespace idlepoint::answers
