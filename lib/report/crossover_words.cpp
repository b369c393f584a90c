#include "report/crossover_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/figures.hpp"
#include "report/one_or_both.hpp"
#include "report/words.hpp"
#include "values/format.hpp"

namespace idlepoint::report {
namespace {

using answers::Crossover;
using answers::IdleSetting;

const circuit::Adjustment& moved(const Crossover& answer) {
  return answer.stage->adjustments[answer.adjustment];
}

const circuit::Reading& reading_of(const Crossover& answer) {
  return answer.stage->at(moved(answer).reading);
}

std::string of_percent(double fraction) {
  const double percent = 100.0 * fraction;
  return fmt::format("{:.{}f} %", percent, percent < 0.995 ? 2 : percent < 9.95 ? 1 : 0);
}

const IdleSetting& flattest_of(const Crossover& answer) { return answer.settings[answer.flattest]; }

/// "`both` (R611 and R612) at 41 mV".
std::string at_reading(const Crossover& answer, double reading) {
  const auto& asked = reading_of(answer);
  const std::string where = resistors_in_brackets(*answer.stage, asked.probe);
  return fmt::format("`{}` {}at {}",
                     asked.name,
                     where.empty() ? "" : where + " ",
                     crossover_reading(answer, reading));
}

std::string place(const Crossover& answer, const IdleSetting& setting) {
  return setting_in_words(*answer.stage, answer.stage->at(moved(answer).trimmer), setting.travel);
}

/// The rows about the flattest whose ripple is hardly more, as a range of readings.
std::string how_broad(const Crossover& answer) {
  constexpr double hardly_more = 1.25;
  const auto& settings = answer.settings;
  const double most = hardly_more * flattest_of(answer).curve.ripple();
  std::size_t low = answer.flattest;
  std::size_t high = answer.flattest;
  while (low > 0 && settings[low - 1].curve.ripple() <= most) --low;
  while (high + 1 < settings.size() && settings[high + 1].curve.ripple() <= most) ++high;
  if (low == high) return {};
  return fmt::format(" From {} to {} it is hardly worse.",
                     crossover_reading(answer, settings[low].reading),
                     crossover_reading(answer, settings[high].reading));
}

std::string where_it_ends(const Crossover& answer) {
  if (answer.flattest + 1 != answer.settings.size()) return {};
  const std::string& trimmer = answer.stage->at(moved(answer).trimmer).name;
  switch (answer.ends_by) {
    case answers::NoSetting::track_end:
      return fmt::format(" More would be flatter still; {} goes no further.", trimmer);
    case answers::NoSetting::heat:
      return " More would be flatter still, but beyond it the stage runs away or gets too hot.";
    case answers::NoSetting::hot_already:
      return " More would be flatter still, at heat that no one wants.";
    default:
      return " Beyond it no state was found.";
  }
}

std::string band_of(const Crossover& answer) {
  if (!answer.flattest_band) return {};
  const auto unit = answers::unit_of(reading_of(answer).probe);
  const auto& band_found = *answer.flattest_band;
  return " " + band(answers::in_own_unit(band_found.low, unit),
                    answers::in_own_unit(band_found.high, unit),
                    answers::in_own_unit(flattest_of(answer).reading, unit),
                    unit);
}

std::string cool_rule() {
  return fmt::format(
      "no heat sink more than {:.0f} K above the room, less than {:.1f} of each "
      "extra watt coming back, no part above a rating: a rule of this program, not "
      "a standard",
      answers::cool_sink_rise_k,
      answers::cool_loop_gain);
}

/// What is added to an aim: the rule it was judged by, or that nothing was judged.
std::string by_which_rule(bool is_warm) {
  return is_warm ? " Cool: " + cool_rule() + "."
                 : " How warm it gets is not judged just switched on; `--warm` does.";
}

std::string one_published(const Crossover& answer, const answers::PublishedResistor& one) {
  const auto& circuit = *answer.stage;
  return fmt::format("{} across {} ({})",
                     volts(one.across_v),
                     circuit.at(one.resistor).name,
                     amps(one.standing_a));
}

}  // namespace

std::string crossover_reading(const Crossover& answer, double reading) {
  const auto unit = answers::unit_of(reading_of(answer).probe);
  return figure(answers::in_own_unit(reading, unit), unit);
}

std::string ripple_in_words(const IdleSetting& setting) {
  return of_percent(setting.curve.ripple());
}

std::string shape_in_words(const IdleSetting& setting) {
  constexpr double is_level = 0.15;  // of the ripple
  const auto& curve = setting.curve;
  const double off = (curve.at_rest() - curve.mean()) / (curve.largest() - curve.smallest());
  if (off < -is_level) return "dips in the middle";
  return off > is_level ? "bulges in the middle" : "";
}

std::string marks_in_words(const Crossover& answer, std::size_t setting) {
  std::vector<std::string> marks;
  if (setting == answer.flattest) marks.emplace_back("FLATTEST");
  if (answer.at_makers == setting) marks.emplace_back("the file's");
  if (answer.at_published == setting) marks.emplace_back("published rule");
  if (answer.aim && answer.aim->setting == setting) marks.emplace_back("aim");
  if (!answers::is_cool(answer.settings[setting])) marks.emplace_back("too hot");
  return fmt::format("{}", fmt::join(marks, ", "));
}

std::string flattest_in_words(const Crossover& answer) {
  const auto& flattest = flattest_of(answer);
  return fmt::format("Flattest with {}{}, {}: there the gain varies by {} over the swing.{}{}",
                     at_reading(answer, flattest.reading),
                     band_of(answer),
                     place(answer, flattest),
                     ripple_in_words(flattest),
                     how_broad(answer),
                     where_it_ends(answer));
}

std::string halves_in_words(const Crossover& answer) {
  constexpr double much = 0.5;  // of all that varies
  const auto& curve = flattest_of(answer).curve;
  const double low = curve.gain.front();
  const double high = curve.gain.back();
  if (std::abs(high - low) < much * (curve.largest() - curve.smallest())) return {};
  return fmt::format(
      "The two halves are not alike: at the ends of the swing the gain is {:.3f} "
      "down and {:.3f} up, and no standing current evens that out.",
      low,
      high);
}

std::string published_in_words(const Crossover& answer) {
  if (!answer.published) {
    return fmt::format(
        "The published rule (kT/q across each emitter resistor and what resistance "
        "its transistor has inside) says nothing here: {}.",
        answer.why_not_published);
  }
  std::vector<std::string> each;
  for (const auto& one : answer.published->resistors) each.push_back(one_published(answer, one));
  std::string text = fmt::format(
      "The published rule puts kT/q, {}, across an emitter resistor and what resistance its "
      "transistor has inside: {}{}. ",
      volts(answer.published->resistors.front().thermal_v),
      each.size() == 1 ? ""
                       : crossover_reading(answer, answer.published->reading_v) + " across both, ",
      list_in_words(each));
  if (answer.at_published) {
    text += fmt::format("There the gain varies by {}. ",
                        ripple_in_words(answer.settings[*answer.at_published]));
  } else {
    text += "The stage cannot be set to that. ";
  }
  return text +
         "It is made for two followers alone, driven without resistance; what the parts "
         "before them do is in the table, not in the rule.";
}

std::string makers_in_words(const Crossover& answer) {
  if (!answer.is_makers) return {};
  const double target = moved(answer).target;
  if (!answer.at_makers) {
    return fmt::format("The file asks for {}, which is out of reach.",
                       crossover_reading(answer, target));
  }
  return fmt::format(
      "The file asks for {}, where the gain varies by {}. A maker's figure stands: "
      "it knows the heat sink, the cabinet and the transistors that were fitted.",
      crossover_reading(answer, target),
      ripple_in_words(answer.settings[*answer.at_makers]));
}

std::string aim_in_words(const Crossover& answer) {
  using Why = answers::CrossoverAim::Why;
  if (!answer.aim) {
    return fmt::format(
        "Nothing to aim for: no standing current up to the flattest stays cool ({}).", cool_rule());
  }
  const auto& setting = answer.settings[answer.aim->setting];
  const bool is_warm = answer.conditions.heat == solve::HeatState::warm;
  std::string text = fmt::format("{} {}, NOT THE MAKER'S FIGURE: ",
                                 answer.is_makers ? "If no figure were known, aim for" : "Aim for",
                                 crossover_reading(answer, setting.reading));
  if (answer.aim->why == Why::flattest) {
    text += is_warm ? "the flattest, and it stays cool and stable" : "the flattest";
  } else {
    text += answer.aim->why == Why::published
                ? "what the published rule asks for, as more than that is heat for little"
                : "the most that stays cool";
    text += fmt::format("; the gain varies by {} there, not {}",
                        ripple_in_words(setting),
                        ripple_in_words(flattest_of(answer)));
  }
  return text + "." + by_which_rule(is_warm);
}

std::string aim_in_words(const answers::Preset& preset) {
  const auto& aim = *preset.aim;
  const auto& trimmer = preset.adjustments.front();
  const bool is_warm = preset.state->conditions().heat == solve::HeatState::warm;
  std::string text =
      fmt::format("No figure is in the file. Aim for {} on `{}` ({}), NOT THE MAKER'S FIGURE: ",
                  figure(aim.target, trimmer.unit),
                  preset.stage->at(trimmer.reading).name,
                  probe_in_words(*preset.stage, preset.stage->at(trimmer.reading).probe));
  if (aim.is_flattest) {
    text += fmt::format("there the gain through the middle is flattest (it varies by {}){}",
                        of_percent(aim.gain_ripple),
                        is_warm ? ", and it stays cool and stable" : "");
  } else {
    text += fmt::format(
        "the gain through the middle is flattest at {}, but {} (the gain varies by {}, not {})",
        figure(aim.flattest_reading, trimmer.unit),
        aim.is_published ? "a published rule has it here, and more is heat for little"
                         : "that is too hot, and this is the most that stays cool",
        of_percent(aim.gain_ripple),
        of_percent(aim.flattest_ripple));
  }
  return text + "." + by_which_rule(is_warm) +
         " `crossover` shows it all. If the maker's figure turns up, write it as an `adjust`.";
}

std::string how_in_words(const Crossover& answer) {
  const auto& circuit = *answer.stage;
  return fmt::format(
      "How: `{}` is moved {} either way with {} on the output, for that alone, in {} steps, and "
      "the gain from there to `{}` taken at each; what varies is its largest less its smallest, "
      "over "
      "the mean. Every junction keeps the temperature it has at rest: none warms within a cycle. "
      "Capacitors of 1 uF or more keep their volts. Feedback is left out: it makes all of these "
      "smaller, by as much as it has in hand.",
      circuit.at(*circuit.signal.drive).name,
      volts(answer.swing_v),
      values::format_ohms(answer.load_ohm),
      answers::gain_points - 1,
      circuit.at(*circuit::output_node(circuit)).name);
}

std::vector<std::string> all_in_words(const Crossover& answer) {
  std::vector<std::string> sentences;
  for (auto& sentence : {flattest_in_words(answer),
                         halves_in_words(answer),
                         published_in_words(answer),
                         makers_in_words(answer),
                         aim_in_words(answer),
                         how_in_words(answer)}) {
    if (!sentence.empty()) sentences.push_back(sentence);
  }
  return sentences;
}

}  // namespace idlepoint::report
