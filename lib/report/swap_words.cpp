#include "report/swap_words.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/figures.hpp"
#include "report/rating_words.hpp"
#include "report/swap_topics.hpp"
#include "report/thermal_words.hpp"

namespace idlepoint::report {
namespace {

using answers::Rating;
using answers::RatingCheck;
using answers::Swap;
using answers::Verdict;

// That the type which sat there fails by the same rule deserves to be known.
std::string old_one_in_words(const Swap& swap, const RatingCheck& check) {
  if (check.ok != false) return {};
  const auto* old_one = answers::same_rating(swap.ratings_before, check);
  if (old_one == nullptr || old_one->ok != false || !old_one->limit) return {};
  const bool counts_as_care = answers::allowed_by(check, old_one) == Verdict::with_care;
  return fmt::format(" By this rule the old type, allowed {}, is too little as well{}.",
                     rating_figure(check.rating, *old_one->limit),
                     counts_as_care ? ", and this one no worse" : "");
}

// What a bench wants to read: the new parts always, where they have a number; at rest, and of the
// drivers, only what is not plainly good.
bool is_worth_saying(const Swap& swap, const RatingCheck& check) {
  if (answers::allowed_by(check) != Verdict::suitable) return true;
  constexpr double no_volts = 1e-3;
  if (check.rating == Rating::voltage && check.demand.value_or(0.0) < no_volts) return false;
  const bool is_driver =
      std::none_of(swap.swaps.begin(), swap.swaps.end(), [&](const auto& swapped) {
        return std::find(swapped.now.begin(), swapped.now.end(), check.part) != swapped.now.end();
      });
  if (is_driver || check.rating == Rating::base_emitter_voltage) return false;
  if (check.rating == Rating::junction_temperature) return false;
  if (check.rating != Rating::idle_power) return true;
  return std::none_of(swap.ratings.begin(), swap.ratings.end(), [&](const RatingCheck& other) {
    return other.part == check.part && other.rating == Rating::resistive_power;
  });
}

Reason about_ratings(const Swap& swap, const char* topic, const std::vector<Rating>& ratings) {
  Sentences said;
  Verdict weight = Verdict::suitable;
  for (const auto rating : ratings) {
    std::vector<RatingCheck> checks;
    for (const auto& check : swap.ratings) {
      if (check.rating != rating) continue;
      weight = answers::worse(
          weight, answers::allowed_by(check, answers::same_rating(swap.ratings_before, check)));
      if (is_worth_saying(swap, check)) checks.push_back(check);
    }
    for (const auto& group : asked_alike(checks)) {
      said.add(rating_sentence(*swap.stage, group.parts, group.check) +
               old_one_in_words(swap, group.check));
    }
  }
  return {topic, said.text(), weight};
}

std::string warming_words(const Swap& swap) {
  if (!swap.loop_gain_after) return {};
  std::string text = comes_back(*swap.loop_gain_after);
  if (swap.loop_gain_before) {
    text += fmt::format("; before the change it was {:.2f} W", *swap.loop_gain_before);
  }
  switch (answers::allowed_by_loop_gain(*swap.loop_gain_after)) {
    case answers::Verdict::suitable:
      return text + ". Comfortable: below 0.5.";
    case answers::Verdict::with_care:
      return text + ". Watchful: above 0.5, below 0.8.";
    case answers::Verdict::unsuitable:
      break;
  }
  return text + ". Do not leave it so: 0.8 and above.";
}

}  // namespace

Reason about_zeners(const Swap& swap) {
  Sentences said;
  Verdict weight = Verdict::suitable;
  for (const auto& swapped : swap.swaps) {
    if (!swapped.zener) continue;
    const auto& zener = *swapped.zener;
    weight = answers::worse(weight, answers::allowed_by(zener));
    const auto held = [](const std::optional<double>& zener_v) {
      return zener_v ? "a zener of " + volts(*zener_v) : std::string("no zener");
    };
    said.add(fmt::format("{} was {} and would be {}{}",
                         swap.stage->at(swapped.part).name,
                         held(zener.before_v),
                         held(zener.after_v),
                         zener.after_v ? "." : ": what it clamps or holds would be free."));
  }
  return {"Zener", said.text(), weight};
}

Reason about_stand_ins(const Swap& swap) {
  const bool any_idle =
      std::any_of(swap.swaps.begin(), swap.swaps.end(), [](const answers::Swapped& swapped) {
        return answers::is_left_idle(swapped);
      });
  return {"String", stand_in_words(swap), any_idle ? Verdict::with_care : Verdict::suitable};
}

std::vector<Reason> reasons_of(const Swap& swap) {
  const auto* preset = answers::preset_of(swap.after);
  const Verdict of_places = preset == nullptr ? Verdict::unsuitable : answers::allowed_by(*preset);
  const Verdict of_warming = swap.loop_gain_after
                                 ? answers::allowed_by_loop_gain(*swap.loop_gain_after)
                                 : Verdict::suitable;
  const std::vector<Reason> all = {
      about_ratings(swap, "Volts", {Rating::voltage, Rating::base_emitter_voltage}),
      about_ratings(swap, "Current", {Rating::current}),
      about_ratings(swap,
                    "Heat",
                    {Rating::idle_power,
                     Rating::junction_temperature,
                     Rating::resistive_power,
                     Rating::reactive_power}),
      about_ratings(swap, "Safe area", {Rating::safe_area_resistive, Rating::safe_area_reactive}),
      about_zeners(swap),
      about_stand_ins(swap),
      {"Idle", idle_words(swap)},
      {"Place", places_words(swap), of_places},
      {"Gain", gain_words(swap)},
      {"Sharing", sharing_words(swap)},
      {"Speed", speed_words(swap)},
      {"Warming", warming_words(swap), of_warming},
      {"Case", case_words(swap)}};
  std::vector<Reason> reasons;
  for (const auto& reason : all) {
    if (!reason.text.empty()) reasons.push_back(reason);
  }
  return reasons;
}

std::string_view word(answers::Verdict verdict) noexcept {
  switch (verdict) {
    case answers::Verdict::suitable:
      return "suitable";
    case answers::Verdict::with_care:
      return "suitable with care";
    case answers::Verdict::unsuitable:
      break;
  }
  return "unsuitable";
}

}  // namespace idlepoint::report
