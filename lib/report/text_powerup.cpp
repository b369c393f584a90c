#include "report/text_powerup.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "report/figures.hpp"
#include "report/powerup_words.hpp"
#include "report/words.hpp"

namespace idlepoint::report {
namespace {

using answers::Powerup;
using answers::PowerupStep;
using answers::ReadingValue;

// Columns three blanks apart, the first flush left, the others flush right.
std::string columns_of(const std::vector<TableRow>& rows, std::vector<std::string>& lines) {
  std::vector<std::size_t> widths(rows.front().size(), 0);
  for (const auto& row : rows) {
    for (std::size_t column = 0; column < row.size(); ++column) {
      widths[column] = std::max(widths[column], width_of(row[column]));
    }
  }
  std::string text;
  for (const auto& row : rows) {
    std::string line = "  " + padded_right(row.front(), widths.front());
    for (std::size_t column = 1; column < row.size(); ++column) {
      line += "   " + padded_left(row[column], widths[column]);
    }
    lines.push_back(line);
    text += line + "\n";
  }
  return text;
}

// The same with words behind each line, folded to what the page leaves.
std::string with_words(const std::vector<TableRow>& rows,
                       const std::vector<std::string>& words,
                       const Page& page) {
  constexpr std::size_t narrowest = 24;
  std::vector<std::string> lines;
  columns_of(rows, lines);
  std::string text;
  for (std::size_t index = 0; index < rows.size(); ++index) {
    const std::size_t begin = width_of(lines[index]) + 3;
    const Page whole{.width = std::max(page.width, begin + narrowest), .bold = false};
    const std::string folded = fold(words[index], whole, begin, begin);
    text += lines[index] + folded.substr(begin - 3);
  }
  return text;
}

// Readings worth a column of the plan: what the trimmers set, but for the output itself.
std::vector<std::size_t> readings_of_the_plan(const Powerup& answer) {
  const auto& circuit = *answer.places.at_safe_end;
  const auto output = circuit::output_node(circuit);
  std::vector<std::size_t> readings;
  for (const auto& place : answer.places.trimmers) {
    const auto& probe = circuit.at(place.adjustment.reading).probe;
    const auto* points = std::get_if<circuit::VoltsBetween>(&probe);
    const bool is_output = points != nullptr && output && points->a == *output;
    if (!(is_output && points->b == circuit::ground)) {
      readings.push_back(place.adjustment.reading.index);
    }
  }
  return readings;
}

std::string figure_of(const std::optional<answers::AtStep>& at_step, std::size_t reading) {
  if (!at_step) return "-";
  const auto& value = at_step->readings[reading];
  return figure(value.value, value.unit);
}

TableRow plan_heading(const Powerup& answer, const std::vector<std::size_t>& readings) {
  const auto& circuit = *answer.places.at_safe_end;
  TableRow row = {"rails"};
  if (circuit::output_node(circuit)) row.emplace_back("output");
  for (const std::size_t reading : readings) {
    row.push_back(circuit.readings[reading].name + ", safe end");
    row.emplace_back("at preset");
  }
  if (!circuit.rails.empty()) row.push_back("from " + circuit.at(circuit.rails.front().node).name);
  return row;
}

std::string plan(const Powerup& answer, const Page& page) {
  const auto& circuit = *answer.places.at_safe_end;
  const auto readings = readings_of_the_plan(answer);
  const auto output = circuit::output_node(circuit);
  std::vector<TableRow> rows = {plan_heading(answer, readings)};
  std::vector<std::string> words = {"what it tells you"};
  for (const auto& step : answer.steps) {
    TableRow row = {step_in_words(answer, step)};
    if (output) {
      row.push_back(step.safe_end ? volts(step.safe_end->state.voltage_v(*output)) : "-");
    }
    for (const std::size_t reading : readings) {
      row.push_back(figure_of(step.safe_end, reading));
      row.push_back(figure_of(step.preset, reading));
    }
    if (!circuit.rails.empty()) {
      row.push_back(
          step.safe_end ? size_a(step.safe_end->state.rail(circuit::RailId{0}).delivered_a) : "-");
    }
    words.push_back(what_it_tells(answer, step));
    rows.push_back(std::move(row));
  }
  return with_words(rows, words, page);
}

std::string limit_of(const std::optional<answers::SwitchOffLimit>& limit,
                     const ReadingValue& reading) {
  return limit ? limit_in_words(limit->limit, reading.unit) : "-";
}

std::string rails_of(const Powerup& answer, const PowerupStep& step) {
  const auto& circuit = *answer.places.at_safe_end;
  std::vector<std::string> texts;
  for (std::size_t index = 0; index < circuit.rails.size(); ++index) {
    const auto& rail = step.safe_end->state.rail(circuit::RailId{index});
    texts.push_back(circuit.at(circuit.rails[index].node).name + " " + size_a(rail.delivered_a));
  }
  return list_in_words(texts);
}

std::string step_block(const Powerup& answer, const PowerupStep& step, const Page& page) {
  std::string text = "\n" + step_in_words(answer, step);
  if (!step.safe_end) return text + ": no DC state is found with the trimmers at their safe end.\n";
  const std::string from_rails = rails_of(answer, step);
  if (!from_rails.empty()) {
    text += fmt::format(
        "; from the rails{}: {}", answer.no_preset ? "" : ", at the safe end", from_rails);
  }
  text = "\n" + fold(text.substr(1), page);
  std::vector<TableRow> rows = {{"", "safe end", "at preset", "SWITCH OFF above", "or below"}};
  if (answer.no_preset) rows.front()[1] = "as set";
  for (std::size_t k = 0; k < step.safe_end->readings.size(); ++k) {
    const auto& reading = step.safe_end->readings[k];
    if (reading.unit == answers::ReadingUnit::celsius) continue;  // the room's, at a cold moment
    rows.push_back({reading.name,
                    reading_in_words(step.safe_end, k),
                    reading_in_words(step.preset, k),
                    limit_of(step.switch_off[k].above, reading),
                    limit_of(step.switch_off[k].below, reading)});
  }
  if (answer.no_preset) {
    for (auto& row : rows) row.erase(row.begin() + 2);
  }
  std::vector<std::string> lines;
  return text + columns_of(rows, lines);
}

std::string switch_off_section(const Powerup& answer, const Page& page) {
  std::string text;
  const auto& readings = answer.places.at_safe_end->readings;
  for (std::size_t k = 0; k < readings.size(); ++k) {
    for (const bool is_above : {true, false}) {
      const std::string behind = behind_limits(answer, k, is_above);
      if (behind.empty()) continue;
      text +=
          fold(fmt::format("`{}` {}: {}.", readings[k].name, is_above ? "above" : "below", behind),
               page,
               2,
               6);
    }
  }
  if (text.empty()) {
    return "\n" + fold(
                      "No single fault shows itself clear of what sound stages read: the limits "
                      "stay empty.",
                      page);
  }
  text = "\n" +
         fold(
             "SWITCH OFF where a reading leaves its limits. What stands beyond them, the nearest "
             "first:",
             page) +
         text;
  for (const auto& sentence : tighter_limits(answer)) text += fold(sentence, page);
  return text + fold(
                    "No limit: no single fault reads clear of the band there. A resistor burnt "
                    "open shows volts, not millivolts, across itself.",
                    page);
}

std::string too_low_section(const Powerup& answer, const Page& page) {
  if (answer.set_too_low.empty()) return {};
  std::string text = "\n" + fold(
                                "Set nothing below 95 % of the rails. What that would come to on "
                                "full ones, just switched on:",
                                page);
  for (const auto& paragraph : set_too_low_by_trimmer(answer)) text += fold(paragraph, page, 2, 4);
  return text;
}

// The worst few that a lamp can tell apart.
std::vector<const answers::LampShows*> worst_on_the_lamp(const answers::LampAnswer& lamp) {
  constexpr std::size_t most = 4;
  constexpr double alike_v = 0.5;
  std::vector<const answers::LampShows*> worst;
  for (const auto& shows : lamp.hard_on) worst.push_back(&shows);
  std::stable_sort(worst.begin(), worst.end(), [](const auto* one, const auto* other) {
    return one->state.lamp_v > other->state.lamp_v;
  });
  const auto is_alike = [&](const auto* one, const auto* other) {
    return one->state.lamp_v - other->state.lamp_v < alike_v;
  };
  worst.erase(std::unique(worst.begin(), worst.end(), is_alike), worst.end());
  if (worst.size() > most) worst.resize(most);
  while (worst.size() > 1 && worst.back()->state.glow == answers::Glow::dark) worst.pop_back();
  return worst;
}

std::string lamp_section(const Powerup& answer, const Page& page) {
  if (!answer.lamp) return "\n" + fold(lamp_hint(), page);
  const auto& lamp = *answer.lamp;
  std::string text =
      "\n" +
      fold(fmt::format("A {} lamp in the mains lead, {}{}. Dark is below {} of its volts, bright "
                       "from {}, dull between.",
                       watts(lamp.lamp.rated_w),
                       volts(lamp.lamp.mains_v),
                       lamp.lamp.mains_assumed ? " assumed (--mains says another)" : "",
                       percent(answers::dull_from),
                       percent(answers::bright_from)),
           page);
  for (const auto& shows : lamp.sound) {
    text += fold(fmt::format("Sound, trimmers at {}: {}.",
                             shows.at_preset ? "the preset" : "the safe end",
                             lamp_in_words(lamp, shows)),
                 page,
                 2,
                 4);
  }
  for (const auto* shows : worst_on_the_lamp(lamp)) {
    text += fold(
        fmt::format("{}: {}.", answer.faults[*shows->fault].fault, lamp_in_words(lamp, *shows)),
        page,
        2,
        4);
  }
  for (const auto& sentence : lamp_remarks(answer)) text += fold(sentence, page);
  return text;
}

std::string places_lines(const Powerup& answer, const Page& page) {
  if (answer.no_preset) {
    return fold("No preset. " + *answer.no_preset + " The trimmers stand as the file has them.",
                page);
  }
  return fold(
      fmt::format(
          "Safe end: {}. Preset: {}.", safe_places_in_words(answer), presets_in_words(answer)),
      page);
}

std::string bands_line(const Powerup& answer, const Page& page) {
  const auto& step = answer.steps.back();
  if (!step.safe_end) return {};
  return bands_in_words(*answer.places.at_safe_end, step.safe_end->readings, std::nullopt, page);
}

}  // namespace

std::string text_of(const Powerup& answer, const Page& page) {
  const auto& circuit = *answer.places.at_safe_end;
  std::string text = opening(circuit, answer.full.conditions(), answer.changes, page);
  text += places_lines(answer, page);
  text += fold("Every figure is the first cold moment of its step: it drifts as parts warm.", page);
  text += "\nBefore you begin:\n";
  for (const auto& caution : powerup_cautions(answer)) text += fold(caution, page, 2, 4);
  text += "\n" + plan(answer, page);
  const std::string remark = on_the_way(answer);
  if (!remark.empty()) text += "\n" + fold(remark, page);
  for (const auto& step : answer.steps) text += step_block(answer, step, page);
  text +=
      switch_off_section(answer, page) + too_low_section(answer, page) + lamp_section(answer, page);
  const std::string warnings = warnings_list(answer.warnings, page);
  if (!warnings.empty()) text += "\n" + warnings;
  text += "\n" + bands_line(answer, page) + taken_as_given(circuit, answer.full.conditions(), page);
  return text + standing_caution(circuit, page);
}

}  // namespace idlepoint::report
