#include "report/text_fault.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/fault_words.hpp"
#include "report/figures.hpp"
#include "report/one_or_both.hpp"
#include "report/words.hpp"
#include "values/constants.hpp"

namespace idlepoint::report {
namespace {

using answers::Fault;

constexpr double warms_much = 1.5;

std::vector<std::string> faults_of(const Fault& answer) {
  std::vector<std::string> texts;
  for (const auto& fault : answer.faults) {
    texts.push_back(circuit::write_fault(*answer.faulty, fault));
  }
  return texts;
}

std::string table(const Fault& answer) {
  const std::string broken = answer.faults.size() == 1 ? "with the fault" : "with the faults";
  std::vector<TableRow> rows{{"", "sound", broken}};
  if (answer.blown_state) {
    std::vector<std::string> fuses;
    for (const auto fuse : answer.blown) fuses.push_back(answer.faulty->at(fuse).name);
    rows.front().push_back(list_in_words(fuses) + " blown");
  }
  std::size_t longest = 0;
  for (const auto& reading : answer.readings) {
    longest = std::max(longest, width_of(reading.name));
  }
  for (const auto& reading : answer.readings) {
    const std::string across = resistors_in_brackets(*answer.sound, reading.probe);
    rows.push_back({padded_right(reading.name, longest) + "  " +
                        probe_in_words(*answer.sound, reading.probe) +
                        (across.empty() ? "" : " " + across),
                    figure(reading.healthy, reading.unit),
                    figure(reading.faulty, reading.unit)});
    if (answer.blown_state) {
      rows.back().push_back(reading.once_blown ? figure(*reading.once_blown, reading.unit) : "");
    }
  }
  return table_of(rows);
}

std::string numbered(std::size_t number, const std::string& sentence, const Page& page) {
  const std::string text = fold(sentence, page, 6, 6);
  return fmt::format("{:>4}. {}", number, text.substr(6));
}

std::string chain_section(const Fault& answer, const Page& page) {
  std::string text = "How it comes about\n";
  for (std::size_t index = 0; index < answer.chain.size(); ++index) {
    text += numbered(index + 1, step_in_words(answer, answer.chain[index]), page);
  }
  if (answer.chain.size() == answer.faults.size()) {
    text += fold("Nothing that a reading of the file shows follows from it.", page, 2, 2);
  }
  return text;
}

std::string replace_line(const Fault& answer) {
  std::vector<std::string> names;
  for (const auto part : answers::parts_to_replace(answer.dangers)) {
    names.push_back(answer.faulty->at(part).name);
  }
  if (names.empty()) return {};
  return fmt::format("{} {} beyond what {} made for: replace {} even if {} good.",
                     list_in_words(names),
                     names.size() == 1 ? "has been" : "have been",
                     names.size() == 1 ? "it is" : "they are",
                     names.size() == 1 ? "it" : "them",
                     names.size() == 1 ? "it tests" : "they test");
}

/// What the first second becomes, where it becomes something else.
std::string warm_line(const Fault& answer) {
  if (!answer.warm_state || !answer.blown.empty()) return {};
  const double cold_w = answer.faulty_state.total_power_w();
  const double warm_w = answer.warm_state->total_power_w();
  if (!(std::max(cold_w, warm_w) > warms_much * std::min(cold_w, warm_w))) return {};
  std::string text = fmt::format("Left on, the {} from the supply become {} as all warms through",
                                 watts(cold_w),
                                 watts(warm_w));
  for (std::size_t index = 0; index < answer.faulty->heatsinks.size(); ++index) {
    const auto& sink = answer.warm_state->heatsink(circuit::HeatsinkId{index});
    text += fmt::format(
        ", with {} at {}", answer.faulty->heatsinks[index].name, celsius(sink.temperature_k));
  }
  return text + ".";
}

std::string dangers_section(const Fault& answer, const Page& page) {
  std::string text = "In danger\n";
  for (const auto& sentence : dangers_in_words(answer)) text += fold(sentence, page, 2, 4);
  const std::string replace = replace_line(answer);
  if (answer.dangers.empty()) text += "  Nothing is above its ratings.\n";
  if (!replace.empty()) text += fold(replace, page, 2, 4);
  const std::string warm = warm_line(answer);
  if (!warm.empty()) text += fold(warm, page, 2, 4);
  return text;
}

std::string clues_section(const Fault& answer, const Page& page) {
  std::string text;
  for (const auto& clue : clues(answer)) text += fold(clue, page, 2, 4);
  return text.empty() ? "" : "\nWhat gives it away\n" + text;
}

std::string state_line(const Fault& answer, const Page& page) {
  const bool is_warm = answer.faulty_state.conditions().heat == solve::HeatState::warm;
  return fold(is_warm ? "Both warmed through."
                      : "Both just switched on: the first second, every part still at the room's "
                        "temperature. --warm gives both warmed through.",
              page);
}

}  // namespace

std::string without_state(const std::vector<std::string>& faults, const Page& page) {
  return fold(
      fmt::format("With {} no DC state was found; the sound stage has one.", list_in_words(faults)),
      page);
}

std::string text_of(const Fault& answer, const Page& page) {
  const auto& conditions = answer.faulty_state.conditions();
  std::string text = fold("What if: " + list_in_words(faults_of(answer)) + "?", page);
  text += opening(*answer.sound, conditions, answer.changes, page);
  text += trimmers_line(*answer.sound, page);
  text += state_line(answer, page);
  if (answer.readings.empty()) {
    text += fold("The file names no reading; ask for one with --reading \"volts A B\".", page);
  } else {
    text += "\n" + table(answer);
  }
  text += "\n" + chain_section(answer, page);
  text += "\n" + dangers_section(answer, page);
  text += clues_section(answer, page);
  const std::string warnings = warnings_list(answer.warnings, page);
  if (!warnings.empty()) text += "\n" + warnings;
  text += "\n" + spread_of_parts(*answer.sound, page);
  text += taken_as_given(*answer.sound, conditions, page);
  return text + standing_caution(*answer.sound, page);
}

}  // namespace idlepoint::report
