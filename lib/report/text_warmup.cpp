#include "report/text_warmup.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "answers/taken_out.hpp"
#include "report/figures.hpp"
#include "report/thermal_words.hpp"
#include "report/warmup_table.hpp"
#include "report/words.hpp"
#include "values/constants.hpp"

namespace idlepoint::report {
namespace {

using answers::Disturbed;
using answers::Trace;
using answers::Warmup;

std::string going(double from, double to, answers::ReadingUnit unit) {
  return fmt::format("{} from {} to {}",
                     std::abs(to) > std::abs(from) ? "goes up" : "goes down",
                     figure(from, unit),
                     figure(to, unit));
}

// A few minutes, rounded up to what a person would say.
double rounded_up_s(double seconds) {
  const double minute = 60.0;
  const double grain = seconds < 10.0 * minute ? minute : 5.0 * minute;
  return std::max(minute, std::ceil(seconds / grain - 1e-9) * grain);
}

std::string when_to_set(const Warmup& answer) {
  std::string text;
  for (std::size_t one = 0; one < answer.stage->adjustments.size(); ++one) {
    const auto& adjustment = answer.stage->adjustments[one];
    if (!answer.set_with_all_parts.empty() && answer.set_with_all_parts[one]) {
      text += fmt::format(" {} is not set with {} out.",
                          answer.stage->at(adjustment.trimmer).name,
                          answers::names_taken_out(*answer.stage));
      continue;
    }
    const std::size_t index = adjustment.reading.index;
    const Trace& trace = answer.course.readings[index];
    const auto& settled_s = answer.settled_s[index];
    if (!settled_s) continue;
    const std::string& trimmer = answer.stage->at(adjustment.trimmer).name;
    const double first = trace.values.front();
    const double last = trace.values.back();
    if (figure(first, trace.unit) == figure(last, trace.unit)) {
      text += fmt::format(" `{}` stays at {}: {} may be set at once.",
                          trace.name,
                          figure(last, trace.unit),
                          trimmer);
      continue;
    }
    text += fmt::format(" `{}` {} as it warms", trace.name, going(first, last, trace.unit));
    if (*settled_s < 60.0) {
      text += fmt::format(", within the first minute: then set {}.", trimmer);
    } else {
      text += fmt::format(": set {} after {}, and not for good before.",
                          trimmer,
                          clock_time(rounded_up_s(*settled_s)));
    }
  }
  return text.empty() ? text : text.substr(1);
}

std::string look_again(const Warmup& answer) {
  const double again_s = rounded_up_s(std::max(*answer.all_settled_s, 600.0));
  return fmt::format(
      "Look again after {}, with the cover on: a closed cabinet is a warmer room, and `--ambient` "
      "tells what that does.",
      clock_time(again_s));
}

// More than a twenty-fifth of a departure comes out on the other side.
bool swings_visibly(const solve::ReturnToRest& returns) {
  return returns.swing_s &&
         *returns.swing_s < 2.0 * std::numbers::pi * returns.time_constants_s.front();
}

std::string stability(const Warmup& answer) {
  std::string text = "It comes to rest. " + comes_back(answer.warm->loop_gain()) + ".";
  const auto& returns = answer.returns;
  if (swings_visibly(returns)) {
    text += fmt::format(" On its way it swings, once in {}.", clock_time(*returns.swing_s));
  } else if (!returns.time_constants_s.empty()) {
    text += fmt::format(" A small disturbance is down to a third after {}.",
                        clock_time(returns.time_constants_s.front() * std::log(3.0)));
  }
  return text;
}

std::string never_settles() {
  return "It comes to NO rest: the heat sinks warm and cool in turn, and the readings with them. A "
         "sensor on a slow sink that answers for parts on a quick one does that. Bring them onto "
         "one sink, or nearer together.";
}

std::string heat_in_words(const Warmup& answer, const Disturbed& disturbed) {
  const std::string time = clock_time(disturbed.lasts_s);
  if (disturbed.extra_w.empty()) {
    return fmt::format("The room {:.3g} K {} for {}, then as before:",
                       std::abs(disturbed.room_step_k),
                       disturbed.room_step_k > 0.0 ? "warmer" : "colder",
                       time);
  }
  double whole_w = 0.0;
  std::vector<std::string> sinks;
  for (std::size_t k = 0; k < disturbed.extra_w.size(); ++k) {
    whole_w += disturbed.extra_w[k];
    if (disturbed.extra_w[k] < 0.0005) continue;
    sinks.push_back(watts(disturbed.extra_w[k]) + " in " + answer.stage->heatsinks[k].name);
  }
  const std::string where = sinks.size() == 1
                                ? "all in " + sinks.front().substr(sinks.front().find(" in ") + 4)
                                : list_in_words(sinks);
  return fmt::format("Warmed through, then {} more for {} (loud music, {}), then quiet again:",
                     watts(whole_w),
                     time,
                     where);
}

// What the trimmers' readings ask for after a soak; empty where it leaves them alone.
std::string not_after_music(const Warmup& answer, const Disturbed& disturbed) {
  double longest_s = 0.0;
  std::vector<std::string> names;
  for (const auto& adjustment : answer.stage->adjustments) {
    const auto& back_s = disturbed.back_s[adjustment.reading.index];
    if (!back_s || *back_s < 60.0) continue;
    longest_s = std::max(longest_s, *back_s);
    names.push_back(answer.stage->at(adjustment.trimmer).name);
  }
  if (names.empty()) return {};
  return fmt::format(" After loud music leave {} alone for {}.",
                     list_in_words(names),
                     clock_time(rounded_up_s(longest_s)));
}

std::string disturbed_section(const Warmup& answer, const Disturbed& disturbed, const Page& page) {
  std::string text = "\n" + fold(heat_in_words(answer, disturbed), page) + "\n";
  text += disturbed_table(answer, disturbed);
  if (!disturbed.extra_w.empty()) {
    text +=
        "\n" +
        fold(std::string("While it plays, the figures are those a meter shows when the music stops "
                         "at that moment; the music's own heat inside a junction is gone in a "
                         "second.") +
                 not_after_music(answer, disturbed),
             page);
  }
  return text;
}

std::string cannot_heat(const Warmup& answer, const Page& page) {
  std::string text = "\n" +
                     fold(
                         "Nothing in this file can heat: no part sits on a heat sink, and "
                         "no type says how it stands in free air "
                         "(`junction_to_ambient`). So nothing moves after switch-on:",
                         page) +
                     "\n";
  return text + course_table(answer);
}

std::string begins_at(const answers::WarmupTrouble& trouble) {
  if (trouble.after_s < 1.0) return "The limit is passed within seconds of switch-on.";
  return fmt::format("The limit is passed {} after switch-on.", clock_time(trouble.after_s));
}

// What goes wrong after the stage has come to rest once.
std::string later_trouble(const answers::WarmupTrouble& trouble) {
  using During = answers::WarmupTrouble::During;
  const auto& found = trouble.story.trouble;
  const auto& circuit = *trouble.story.stage;
  const bool runs_away = found.kind == solve::ThermalTrouble::Kind::runaway;
  const std::string time = clock_time(trouble.after_s);
  const std::string when =
      trouble.during == During::warm_up     ? fmt::format("{} after switch-on", time)
      : trouble.during == During::soak      ? fmt::format("{} after the music begins", time)
      : trouble.during == During::room_step ? fmt::format("{} into the other room", time)
                                            : fmt::format("{} after all is as before", time);
  const auto& leader = circuit.at(found.part);
  const double limit_k =
      leader.type ? circuit.at(*leader.type).ratings.max_junction_temperature_k : found.junction_k;
  std::string text = fmt::format("{}: {} the junction of {} passes {}",
                                 runs_away ? "RUNS AWAY" : "TOO HOT",
                                 when,
                                 leader.name,
                                 celsius(limit_k));
  if (found.heatsink) {
    text +=
        fmt::format(", {} then at {}", circuit.at(*found.heatsink).name, celsius(found.heatsink_k));
  }
  text += ".";
  if (trouble.misses_rest) {
    return text +
           " There is a state in which it could rest, and `readings` gives it; on the way "
           "there the quick heat sink runs ahead, and what should hold it back sits on a "
           "slow one and comes too late. " +
           later_advice(trouble);
  }
  if (runs_away) text += " It does not come back by itself: only the switch ends it.";
  if (trouble.during == During::soak) {
    text += " The music's own heat in the junction comes on top, so the true limit is earlier.";
  }
  return text + " " + later_advice(trouble);
}

std::string warmed_sections(const Warmup& answer, const Page& page) {
  std::string text =
      fold(
          "Red lead on the point named first. \"On\" is the moment of switch-on, every part at "
          "room "
          "temperature. From then on junctions are taken to follow their heat sink, or the air, at "
          "once; small parts take up to a minute for it.",
          page) +
      "\n";
  text += course_table(answer) + "\n";
  const auto& trouble = answer.trouble;
  if (trouble && trouble->misses_rest) return text + fold(later_trouble(*trouble), page);
  if (trouble && trouble->during == answers::WarmupTrouble::During::warm_up) {
    return text + fold(begins_at(*trouble), page) + trouble_section(trouble->story, page);
  }
  if (!answer.warm) return text + fold(never_settles(), page);
  text += fold(stability(answer), page);
  const std::string set = when_to_set(answer);
  if (!set.empty()) text += fold(set, page);
  text += fold(look_again(answer), page);
  if (trouble) text += "\n" + fold(later_trouble(*trouble), page);
  if (answer.soak) text += disturbed_section(answer, *answer.soak, page);
  if (answer.room_step) text += disturbed_section(answer, *answer.room_step, page);
  return text;
}

}  // namespace

std::string later_advice(const answers::WarmupTrouble& trouble) {
  if (trouble.misses_rest) {
    return "Bring the sensor onto the heat sink that it should watch, or the two together.";
  }
  if (trouble.during == answers::WarmupTrouble::During::room_step) {
    return "Give it more air, or a larger heat sink, before it goes back into a cabinet.";
  }
  return "Fewer watts, a shorter time, a larger heat sink, or a trimmer nearer its safe end.";
}

std::string clock_time(double seconds) {
  constexpr double minute = 60.0;
  if (seconds < 59.5) return fmt::format("{:.0f} s", seconds);
  if (seconds < 9.95 * minute) {
    const double tenths = std::round(10.0 * seconds / minute) / 10.0;
    return fmt::format("{:g} min", tenths);
  }
  const auto minutes = static_cast<int>(std::round(seconds / minute));
  if (minutes < 120) return fmt::format("{} min", minutes);
  const int rest = minutes % 60;
  return rest == 0 ? fmt::format("{} h", minutes / 60)
                   : fmt::format("{} h {} min", minutes / 60, rest);
}

std::string text_of(const Warmup& answer, const Page& page) {
  const auto& circuit = *answer.stage;
  std::string text = opening(circuit, answer.conditions, answer.changes, page);
  text += trimmers_line(circuit, page);
  text += answer.can_heat ? warmed_sections(answer, page) : cannot_heat(answer, page);
  const std::string warnings = warnings_list(answer.warnings, page);
  if (!warnings.empty()) text += "\n" + warnings;
  text += "\n" + spread_of_parts(circuit, page) + taken_as_given(circuit, answer.conditions, page);
  return text + standing_caution(circuit, page);
}

}  // namespace idlepoint::report
