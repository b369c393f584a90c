// What a job says of one channel: measured, replaced, capacitor_test, sound, note.
#include <algorithm>
#include <array>
#include <span>
#include <utility>

#include "circuit/sentence.hpp"
#include "language/bench_reading_words.hpp"
#include "language/fault_words.hpp"
#include "language/fields.hpp"
#include "language/job_statements.hpp"
#include "language/substitution_words.hpp"

namespace idlepoint::language {
namespace {

using circuit::Channel;
using circuit::Measured;
using circuit::When;
using values::Unit;

When when_of(Pairs& pairs) {
  const bool after = pairs.choice("when", {"before", "after"}).value_or(0) == 1;
  return after ? When::after : When::before;
}

void complain_of_twice(Draft& draft, const Measured& first, const Word& word) {
  complaints::Place there = first.place;
  there.remark = "the first";
  const complaints::Place here = place_of(word, "the second");
  const std::string when = first.when == When::before ? "before" : "after";
  complain(draft,
           "reading-twice",
           {here, there},
           quote(first.reading.name) + " is given twice, " + when + " the work",
           "",
           "Keep the one that you trust; where it would not stand still, write `jumps`.");
}

// measured READING VALUE: how many words say the reading; 0 where the statement stops too early.
std::size_t words_of_reading(Draft& draft, const Statement& statement) {
  if (!has_words(draft, statement, 3, statement.words.size(), "measured READING VALUE")) return 0;
  const std::string& first = statement.words[1].text;
  const std::size_t size = measurement_size(first);
  if (statement.words.size() > 1 + size) return size;
  complain(
      draft,
      "missing-word",
      statement.words.back(),
      quote("measured " + first) + " stops before its value",
      "",
      "Write " + quote("measured " + first + (size == 3 ? " A B VALUE" : " PART VALUE")) + ".");
  return 0;
}

std::optional<circuit::Edit> new_value(Draft& draft, const Word& part, const Pair& value) {
  Word verb = value.key;
  verb.text = "is";
  const std::array words{part, verb, value.value};
  return read_fault_words(draft, words, *part.source);
}

// The pair of that key; its value has been asked for already.
const Pair& pair_of(const Statement& statement, std::string_view key) {
  return *std::find_if(statement.pairs.begin(), statement.pairs.end(), [key](const Pair& pair) {
    return pair.key.text == key;
  });
}

std::optional<circuit::Edit> edit_of(Draft& draft, const Statement& statement, Pairs& pairs) {
  const Word& part = statement.words[1];
  const Word* type = pairs.find("type");
  const Word* value = pairs.find("value");
  if ((type == nullptr) == (value == nullptr)) {
    const bool neither = type == nullptr;
    complain(draft,
             neither ? "missing-key" : "two-sources",
             neither ? part : *value,
             neither ? quote("replaced " + part.text) + " does not say by what"
                     : quote(part.text) + " is given both a type and a value",
             "",
             "Write `type=TYPE` of a diode or transistor, `value=VALUE` of any other part.");
    return std::nullopt;
  }
  if (value != nullptr) return new_value(draft, part, pair_of(statement, "value"));
  const auto other = read_other_type(draft, part, *type);
  if (!other) return std::nullopt;
  return *other;
}

// A figure of a tester; it cannot be left open as a drawing's can.
std::optional<double> figure(Draft& draft, Pairs& pairs, const char* key, Unit unit, Range range) {
  const Word* word = pairs.find(key);
  if (word == nullptr) return std::nullopt;
  return read_number(draft, {}, *word, "", unit, range);
}

bool lacks(Pairs& pairs, std::initializer_list<const char*> keys) {
  bool lacking = false;
  for (const char* key : keys) lacking = pairs.require(key) == nullptr || lacking;
  return lacking;
}

// A leakage says something only with the volts it was taken at.
bool is_half_a_leakage(Draft& draft, const Statement& statement, Pairs& pairs) {
  const bool leakage = pairs.find("leakage") != nullptr;
  const bool at = pairs.find("at") != nullptr;
  if (leakage == at) return false;
  complain(draft,
           "missing-key",
           statement.words[1],
           leakage ? "the leakage is given without the volts it was taken at"
                   : "`at=` is given without a `leakage=`",
           "",
           "Write both: `leakage=12uA at=25V`.");
  return true;
}

}  // namespace

void read_measured(Draft& draft, const Statement& statement, Channel& channel) {
  const std::size_t size = words_of_reading(draft, statement);
  if (size == 0) return;
  Pairs pairs(draft, statement);
  const When when = when_of(pairs);
  pairs.finish();
  const std::span<const Word> words(statement.words);
  const auto named = read_measurement_words(draft, words.subspan(1, size));
  std::vector<Word> value;
  for (const Word& word : words.subspan(1 + size)) {
    for (Word& part : words_within(word)) value.push_back(std::move(part));
  }
  if (value.empty()) value.push_back(words.back());
  const auto shown = read_shown_words(draft, value, named ? &named->measurement : nullptr);
  if (!named || !shown) return;
  for (const Measured& other : channel.measured) {
    const bool same = other.when == when &&
                      circuit::is_same_measurement(other.reading.measurement, named->measurement);
    if (!same) continue;
    complain_of_twice(draft, other, words[1]);
    return;
  }
  channel.measured.push_back({{named->name, named->measurement, shown->value, shown->firmness},
                              when,
                              place_of(words[1], "")});
}

void read_replaced(Draft& draft, const Statement& statement, Channel& channel) {
  if (!has_words(draft, statement, 2, 2, "replaced PART type=TYPE")) return;
  Pairs pairs(draft, statement);
  const auto edit = edit_of(draft, statement, pairs);
  const Word* why = pairs.find("why");
  pairs.finish();
  if (!edit) return;
  channel.replaced.push_back(
      {*edit, why == nullptr ? std::string() : why->text, place_of(statement.words[1], "")});
}

void read_capacitor_test(Draft& draft, const Statement& statement, Channel& channel) {
  constexpr std::string_view form = "capacitor_test NAME capacitance= esr= frequency=";
  if (!has_words(draft, statement, 2, 2, form)) return;
  Pairs pairs(draft, statement);
  circuit::CapacitorTest test;
  const Word& name = statement.words[1];
  bool good = is_good_name(draft, name);
  test.name = name.text;
  test.place = place_of(name, "");
  test.part = circuit::find_part(draft.circuit, name.text);
  if (test.part && draft.circuit.at(*test.part).kind != circuit::PartKind::capacitor) {
    complain(draft,
             "not-for-this-part",
             name,
             quote(name.text) + " is " + circuit::a_kind(draft.circuit.at(*test.part).kind) +
                 " and no capacitor",
             "",
             "Name a capacitor, of the drawing or beside it.");
    good = false;
  }
  const bool lacking = lacks(pairs, {"capacitance", "esr", "frequency"});
  const auto farad = figure(draft, pairs, "capacitance", Unit::farad, Range::positive);
  const auto ohm = figure(draft, pairs, "esr", Unit::ohm, Range::not_negative);
  const auto hertz = figure(draft, pairs, "frequency", Unit::hertz, Range::positive);
  const bool half = is_half_a_leakage(draft, statement, pairs);
  test.leakage_a = figure(draft, pairs, "leakage", Unit::ampere, Range::not_negative);
  test.leakage_at_v = figure(draft, pairs, "at", Unit::volt, Range::positive);
  test.value_f = figure(draft, pairs, "value", Unit::farad, Range::positive);
  test.rated_v = figure(draft, pairs, "voltage", Unit::volt, Range::positive);
  pairs.finish();
  if (!good || lacking || half || !farad || !ohm || !hertz) return;
  test.capacitance_f = *farad;
  test.esr_ohm = *ohm;
  test.frequency_hz = *hertz;
  channel.capacitor_tests.push_back(std::move(test));
}

void read_sound(Draft& draft, const Statement& statement, Channel& channel) {
  if (!has_words(draft, statement, 2, 2, "sound PART")) return;
  Pairs(draft, statement).finish();
  const Word& name = statement.words[1];
  const auto part = part_named(draft, name);
  if (!part) return;
  if (say(draft, "sound " + name.text, name, 0, quote("sound " + name.text)).is_new) {
    channel.sound.push_back(*part);
  }
}

void read_channel_note(Draft& draft, const Statement& statement, Channel& channel) {
  if (!has_words(draft, statement, 2, 2, "note \"TEXT\"")) return;
  Pairs(draft, statement).finish();
  channel.notes.push_back(statement.words[1].text);
}

}  // namespace idlepoint::language
