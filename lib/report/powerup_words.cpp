#include "report/powerup_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "answers/taken_out.hpp"
#include "report/figures.hpp"
#include "report/trimmer_words.hpp"
#include "report/words.hpp"
#include "values/format.hpp"

namespace idlepoint::report {
namespace {

using answers::FaultAtStep;
using answers::HazardEffect;
using answers::OutputPlace;
using answers::Powerup;
using answers::PowerupStep;
using answers::SafePlace;

bool is_at_a_rail(OutputPlace place) {
  return place == OutputPlace::at_low_rail || place == OutputPlace::at_high_rail;
}

const circuit::Circuit& stage_of(const Powerup& answer) { return *answer.places.at_safe_end; }

// "now, and only now, VR601, then VR602", in the order of setting; those that need the parts that
// are out wait for them.
std::string set_now(const Powerup& answer) {
  std::vector<std::string> now;
  std::vector<std::string> later;
  for (const std::size_t index : answer.places.order) {
    const auto& place = answer.places.trimmers[index];
    auto& names = place.needs_all_parts ? later : now;
    names.push_back(stage_of(answer).at(place.adjustment.trimmer).name);
  }
  std::string text;
  if (!now.empty()) text = fmt::format("now, and only now, {}", fmt::join(now, ", then "));
  if (later.empty()) return text;
  return text + (now.empty() ? "" : "; ") +
         fmt::format("{} only with {} back in",
                     list_in_words(later),
                     answers::names_taken_out(stage_of(answer)));
}

// Those that set the idle; all where none does.
std::string leave_alone(const Powerup& answer) {
  std::vector<std::string> names;
  std::vector<std::string> idle;
  for (const std::size_t index : answer.places.order) {
    const auto& place = answer.places.trimmers[index];
    names.push_back(stage_of(answer).at(place.adjustment.trimmer).name);
    const bool has_end = place.safe == SafePlace::end_a || place.safe == SafePlace::end_b;
    if (has_end) idle.push_back(names.back());
  }
  if (names.empty()) return {};
  return "; leave " + list_in_words(idle.empty() ? names : idle) + " alone";
}

// Faults that look alike, and the parts they are faults of.
struct LikeFaults {
  std::string what;
  std::vector<std::string> names;
};

std::string group_of(const circuit::Circuit& circuit, const FaultAtStep& shown) {
  const bool has_output = circuit::output_node(circuit).has_value();
  if (shown.effect == HazardEffect::hard_on) {
    if (!has_output) return "hard on";
    return is_at_a_rail(shown.output) ? "both halves on and the output at a rail"
                                      : "both halves on";
  }
  return shown.effect == HazardEffect::output_at_rail ? "the output at a rail"
                                                      : "a part beyond its rating";
}

void add_faults(const Powerup& answer,
                std::size_t step,
                const answers::SwitchOffLimit& limit,
                std::vector<LikeFaults>& groups) {
  for (const std::size_t index : limit.faults) {
    const auto& fault = answer.faults[index];
    const std::string what = group_of(stage_of(answer), fault.steps[step]);
    const std::string name = fault.part ? stage_of(answer).at(*fault.part).name : fault.fault;
    auto found = std::find_if(
        groups.begin(), groups.end(), [&](const LikeFaults& group) { return group.what == what; });
    if (found == groups.end()) found = groups.insert(groups.end(), {what, {}});
    auto& names = found->names;
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
}

std::string groups_in_words(const std::vector<LikeFaults>& groups) {
  constexpr std::size_t most_names = 5;
  constexpr std::size_t most_groups = 2;
  std::vector<std::string> texts;
  for (const auto& group : groups) {
    if (texts.size() == most_groups) break;
    auto names = group.names;
    if (names.size() > most_names + 1) {
      names.resize(most_names);
      names.emplace_back("others");
    }
    texts.push_back(group.what + ": " + list_in_words(names));
  }
  return fmt::format("{}", fmt::join(texts, "; "));
}

const std::optional<answers::SwitchOffLimit>& side(const answers::SwitchOff& limits,
                                                   bool is_above) {
  return is_above ? limits.above : limits.below;
}

std::string safe_place_of_one(const Powerup& answer, const answers::TrimmerPlace& place) {
  const auto& circuit = stage_of(answer);
  const auto& trimmer = circuit.at(place.adjustment.trimmer);
  switch (place.safe) {
    case SafePlace::end_a:
      return trimmer.name + " at " + end_in_words(circuit, trimmer, circuit::TrackEnd::a);
    case SafePlace::end_b:
      return trimmer.name + " at " + end_in_words(circuit, trimmer, circuit::TrackEnd::b);
    case SafePlace::half_way:
      return trimmer.name + " half way";
    case SafePlace::at_preset:
      break;
  }
  return setting_in_words(circuit, trimmer, place.safe_travel);
}

// Half the way from the reading, or a limit where there is none otherwise.
bool is_much_tighter(const std::optional<answers::SwitchOffLimit>& tight,
                     const std::optional<answers::SwitchOffLimit>& usual,
                     double value) {
  constexpr double worth_saying = 0.5;
  if (!tight) return false;
  return !usual || std::abs(tight->limit - value) < worth_saying * std::abs(usual->limit - value);
}

// "A", "A or B", "A, B or C".
std::string alternatives_in_words(const std::vector<std::string>& texts) {
  if (texts.size() == 1) return texts.front();
  return fmt::format("{} or {}", fmt::join(texts.begin(), texts.end() - 1, ", "), texts.back());
}

}  // namespace

std::string share_of_rails(const Powerup& answer, double rails) {
  return percent(rails / answer.full.conditions().rails);
}

std::string safe_places_in_words(const Powerup& answer) {
  std::vector<std::string> texts;
  for (const auto& place : answer.places.trimmers) {
    texts.push_back(safe_place_of_one(answer, place));
  }
  return list_in_words(texts);
}

std::string presets_in_words(const Powerup& answer) {
  std::vector<std::string> texts;
  for (const auto& place : answer.places.trimmers) {
    texts.push_back(setting_in_words(
        stage_of(answer), stage_of(answer).at(place.adjustment.trimmer), place.preset_travel));
  }
  return list_in_words(texts);
}

std::string step_in_words(const Powerup& answer, const PowerupStep& step) {
  std::vector<std::string> volts_there;
  for (const auto& rail : stage_of(answer).rails) {
    const std::string text = volts(std::abs(circuit::source_v(rail)) * step.rails);
    if (std::find(volts_there.begin(), volts_there.end(), text) == volts_there.end()) {
      volts_there.push_back(text);
    }
  }
  return share_of_rails(answer, step.rails) +
         (volts_there.empty() ? "" : ", " + list_in_words(volts_there));
}

std::string what_it_tells(const Powerup& answer, const PowerupStep& step) {
  if (!step.safe_end) return "no DC state is found here: go past it quickly";
  const auto& tells = step.tells;
  if (is_at_a_rail(tells.output)) {
    const bool stays = is_at_a_rail(answers::output_place(stage_of(answer), answer.full));
    return stays ? "at a rail, as on full rails: this stage is not sound"
                 : "at the rail, and right so";
  }
  if (tells.output_belongs == false) return "nothing yet is right" + leave_alone(answer);
  if (tells.may_set) {
    if (answer.places.order.empty()) return "working rails";
    return set_now(answer);
  }
  if (tells.takes_hold) return "the loop has taken hold";
  if (tells.idle_stands == true) {
    return "the idle stands where it will" + leave_alone(answer) + " all the same";
  }
  if (tells.idle_stands == false) return "no idle yet is right" + leave_alone(answer);
  return "on the way" + leave_alone(answer);
}

std::string why_it_looks_so(const Powerup& answer, const PowerupStep& step) {
  if (!step.safe_end) return {};
  const auto& tells = step.tells;
  const bool is_right_so = is_at_a_rail(tells.output) &&
                           !is_at_a_rail(answers::output_place(stage_of(answer), answer.full));
  if (!is_right_so && tells.output_belongs != false) return {};
  const auto output = circuit::output_node(stage_of(answer));
  if (!output) return {};
  std::string text = fmt::format("At {} the output stands at {}{}. It is no fault",
                                 share_of_rails(answer, step.rails),
                                 volts(step.safe_end->state.voltage_v(*output)),
                                 is_right_so ? ", by a rail" : "");
  const auto names = names_of(stage_of(answer), tells.asleep);
  if (!names.empty()) {
    text += fmt::format(
        ": {} {} nothing yet", list_in_words(names), names.size() == 1 ? "carries" : "carry");
  }
  return text + ". It is why no loudspeaker is connected.";
}

std::string on_the_way(const Powerup& answer) {
  std::vector<std::string> places;
  std::vector<std::string> asleep;
  const auto output = circuit::output_node(stage_of(answer));
  for (const auto& step : answer.steps) {
    if (!output || why_it_looks_so(answer, step).empty()) continue;
    places.push_back(fmt::format("{} at {}",
                                 volts(step.safe_end->state.voltage_v(*output)),
                                 share_of_rails(answer, step.rails)));
    if (asleep.empty()) asleep = names_of(stage_of(answer), step.tells.asleep);
  }
  if (places.empty()) return {};
  std::string text = fmt::format("The output is not yet where it belongs: {}. It is no fault",
                                 list_in_words(places));
  if (!asleep.empty()) {
    text += fmt::format(
        "; {} {} nothing there", list_in_words(asleep), asleep.size() == 1 ? "carries" : "carry");
  }
  return text + ". It is why no loudspeaker is connected.";
}

std::string reading_in_words(const std::optional<answers::AtStep>& at_step, std::size_t reading) {
  if (!at_step) return "-";
  const auto& value = at_step->readings[reading];
  std::string text = figure(value.value, value.unit);
  if (!value.band) return text;
  const std::string brackets = band(value.band->low, value.band->high, value.value, value.unit);
  return brackets.empty() ? text : text + " " + brackets;
}

std::string limit_in_words(double limit, answers::ReadingUnit unit) {
  // Tenths of a millivolt are as fine as a meter shows, and microvolts no word of the bench.
  const bool is_fine = unit == answers::ReadingUnit::volt && std::abs(limit) < 1e-3;
  return is_fine ? figure(limit, unit) : as_written(limit, unit);
}

std::string behind_limit(const Powerup& answer,
                         std::size_t step,
                         const answers::SwitchOffLimit& limit) {
  std::vector<LikeFaults> groups;
  add_faults(answer, step, limit, groups);
  return groups_in_words(groups);
}

std::string behind_limits(const Powerup& answer, std::size_t reading, bool is_above) {
  std::vector<LikeFaults> groups;
  for (std::size_t step = 0; step < answer.steps.size(); ++step) {
    const auto& all = answer.steps[step].switch_off;
    if (reading >= all.size()) continue;
    const auto& limit = side(all[reading], is_above);
    if (limit) add_faults(answer, step, *limit, groups);
  }
  return groups_in_words(groups);
}

std::vector<std::string> tighter_limits(const Powerup& answer) {
  std::vector<std::string> sentences;
  for (const auto& step : answer.steps) {
    std::vector<std::string> limits;
    for (std::size_t k = 0; k < step.switch_off.size(); ++k) {
      const auto& reading = step.safe_end->readings[k];
      for (const bool is_above : {true, false}) {
        const auto& tight = side(step.switch_off_at_safe_end[k], is_above);
        if (!is_much_tighter(tight, side(step.switch_off[k], is_above), reading.value)) continue;
        limits.push_back(fmt::format("`{}` {} {}",
                                     reading.name,
                                     is_above ? "above" : "below",
                                     limit_in_words(tight->limit, reading.unit)));
      }
    }
    if (limits.empty()) continue;
    sentences.push_back(
        fmt::format("At {} while the trimmers still stand at their safe end, too "
                    "much already is {}.",
                    share_of_rails(answer, step.rails),
                    alternatives_in_words(limits)));
  }
  return sentences;
}

}  // namespace idlepoint::report
