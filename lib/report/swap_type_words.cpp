#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/figures.hpp"
#include "report/swap_topics.hpp"
#include "report/words.hpp"

namespace idlepoint::report {
namespace {

using answers::Swap;
using circuit::Circuit;
using circuit::PartId;

const circuit::PartType& old_type(const Swap& swap, PartId id) {
  const auto& before = *answers::readings_of(swap.before)->stage;
  return before.at(*before.at(id).type);
}

bool has_both_types(const Swap& swap, const answers::Swapped& swapped) {
  return !answers::is_stand_in(swapped) && swap.stage->at(swapped.part).type.has_value();
}

std::string gain_window(const circuit::PartType& type) {
  const auto found = type.spreads.find("gain");
  if (found == type.spreads.end() || !found->second.min || !found->second.max) return {};
  return fmt::format(" ({:.0f} to {:.0f})", *found->second.min, *found->second.max);
}

// Letter groups span two to one: common practice, no source; the letters differ by maker.
constexpr double one_gain_group = 2.0;

std::string groups_of(const circuit::PartType& type) {
  const auto found = type.spreads.find("gain");
  if (found == type.spreads.end() || !found->second.min || !found->second.max) return {};
  const double groups =
      std::log(*found->second.max / *found->second.min) / std::log(one_gain_group);
  constexpr double rounding = 1.05;
  if (groups < rounding) return {};
  return fmt::format(
      "Its window spans {:.0f} gain groups of two to one: where parts share a current or make "
      "a pair, ask for one group.",
      std::ceil(groups / rounding));
}

// A sentence a pair of types, and one on the spread of the new one.
std::vector<std::string> gains(const Swap& swap) {
  std::vector<std::string> sentences;
  for (const auto& swapped : swap.swaps) {
    if (!has_both_types(swap, swapped)) continue;
    const auto& now = swap.stage->at(*swap.stage->at(swapped.part).type);
    if (!circuit::is_bipolar(now.kind)) continue;
    const auto& before = old_type(swap, swapped.part);
    const std::string text = fmt::format("{} has a gain of {:.0f}{}, {} {:.0f}{}.",
                                         now.name,
                                         std::get<devices::BipolarData>(now.law).gain,
                                         gain_window(now),
                                         before.name,
                                         std::get<devices::BipolarData>(before.law).gain,
                                         gain_window(before));
    if (std::find(sentences.begin(), sentences.end(), text) != sentences.end()) continue;
    sentences.push_back(text);
    sentences.push_back(groups_of(now));
  }
  return sentences;
}

std::optional<double> drive_before(const Swap& swap, PartId part) {
  for (const auto& before : swap.drive_before) {
    if (before.part == part) return before.base_a;
  }
  return std::nullopt;
}

// Parts that want much the same share a sentence.
std::vector<std::string> drives(const Swap& swap) {
  constexpr double close = 0.03;
  std::vector<std::string> sentences;
  std::vector<PartId> told;
  for (const auto& now : swap.drive_after) {
    constexpr double unplayed_a = 1e-6;  // a half that could not be played
    if (now.base_a < unplayed_a) continue;
    if (std::find(told.begin(), told.end(), now.part) != told.end()) continue;
    std::vector<PartId> alike;
    for (const auto& other : swap.drive_after) {
      if (std::abs(other.base_a - now.base_a) <= close * std::abs(now.base_a)) {
        alike.push_back(other.part);
      }
    }
    told.insert(told.end(), alike.begin(), alike.end());
    std::string text = fmt::format("At full output {}{} want{} {} at the base",
                                   list_in_words(names_of(*swap.stage, alike)),
                                   alike.size() > 1 ? " each" : "",
                                   alike.size() > 1 ? "" : "s",
                                   amps(now.base_a));
    const auto before = drive_before(swap, now.part);
    if (before) text += fmt::format(", it was {}", amps(*before));
    sentences.push_back(text + ".");
  }
  return sentences;
}

// Beyond this the two behave as different kinds of part.
constexpr double another_speed = 3.0;

std::string speed_of(const Swap& swap, const answers::Swapped& swapped) {
  if (!has_both_types(swap, swapped)) return {};
  const auto& now = swap.stage->at(*swap.stage->at(swapped.part).type);
  const auto& before = old_type(swap, swapped.part);
  if (!circuit::is_transistor(now.kind)) return {};
  const auto& new_hz = now.ratings.transition_frequency_hz;
  const auto& old_hz = before.ratings.transition_frequency_hz;
  if (!new_hz || !old_hz) {
    return fmt::format("The transition frequency of {} is not given: compare the sheets.",
                       (new_hz ? before : now).name);
  }
  const double ratio = *new_hz / *old_hz;
  if (ratio > another_speed) {
    return fmt::format(
        "{} is {:.0f} times faster than {}. DC cannot tell you that it will not oscillate: look "
        "with a scope at rest and on a small square wave, and feel the resistor across the output.",
        now.name,
        ratio,
        before.name);
  }
  if (ratio < 1.0 / another_speed) {
    return fmt::format(
        "{} is {:.0f} times slower than {}: the top octave may suffer, and the "
        "halves may hold on together at high frequency. Look with a scope.",
        now.name,
        1.0 / ratio,
        before.name);
  }
  return fmt::format("{} and {} are of like speed. DC cannot tell you that it will not oscillate.",
                     now.name,
                     before.name);
}

std::string case_of(const Swap& swap, const answers::Swapped& swapped) {
  if (!has_both_types(swap, swapped)) return {};
  const std::string& now = swap.stage->at(*swap.stage->at(swapped.part).type).ratings.case_style;
  const std::string& before = old_type(swap, swapped.part).ratings.case_style;
  const std::string check =
      "Check the order of the legs, that washer and bush fit, and that nothing on the sink's side "
      "is bare: ohms from the case to the sink before power.";
  if (now.empty() || before.empty()) return "The case of one is not given. " + check;
  if (now == before) return fmt::format("The same case ({}). {}", now, check);
  return fmt::format("Another case: {}; it was {}. {}", now, before, check);
}

}  // namespace

std::string gain_words(const answers::Swap& swap) {
  Sentences said;
  for (const auto& sentence : gains(swap)) said.add(sentence);
  for (const auto& sentence : drives(swap)) said.add(sentence);
  return said.text();
}

std::string sharing_words(const answers::Swap& swap) {
  Sentences said;
  for (const auto& sharing : swap.sharing) {
    std::vector<std::string> shares;
    for (const auto& share : sharing.shares) {
      shares.push_back(fmt::format("{} {}", swap.stage->at(share.part).name, amps(share.amps)));
    }
    said.add(
        fmt::format("Side by side now stand unlike types, and at rest they carry {}. Change "
                    "all of them.",
                    list_in_words(shares)));
  }
  if (!swap.left_behind.empty()) {
    said.add(fmt::format("The other half keeps {}. Change both halves, or neither.",
                         list_in_words(names_of(*swap.stage, swap.left_behind))));
  }
  return said.text();
}

std::string speed_words(const answers::Swap& swap) {
  Sentences said;
  for (const auto& swapped : swap.swaps) {
    const std::string text = speed_of(swap, swapped);
    said.add(text);
  }
  return said.text();
}

std::string case_words(const answers::Swap& swap) {
  Sentences said;
  for (const auto& swapped : swap.swaps) {
    const std::string text = case_of(swap, swapped);
    said.add(text);
  }
  return said.text();
}

}  // namespace idlepoint::report
