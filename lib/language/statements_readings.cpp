// What is read, what is acceptable, what is adjusted: reading, limit, adjust.
#include <algorithm>
#include <cmath>
#include <utility>

#include "circuit/sentence.hpp"
#include "language/fields.hpp"
#include "language/probe_words.hpp"
#include "language/statement_table.hpp"
#include "values/constants.hpp"

namespace idlepoint::language {
namespace {

using circuit::Reading;
using values::Unit;

// The fixed words of a form, such as `to` between two values.
bool has_fixed_word(Draft& draft,
                    const Word& word,
                    std::string_view wanted,
                    std::string_view form) {
  if (word.text == wanted) return true;
  complain(draft,
           "choice-expected",
           word,
           "the word " + quote(wanted) + " belongs where " + quote(word.text) + " stands",
           "",
           "Write `" + std::string(form) + "`.");
  return false;
}

// 1 % of the target as people write it, and at least 1 mV, 1 mA, 1 mW, 1 K.
double default_within(double target, Unit unit) {
  if (unit == Unit::temperature) {
    return std::max(0.01 * std::abs(values::celsius_from_kelvin(target)), 1.0);
  }
  return std::max(0.01 * std::abs(target), 1e-3);
}

// adjust TRIMMER until READING reads VALUE [within VALUE]
bool has_adjust_words(Draft& draft, const Statement& statement) {
  constexpr std::string_view form = "adjust TRIMMER until READING reads VALUE within VALUE";
  const std::vector<Word>& words = statement.words;
  if (!has_words(draft, statement, 6, 8, form)) return false;
  bool good = has_fixed_word(draft, words[2], "until", form);
  good = has_fixed_word(draft, words[4], "reads", form) && good;
  if (words.size() > 6) good = has_fixed_word(draft, words[6], "within", form) && good;
  if (words.size() == 7 && good) {
    complain(draft,
             "missing-word",
             words[6],
             "`within` stops before its value",
             "",
             "Write `within 1mV`, or leave the word out.");
  }
  return good && words.size() != 7;
}

std::optional<circuit::PartId> trimmer_named(Draft& draft, const Word& word) {
  const auto part = part_named(draft, word);
  if (!part) return std::nullopt;
  const circuit::PartKind kind = draft.circuit.at(*part).kind;
  if (kind == circuit::PartKind::trimmer) return part;
  complain(draft,
           "not-for-this-part",
           word,
           quote(word.text) + " is " + circuit::a_kind(kind) + ", and only a trimmer is adjusted",
           "",
           "Name a trimmer.");
  return std::nullopt;
}

// One adjustment a trimmer and one a reading; those of a file this one is based on give way.
bool make_room(Draft& draft, const Word& place, const circuit::Adjustment& adjustment) {
  auto& list = draft.circuit.adjustments;
  const std::string trimmer = "adjust trimmer " + std::to_string(adjustment.trimmer.index);
  const std::string reading = "adjust reading " + std::to_string(adjustment.reading.index);
  const std::size_t level = place.source->level();
  for (const std::string& what : {trimmer, reading}) {
    const auto known = draft.said.find(what);
    if (known == draft.said.end() || known->second.level < level) continue;
    const bool same_trimmer = what == trimmer;
    static_cast<void>(
        say(draft,
            what,
            place,
            0,
            same_trimmer ? "the adjustment of this trimmer" : "an adjustment of this reading"));
    return false;
  }
  const bool replaces = draft.said.contains(trimmer) || draft.said.contains(reading);
  if (replaces)
    std::erase_if(list, [&](const circuit::Adjustment& other) {
      const bool gives_way =
          other.trimmer == adjustment.trimmer || other.reading == adjustment.reading;
      if (gives_way) {
        draft.said.erase("adjust trimmer " + std::to_string(other.trimmer.index));
        draft.said.erase("adjust reading " + std::to_string(other.reading.index));
      }
      return gives_way;
    });
  draft.said[trimmer] = {place, level, 0};
  draft.said[reading] = {place, level, 0};
  return true;
}

}  // namespace

void read_reading(Draft& draft, const Statement& statement) {
  constexpr std::string_view form = "reading NAME volts A B";
  if (!has_words(draft, statement, 4, 5, form)) return;
  Pairs(draft, statement).finish();
  const Word& name = statement.words[1];
  const bool good_name = is_good_name(draft, name);
  const auto probe = read_probe_words(draft, std::span(statement.words).subspan(2));
  if (!good_name || !probe) {
    draft.forgiven.insert(name.text);
    return;
  }
  const auto [known, is_new] = draft.readings.try_emplace(name.text, draft.circuit.readings.size());
  if (!is_new) {
    complaints::Place there = draft.circuit.readings[known->second].place;
    there.remark = "the first";
    const complaints::Place here = place_of(name, "the second");
    complain(draft,
             "reading-twice",
             {here, there},
             "the reading " + quote(name.text) + " stands twice: lines " +
                 std::to_string(there.line) + " and " + std::to_string(here.line),
             "",
             "Give one of the two another name.");
    return;
  }
  Reading reading{.name = name.text, .probe = *probe, .limit = {}, .place = place_of(name, "")};
  draft.circuit.readings.push_back(std::move(reading));
}

void read_limit(Draft& draft, const Statement& statement) {
  constexpr std::string_view form = "limit READING LOW to HIGH";
  const std::vector<Word>& words = statement.words;
  if (!has_words(draft, statement, 5, 5, form)) return;
  Pairs(draft, statement).finish();
  const auto id = reading_named(draft, words[1]);
  if (!has_fixed_word(draft, words[3], "to", form) || !id) return;
  Reading& reading = draft.circuit.readings[id->index];
  const Unit unit = unit_of(reading.probe);
  const auto low = read_number(draft, statement, words[2], "the lower limit", unit);
  const auto high = read_number(draft, statement, words[4], "the upper limit", unit);
  const Saying saying =
      say(draft, "limit " + words[1].text, words[1], 0, "the limit of " + quote(words[1].text));
  if (!low || !high || (!saying.is_new && !saying.replaces)) return;
  if (*low >= *high) {
    complain(draft,
             "low-above-high",
             words[2],
             quote(words[2].text) + " does not lie below " + quote(words[4].text),
             "The lower limit comes first.",
             *low > *high ? "Write " +
                                quote("limit " + words[1].text + " " + words[4].text + " to " +
                                      words[2].text) +
                                "."
                          : "");
    return;
  }
  reading.limit = circuit::Limit{*low, *high, place_of(words[1], "")};
}

void read_adjust(Draft& draft, const Statement& statement) {
  const std::vector<Word>& words = statement.words;
  if (!has_adjust_words(draft, statement)) return;
  Pairs(draft, statement).finish();
  const auto trimmer = trimmer_named(draft, words[1]);
  const auto reading = reading_named(draft, words[3]);
  if (!trimmer || !reading) return;
  const circuit::Probe& probe = draft.circuit.at(*reading).probe;
  const Unit unit = unit_of(probe);
  const auto target = read_number(draft, statement, words[5], "the target", unit);
  circuit::Adjustment adjustment{.trimmer = *trimmer,
                                 .reading = *reading,
                                 .target = target.value_or(0.0),
                                 .within = default_within(target.value_or(0.0), unit),
                                 .place = place_of(words[1], "")};
  if (words.size() > 7) {
    const auto within = read_number(
        draft, statement, words[7], "the width", difference_unit_of(probe), Range::positive);
    if (within) adjustment.within = *within;
  }
  if (make_room(draft, words[1], adjustment)) {
    draft.circuit.adjustments.push_back(std::move(adjustment));
  }
}

}  // namespace idlepoint::language
