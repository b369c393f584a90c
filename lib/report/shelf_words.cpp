#include "report/shelf_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "report/figures.hpp"
#include "report/rating_words.hpp"
#include "report/words.hpp"

namespace idlepoint::report {
namespace {

using answers::Candidate;
using answers::Shelf;
using answers::Verdict;

std::string places_of(const Shelf& shelf, const Candidate& candidate) {
  std::vector<std::string> places;
  for (const auto& place : candidate.places) {
    places.push_back(setting_in_words(*shelf.stage, shelf.stage->at(place.trimmer), place.travel) +
                     (answers::is_at_an_end(place.travel) ? ", hard by an end of its track" : ""));
  }
  return list_in_words(places);
}

std::string missed(const Shelf& shelf, const Candidate& candidate) {
  for (const auto& place : candidate.places) {
    if (place.reached) continue;
    return fmt::format("{} cannot bring `{}` to its target",
                       shelf.stage->at(place.trimmer).name,
                       shelf.stage->at(place.reading).name);
  }
  return {};
}

Verdict verdict_of_rating(const Shelf& shelf, const Candidate& candidate) {
  return answers::allowed_by(*candidate.deciding,
                             answers::same_rating(shelf.old_checks, *candidate.deciding));
}

// As in `swap`: no worse than the part that is there, where that breaks the same rule.
std::string rating_of(const Shelf& shelf, const Candidate& candidate) {
  const auto& check = *candidate.deciding;
  const auto* old_one = answers::same_rating(shelf.old_checks, check);
  std::string text = rating_clause(check);
  if (check.ok != false || old_one == nullptr || !old_one->limit) return text;
  return text + fmt::format(" by the rule, as is the old type with {}",
                            rating_figure(check.rating, *old_one->limit));
}

std::string heat_of(const Candidate& candidate) {
  if (!candidate.loop_gain) return {};
  if (answers::allowed_by_loop_gain(*candidate.loop_gain) == Verdict::suitable) return {};
  return fmt::format("each extra watt comes back as {:.2f} W", *candidate.loop_gain);
}

}  // namespace

std::string reason_of(const Shelf& shelf, const Candidate& candidate) {
  if (!candidate.finds_rest) return "no place of the trimmers gives a safe rest";
  if (candidate.zener && answers::allowed_by(*candidate.zener) == Verdict::unsuitable) {
    if (!candidate.zener->after_v) return "no zener, where one is wanted";
    if (!candidate.zener->before_v) return "a zener, where none is wanted";
    return fmt::format("a zener of {}, where one of {} is wanted",
                       volts(*candidate.zener->after_v),
                       volts(*candidate.zener->before_v));
  }
  std::vector<std::string> reasons;
  const auto add = [&](std::string reason) {
    if (!reason.empty()) reasons.push_back(std::move(reason));
  };
  const auto add_new = [&](std::string reason) {
    if (std::find(reasons.begin(), reasons.end(), reason) == reasons.end()) add(std::move(reason));
  };
  if (candidate.deciding && verdict_of_rating(shelf, candidate) == Verdict::unsuitable) {
    return rating_clause(*candidate.deciding);
  }
  add(missed(shelf, candidate));
  add(heat_of(candidate));
  if (candidate.deciding) add(rating_of(shelf, candidate));
  for (const auto& check : candidate.not_given) add_new(rating_clause(check));
  if (candidate.verdict != Verdict::unsuitable) add(places_of(shelf, candidate));
  return fmt::format("{}", fmt::join(reasons, "; "));
}

}  // namespace idlepoint::report
