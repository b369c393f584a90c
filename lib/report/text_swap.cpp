#include "report/text_swap.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/answering_words.hpp"
#include "report/figures.hpp"
#include "report/not_settled.hpp"
#include "report/swap_words.hpp"
#include "report/thermal_words.hpp"
#include "report/words.hpp"

namespace idlepoint::report {
namespace {

using answers::Readings;
using answers::ReadingValue;
using answers::Swap;

// "Q606 and Q607 from power-npn to MJ15003", those that change alike together.
std::string changes_in_words(const Swap& swap) {
  struct Alike {
    const answers::Swapped* first;
    std::vector<std::string> names;
  };
  std::vector<Alike> groups;
  for (const auto& swapped : swap.swaps) {
    const auto found = std::find_if(groups.begin(), groups.end(), [&](const Alike& group) {
      return group.first->from == swapped.from && group.first->to == swapped.to;
    });
    auto& group = found == groups.end() ? groups.emplace_back(Alike{&swapped, {}}) : *found;
    group.names.push_back(swap.stage->at(swapped.part).name);
  }
  std::vector<std::string> texts;
  for (const auto& group : groups) {
    texts.push_back(fmt::format(
        "{} from {} to {}", list_in_words(group.names), group.first->from, group.first->to));
  }
  return fmt::format("{}. Everything else as it is.", fmt::join(texts, "; "));
}

// "SUITABLE WITH CARE, for its Safe area and Warming.": the topics that keep it from better.
std::string verdict_line(const Swap& swap, const std::vector<Reason>& reasons, const Page& page) {
  std::string text = in_capitals(word(swap.verdict));
  std::vector<std::string> topics;
  for (const auto& reason : reasons) {
    if (reason.weight == swap.verdict) topics.push_back(reason.topic);
  }
  const bool is_plain = swap.verdict == answers::Verdict::suitable || topics.empty();
  if (!is_plain) text += ": " + list_in_words(topics);
  return emphasised(text + ".", page) + "\n";
}

std::string reasons_list(const std::vector<Reason>& reasons, const Page& page) {
  std::size_t widest = 0;
  for (const auto& reason : reasons) widest = std::max(widest, width_of(reason.topic));
  const std::size_t indent = widest + 4;
  std::string text;
  for (const auto& reason : reasons) {
    const std::string folded = fold(reason.text, page, indent, indent);
    text += "  " + padded_right(reason.topic, widest) + folded.substr(widest + 2);
  }
  return text;
}

std::string cell(const std::vector<ReadingValue>* readings, std::size_t index) {
  if (readings == nullptr || index >= readings->size()) return "-";
  const auto& reading = (*readings)[index];
  std::string text = figure(reading.value, reading.unit);
  if (!reading.band) return text;
  const std::string brackets =
      band(reading.band->low, reading.band->high, reading.value, reading.unit);
  return brackets.empty() ? text : text + " " + brackets;
}

const std::vector<ReadingValue>* cold_of(const Readings* answer) {
  if (answer == nullptr) return nullptr;
  if (answer->state.conditions().heat == solve::HeatState::cold) return &answer->readings;
  return answer->cold ? &answer->cold->readings : nullptr;
}

const std::vector<ReadingValue>* warm_of(const Readings* answer) {
  if (answer == nullptr) return nullptr;
  const bool is_warm = answer->state.conditions().heat == solve::HeatState::warm;
  return is_warm ? &answer->readings : nullptr;
}

std::string readings_section(const Swap& swap) {
  const auto* before = answers::readings_of(swap.before);
  const auto* after = answers::readings_of(swap.after);
  if (before->readings.empty()) return {};
  const bool has_warm = warm_of(before) != nullptr;
  std::vector<TableRow> rows = {has_warm
                                    ? TableRow{"", "before, cold", "warm", "after, cold", "warm"}
                                    : TableRow{"", "before", "after"}};
  for (std::size_t index = 0; index < before->readings.size(); ++index) {
    TableRow row = {before->readings[index].name, cell(cold_of(before), index)};
    if (has_warm) row.push_back(cell(warm_of(before), index));
    row.push_back(cell(cold_of(after), index));
    if (has_warm) row.push_back(cell(warm_of(after), index));
    rows.push_back(std::move(row));
  }
  const std::string when = has_warm ? "" : ", just switched on";
  return "\nReadings with every trimmer left where it is" + when + ":\n\n" + table_of(rows);
}

std::string trouble_after(const Swap& swap, const Page& page) {
  if (const auto* story = std::get_if<answers::ThermalStory>(&swap.after.preset)) {
    return "\n" + trouble_section(*story, page);
  }
  if (const auto* story = std::get_if<answers::ThermalStory>(&swap.after.readings)) {
    return "\n" + fold("With the trimmers left alone:", page) + trouble_section(*story, page);
  }
  if (const auto* story = std::get_if<solve::NotSettled>(&swap.after.preset)) {
    return "\n" + text_of(*swap.stage, *story, page);
  }
  return {};
}

}  // namespace

std::string text_of(const Swap& swap, const Page& page) {
  const auto& before = *answers::readings_of(swap.before);
  const auto& circuit = *before.stage;
  const auto& conditions = before.state.conditions();
  std::string text = opening(circuit, conditions, before.changes, page);
  const auto reasons = reasons_of(swap);
  text += "\n" + fold(changes_in_words(swap), page) + "\n" + verdict_line(swap, reasons, page);
  text += reasons_list(reasons, page);
  text += trouble_after(swap, page) + readings_section(swap);
  const std::string heard = answering_section(*swap.stage, swap.answering, page);
  if (!heard.empty()) text += "\n" + heard;
  const auto* preset = answers::preset_of(swap.after);
  if (preset != nullptr && preset->thermal && preset->state) {
    text += "\n" + fold("With the trimmers set anew:", page) +
            warming_section(*preset->stage, *preset->state, *preset->thermal, page);
  }
  if (!swap.not_played.empty()) {
    text += "\n" + fold("What playing loud asks was not judged: " + swap.not_played, page);
  }
  if (swap.loud && !swap.loud->said.empty()) {
    text += "\n";
    for (const auto& sentence : swap.loud->said) text += fold(sentence, page);
  }
  const std::string warnings = warnings_list(swap.warnings, page);
  if (!warnings.empty()) text += "\n" + warnings;
  text += "\n" + bands_in_words(circuit, before.readings, before.cold, page) +
          taken_as_given(circuit, conditions, page);
  return text + standing_caution(circuit, page);
}

}  // namespace idlepoint::report
