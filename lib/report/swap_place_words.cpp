#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/figures.hpp"
#include "report/swap_topics.hpp"
#include "report/trimmer_words.hpp"
#include "report/words.hpp"
#include "values/format.hpp"

namespace idlepoint::report {
namespace {

using answers::Preset;
using answers::Swap;
using answers::TrimmerAnswer;
using circuit::Circuit;

std::string control_name(circuit::PartKind kind) {
  if (kind == circuit::PartKind::diode) return "forward voltage";
  return circuit::is_fet(kind) ? "gate voltage" : "base voltage";
}

// "(20 to 60)" of a step down or up, "(from 7 mV higher to 30 mV lower)" where it may be either.
std::string step_band(double step_v, double half_width_v) {
  const double size_v = std::abs(step_v);
  if (size_v >= half_width_v) {
    return band(size_v - half_width_v, size_v + half_width_v, size_v, answers::ReadingUnit::volt);
  }
  return fmt::format("(from {} {} to {} {})",
                     volts(half_width_v - size_v),
                     step_v < 0.0 ? "higher" : "lower",
                     volts(half_width_v + size_v),
                     step_v < 0.0 ? "lower" : "higher");
}

std::string control_step_in_words(const answers::ControlStep& step) {
  const double step_v = step.after_v - step.before_v;
  constexpr double nothing_v = 0.5e-3;
  std::string text = std::abs(step_v) < nothing_v
                         ? std::string("the same")
                         : volts(std::abs(step_v)) + (step_v < 0.0 ? " lower" : " higher");
  if (step.half_width_v) text += " " + step_band(step_v, *step.half_width_v);
  return text;
}

// Parts of which the same is to be said share a sentence.
std::vector<std::string> steps_in_words(const Swap& swap) {
  struct Alike {
    std::string text;
    std::vector<std::string> names;
  };
  std::vector<Alike> groups;
  for (const auto& swapped : swap.swaps) {
    if (!swapped.control) continue;
    const auto& part = swap.stage->at(swapped.part);
    const std::string text =
        fmt::format("{}|{}", control_name(part.kind), control_step_in_words(*swapped.control));
    const auto found = std::find_if(
        groups.begin(), groups.end(), [&](const Alike& group) { return group.text == text; });
    auto& group = found == groups.end() ? groups.emplace_back(Alike{text, {}}) : *found;
    group.names.push_back(part.name);
  }
  std::vector<std::string> sentences;
  for (const auto& group : groups) {
    const std::size_t bar = group.text.find('|');
    sentences.push_back(fmt::format("The {} of {} at the current it carries is {}.",
                                    group.text.substr(0, bar),
                                    list_in_words(group.names),
                                    group.text.substr(bar + 1)));
  }
  return sentences;
}

const answers::ReadingValue* value_of(const std::vector<answers::ReadingValue>& readings,
                                      const std::string& name) {
  const auto found = std::find_if(
      readings.begin(), readings.end(), [&](const auto& one) { return one.name == name; });
  return found == readings.end() ? nullptr : &*found;
}

std::string trimmers_of(const Circuit& circuit) {
  std::vector<std::string> names;
  for (const auto& adjustment : circuit.adjustments) {
    names.push_back(circuit.at(adjustment.trimmer).name);
  }
  return list_in_words(names);
}

// "With VR602 left where it is: upper 20 mV instead of 9.2 mV."
std::string untouched(const Swap& swap) {
  const auto* before = answers::readings_of(swap.before);
  const auto* after = answers::readings_of(swap.after);
  const std::string trimmers = trimmers_of(*swap.stage);
  const std::string left = trimmers.empty() ? "Now" : "With " + trimmers + " left alone";
  if (std::holds_alternative<answers::ThermalStory>(swap.after.readings)) {
    return left + " the stage finds no safe rest as it warms up.";
  }
  if (after == nullptr) return left + " no DC state is found.";
  std::vector<std::string> steps;
  for (const auto& adjustment : swap.stage->adjustments) {
    const std::string& name = swap.stage->at(adjustment.reading).name;
    const auto* old_value = value_of(before->readings, name);
    const auto* new_value = value_of(after->readings, name);
    if (old_value == nullptr || new_value == nullptr) continue;
    const std::string now = figure(new_value->value, new_value->unit);
    const std::string was = figure(old_value->value, old_value->unit);
    const char* outside = new_value->within_limit == false ? ", outside the limit of the file" : "";
    steps.push_back(now == was ? fmt::format("`{}` stays", name)
                               : fmt::format("`{}` {} instead of {}{}", name, now, was, outside));
  }
  if (steps.empty()) return {};
  return fmt::format("{}: {}.", left, list_in_words(steps));
}

// Before switch-on, always: what is set for the old part may be too much for the new one.
std::string turn_back_first(const Swap& swap) {
  const auto* preset = answers::preset_of(swap.after);
  if (preset == nullptr) return {};
  std::vector<std::string> places;
  for (const auto& answer : preset->adjustments) {
    if (!answer.states.safe_end) continue;
    const auto& trimmer = preset->stage->at(answer.trimmer);
    places.push_back(fmt::format(
        "{} to {}", trimmer.name, end_in_words(*preset->stage, trimmer, *answer.states.safe_end)));
  }
  if (places.empty()) return {};
  return fmt::format("TURN {} FIRST, power off.", list_in_words(places));
}

std::string old_place(const Swap& swap, const TrimmerAnswer& answer) {
  const auto* before = answers::preset_of(swap.before);
  if (before == nullptr) return {};
  for (const auto& old_answer : before->adjustments) {
    if (old_answer.trimmer != answer.trimmer) continue;
    if (!old_answer.reached) return "; it was out of reach before as well";
    return "; it was " + place_in_words(*before->stage, old_answer);
  }
  return {};
}

std::string cure_in_words(const Preset& preset, const answers::RangeCure& cure) {
  return fmt::format("{} at {} instead of {}",
                     preset.stage->at(cure.resistor).name,
                     values::format_ohms(cure.to_ohm),
                     values::format_ohms(cure.from_ohm));
}

std::string cures_in_words(const Swap& swap, const Preset& preset) {
  if (swap.cures.empty()) return "No change of a single resistor from the E24 series mends that.";
  std::vector<std::string> cures;
  for (const auto& cure : swap.cures) cures.push_back(cure_in_words(preset, cure));
  std::string text = "In range again with " + cures.front();
  if (cures.size() > 1) text += ", or with " + cures.back();
  return text + ".";
}

std::string new_place(const Swap& swap, const Preset& preset, const TrimmerAnswer& answer) {
  const auto& trimmer = preset.stage->at(answer.trimmer);
  const auto& reading = preset.stage->at(answer.reading);
  if (!answer.reached) {
    return fmt::format("{} cannot bring `{}` to {}: the nearest is {}{}.",
                       trimmer.name,
                       reading.name,
                       as_written(answer.target, answer.unit),
                       figure(answer.value, answer.unit),
                       old_place(swap, answer));
  }
  const std::string end =
      answers::is_at_an_end(answer.travel) ? ", hard by an end of its track" : "";
  return fmt::format("{} for `{}` {}: near {}{}{}.",
                     trimmer.name,
                     reading.name,
                     as_written(answer.target, answer.unit),
                     place_in_words(*preset.stage, answer),
                     end,
                     old_place(swap, answer));
}

}  // namespace

std::string idle_words(const answers::Swap& swap) {
  Sentences said;
  for (const auto& sentence : steps_in_words(swap)) said.add(sentence);
  said.add(untouched(swap));
  said.add(turn_back_first(swap));
  return said.text();
}

std::string places_words(const answers::Swap& swap) {
  Sentences said;
  const auto* preset = answers::preset_of(swap.after);
  if (preset == nullptr) {
    said.add("No place of the trimmers gives a safe rest with the targets of the file.");
    return said.text();
  }
  bool all_reached = true;
  for (const auto& answer : preset->adjustments) {
    said.add(new_place(swap, *preset, answer));
    all_reached = all_reached && answer.reached;
  }
  if (!all_reached) said.add(cures_in_words(swap, *preset));
  return said.text();
}

}  // namespace idlepoint::report
