#include "language/bench_reading_text.hpp"

#include <algorithm>
#include <optional>
#include <span>
#include <utility>

#include "language/bench_reading_words.hpp"
#include "language/command_text.hpp"

namespace idlepoint::language {
namespace {

using circuit::BenchReading;
using circuit::Circuit;
using circuit::Measurement;
using complaints::Complaints;
using complaints::Result;

constexpr const char* reading_forms =
    "Write `upper=9.1mV`, \"volts A B=0.6V\" or \"ohms A B=1k9\": the reading, `=`, what the meter "
    "showed.";

/// What stands before and behind the first `=`.
struct WordSides {
  std::vector<Word> left;
  std::vector<Word> right;
};

std::optional<WordSides> cut_at_equals(const CommandText& command) {
  WordSides sides;
  bool behind = false;
  for (const Word& word : command.words) {
    const std::size_t equals = behind ? std::string::npos : word.text.find('=');
    if (equals == std::string::npos) {
      (behind ? sides.right : sides.left).push_back(word);
      continue;
    }
    behind = true;
    if (equals > 0) sides.left.push_back({word.text.substr(0, equals), word.source, word.offset});
    if (equals + 1 < word.text.size()) {
      sides.right.push_back({word.text.substr(equals + 1), word.source, word.offset + equals + 1});
    }
  }
  if (!behind) return std::nullopt;
  return sides;
}

void complain_of_form(Draft& draft, const CommandText& command, std::string headline) {
  complain(draft,
           "reading-unreadable",
           {command.source.place(0, "")},
           std::move(headline),
           "",
           reading_forms);
}

// False where the words are too few or too many for what their first says.
bool has_points(Draft& draft, const std::vector<Word>& words) {
  const std::size_t wanted = measurement_size(words.front().text);
  if (words.size() == wanted) return true;
  const bool lacks = words.size() < wanted;
  const std::string& first = words.front().text;
  const std::string form = wanted == 3   ? "Write \"" + first + " A B=VALUE\": the red lead on A."
                           : wanted == 2 ? "Write \"" + first + " PART=VALUE\"."
                                         : reading_forms;
  complain(draft,
           lacks ? "missing-word" : "extra-word",
           lacks ? words.back() : words[wanted],
           lacks ? quote(first) + " stops before its " + (wanted == 3 ? "two points" : "part")
                 : "the word " + quote(words[wanted].text) + " is one too many",
           "",
           form);
  return false;
}

std::optional<BenchReading> reading_of(Draft& draft, const CommandText& command) {
  const auto sides = cut_at_equals(command);
  if (!sides || sides->left.empty() || sides->right.empty()) {
    const std::string& text = command.source.text();
    complain_of_form(draft,
                     command,
                     text.empty() ? "a reading is missing here"
                     : !sides     ? quote(text) + " does not say what the meter showed"
                                  : quote(text) + " lacks one of its two sides");
    return std::nullopt;
  }
  if (!has_points(draft, sides->left)) return std::nullopt;
  const auto named = read_measurement_words(draft, sides->left);
  // Where the name is unknown, what was shown is still looked at.
  const auto shown = read_shown_words(draft, sides->right, named ? &named->measurement : nullptr);
  if (!named || !shown) return std::nullopt;
  return BenchReading{named->name, named->measurement, shown->value, shown->firmness};
}

std::string twice_in_words(const BenchReading& first, const BenchReading& second) {
  if (first.name == second.name) return "the reading " + quote(first.name) + " is given twice";
  return quote(second.name) + " is the same measurement as " + quote(first.name) +
         ", which is given already";
}

void complain_of_twice(Complaints& complaints,
                       const std::string& text,
                       const BenchReading& first,
                       const BenchReading& second) {
  const CommandText command(text);
  Draft draft;
  complain(draft,
           "reading-twice",
           {command.source.place(0, "")},
           twice_in_words(first, second),
           "",
           "Give the one that you trust; where it would not stand still, write `jumps`.");
  for (auto& complaint : complaints_of(draft, true, "", command)) {
    complaints.push_back(std::move(complaint));
  }
}

}  // namespace

Result<BenchReading> read_bench_reading(std::string_view text, const Circuit& circuit) {
  const CommandText command(text);
  Draft draft = draft_of(circuit);
  auto reading = reading_of(draft, command);
  return answer(draft, std::move(reading), "reading-unreadable", command);
}

Result<std::vector<BenchReading>> read_bench_readings(const std::vector<std::string>& texts,
                                                      const Circuit& circuit) {
  std::vector<BenchReading> readings;
  Complaints complaints;
  for (const std::string& text : texts) {
    auto reading = read_bench_reading(text, circuit);
    if (!reading) {
      complaints.insert(complaints.end(), reading.complaints().begin(), reading.complaints().end());
      continue;
    }
    const auto same = std::find_if(readings.begin(), readings.end(), [&](const auto& other) {
      return circuit::is_same_measurement(other.measurement, reading->measurement);
    });
    if (same != readings.end()) {
      complain_of_twice(complaints, text, *same, *reading);
    } else {
      readings.push_back(*reading);
    }
  }
  if (!complaints.empty()) return complaints;
  return readings;
}

Result<BenchReading> read_bench_answer(std::string_view text,
                                       const Measurement& asked,
                                       const Circuit& circuit) {
  if (text.find('=') != std::string_view::npos) return read_bench_reading(text, circuit);
  const CommandText command(text);
  Draft draft = draft_of(circuit);
  std::optional<BenchReading> reading;
  if (!command.words.empty()) {
    if (const auto shown = read_shown_words(draft, command.words, &asked)) {
      reading = BenchReading{
          circuit::write_measurement(circuit, asked), asked, shown->value, shown->firmness};
    }
  }
  return answer(draft, std::move(reading), "reading-unreadable", command);
}

}  // namespace idlepoint::language
