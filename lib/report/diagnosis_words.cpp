#include "report/diagnosis_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "report/measure_words.hpp"
#include "report/words.hpp"

namespace idlepoint::report {
namespace {

using answers::Diagnosis;
using answers::Expected;
using answers::NextMeasurement;
using answers::Suspect;

constexpr std::size_t most_lines = 8;
constexpr std::size_t most_equivalents = 4;
constexpr std::size_t most_ruled_out = 4;

/// Odds as they are said across the bench, the likeliest first.
struct Odds {
  double at_least;
  const char* words;
};

constexpr std::array odds_table = {Odds{0.995, "more than 99 in 100"},
                                   Odds{0.975, "about 49 in 50"},
                                   Odds{0.925, "about 19 in 20"},
                                   Odds{0.85, "about 9 in 10"},
                                   Odds{0.75, "about 8 in 10"},
                                   Odds{0.65, "about 7 in 10"},
                                   Odds{0.55, "about 6 in 10"},
                                   Odds{0.45, "about 5 in 10"},
                                   Odds{0.35, "about 4 in 10"},
                                   Odds{0.25, "about 3 in 10"},
                                   Odds{0.15, "about 2 in 10"},
                                   Odds{0.075, "about 1 in 10"},
                                   Odds{0.035, "about 1 in 20"},
                                   Odds{0.015, "about 1 in 50"},
                                   Odds{0.01, "about 1 in 100"}};

// 1, 2, 5 times a power of ten: nobody means more by "once in".
std::string once_in(double chance) {
  const double times = 1.0 / chance;
  const double power = std::pow(10.0, std::floor(std::log10(times)));
  const double digit = times / power;
  const double rounded = digit < 1.5 ? 1.0 : (digit < 3.5 ? 2.0 : (digit < 7.5 ? 5.0 : 10.0));
  return fmt::format("once in {:.0f}", rounded * power);
}

std::string equivalents_of(const Suspect& suspect) {
  if (suspect.equivalent.empty()) return {};
  const std::size_t shown = std::min(suspect.equivalent.size(), most_equivalents);
  std::vector<std::string> names(suspect.equivalent.begin(),
                                 suspect.equivalent.begin() + static_cast<std::ptrdiff_t>(shown));
  const std::size_t more = suspect.equivalent.size() - shown;
  if (more > 0) names.push_back(fmt::format("{} more", more));
  return fmt::format("no meter tells it from {}", list_in_words(names));
}

// "does not explain lower: it would be 0.0 mV"
std::string unexplained_of(const Diagnosis& diagnosis, const Suspect& suspect) {
  std::vector<std::string> parts;
  for (const std::size_t index : suspect.unexplained) {
    const auto& reading = diagnosis.readings[index];
    if (index >= suspect.expected.size()) continue;
    parts.push_back(fmt::format("`{}`: it would be {}",
                                reading.name,
                                expected_in_words(reading.measurement, suspect.expected[index])));
  }
  return parts.empty() ? "" : fmt::format("does not explain {}", fmt::join(parts, ", nor "));
}

std::string line_of(const Diagnosis& diagnosis, const Suspect& suspect, const Page& page) {
  constexpr std::size_t column = 24;
  const std::string lead = padded_right("  " + odds_in_words(suspect.probability), column);
  std::string text = lead + fold(suspect_in_words(suspect), page, column, column).substr(column);
  for (const std::string& more : {equivalents_of(suspect), unexplained_of(diagnosis, suspect)}) {
    if (!more.empty()) text += fold(more, page, column, column);
  }
  return text;
}

// Suspects that the readings so far weigh alike, and both worth a thought.
bool are_level(const Suspect& one, const Suspect& other) {
  constexpr double no_difference = 1.0;
  constexpr double worth_a_thought = 0.1;
  const bool both_faults = one.kind == Suspect::Kind::fault && other.kind == Suspect::Kind::fault;
  return both_faults && other.probability >= worth_a_thought &&
         std::abs(one.chi_square - other.chi_square) < no_difference;
}

bool tells_apart(const NextMeasurement& next, std::size_t one, std::size_t other) {
  const auto find = [&](std::size_t suspect) {
    return std::find_if(next.under.begin(), next.under.end(), [suspect](const auto& under) {
      return under.suspect == suspect;
    });
  };
  const auto a = find(one);
  const auto b = find(other);
  if (a == next.under.end() || b == next.under.end()) return false;
  if (a->expected.beyond_range || b->expected.beyond_range) {
    return a->expected.beyond_range != b->expected.beyond_range;
  }
  return a->expected.high < b->expected.low || b->expected.high < a->expected.low;
}

std::string level_line(const Diagnosis& diagnosis) {
  if (diagnosis.ranking.size() < 2 || !are_level(diagnosis.ranking[0], diagnosis.ranking[1])) {
    return {};
  }
  std::string text = fmt::format("Your readings do not tell {} and {} apart",
                                 suspect_in_words(diagnosis.ranking[0]),
                                 suspect_in_words(diagnosis.ranking[1]));
  const bool next_does = !diagnosis.next.empty() && tells_apart(diagnosis.next.front(), 0, 1);
  return text + (next_does ? "; the next one does." : ".");
}

}  // namespace

std::string odds_in_words(double probability) {
  for (const Odds& row : odds_table) {
    if (probability >= row.at_least) return row.words;
  }
  return "under 1 in 100";
}

std::string suspect_in_words(const Suspect& suspect) {
  return suspect.kind == Suspect::Kind::healthy ? "no fault at all" : suspect.fault;
}

bool fits_nothing(const Diagnosis& diagnosis) {
  return !diagnosis.ranking.empty() &&
         diagnosis.ranking.front().kind == Suspect::Kind::none_of_these;
}

std::string sound_in_words(const Diagnosis& diagnosis) {
  constexpr double never = 1e-4;
  constexpr double unusual = 0.05;
  const double chance = diagnosis.healthy_chance;
  if (chance < never) {
    return "A sound amplifier does not read like this (less than once in 10000).";
  }
  if (chance < unusual) {
    return fmt::format("A sound amplifier reads so far off, or farther, about {}.",
                       once_in(chance));
  }
  return fmt::format(
      "A sound amplifier may well read like this: {} sound ones are as far off, or farther.",
      chance >= 0.95 ? "nearly all" : odds_in_words(chance));
}

std::string suspects_list(const Diagnosis& diagnosis, const Page& page) {
  std::string text;
  std::size_t left = 0;
  double left_together = 0.0;
  std::size_t lines = 0;
  for (const auto& suspect : diagnosis.ranking) {
    if (lines < most_lines && suspect.probability >= worth_a_line) {
      text += line_of(diagnosis, suspect, page);
      ++lines;
    } else if (suspect.kind == Suspect::Kind::fault) {
      ++left;
      left_together += suspect.probability;
    }
  }
  if (left > 0 && left_together >= worth_a_line) {
    text += fmt::format(
        "  {}{} others together\n", padded_right(odds_in_words(left_together), 22), left);
  }
  const std::string level = level_line(diagnosis);
  if (!level.empty()) text += fold(level, page);
  return text;
}

std::string ruled_out_in_words(const Diagnosis& diagnosis) {
  std::vector<std::string> out;
  for (const auto& fault : diagnosis.ruled_out) {
    if (out.size() == most_ruled_out) break;
    const auto& reading = diagnosis.readings[fault.reading];
    out.push_back(fmt::format("{} (`{}` would show {})",
                              fault.fault,
                              reading.name,
                              expected_in_words(reading.measurement, fault.expected)));
  }
  return out.empty() ? "" : fmt::format("Not it: {}.", fmt::join(out, ", "));
}

std::vector<std::string> contradictions(const Diagnosis& diagnosis) {
  std::vector<std::string> sentences;
  for (const std::size_t index : diagnosis.contradicted) {
    sentences.push_back(fmt::format(
        "{} is explained by nothing that explains the others: read it once more, at the part's own "
        "legs, before you believe it.",
        reading_in_words(diagnosis.readings[index])));
  }
  return sentences;
}

}  // namespace idlepoint::report
