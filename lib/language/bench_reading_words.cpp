#include "language/bench_reading_words.hpp"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>
#include <variant>

#include "language/fields.hpp"
#include "language/node_names.hpp"
#include "language/probe_words.hpp"
#include "values/quantity.hpp"

namespace idlepoint::language {
namespace {

using circuit::DiodeBetween;
using circuit::Firmness;
using circuit::Measurement;
using circuit::OhmsBetween;
using circuit::Probe;
using values::Unit;

std::optional<Measurement> read_between(Draft& draft, std::span<const Word> words) {
  const auto a = node_named(draft, words[1]);
  const auto b = node_named(draft, words[2]);
  if (!a || !b) return std::nullopt;
  if (words.front().text == "ohms") return Measurement(OhmsBetween{*a, *b});
  return Measurement(DiodeBetween{*a, *b});
}

// A word that is no reading's name; the first of a measurement spelt wrong, as often as not.
void complain_of_name(Draft& draft, const Word& word) {
  const std::string near =
      nearest_among(draft, word.text, {"volts", "ohms", "diode", "amps", "watts", "celsius"});
  const std::string of_readings = nearest_known(draft, word.text, Names::reading);
  if (near.empty() || !of_readings.empty()) {
    static_cast<void>(reading_named(draft, word));
    return;
  }
  if (draft.base_is_missing) return;
  complain(draft,
           "reading-unreadable",
           word,
           quote(word.text) + " is no reading of the file, and nothing that a meter is asked",
           "",
           near);
}

std::optional<Measurement> read_named(Draft& draft, const Word& word) {
  const auto known = draft.readings.find(word.text);
  if (known == draft.readings.end()) {
    complain_of_name(draft, word);
    return std::nullopt;
  }
  return Measurement(draft.circuit.readings[known->second].probe);
}

/// What is written on other benches, and how it is written here.
struct Synonym {
  std::string_view written;
  std::string_view ours;
};

constexpr std::array synonyms = {Synonym{"OL", "open"},
                                 Synonym{"O.L", "open"},
                                 Synonym{"O.L.", "open"},
                                 Synonym{"over", "open"},
                                 Synonym{"infinite", "open"},
                                 Synonym{"infinity", "open"},
                                 Synonym{"inf", "open"},
                                 Synonym{"unstable", "jumps"},
                                 Synonym{"jumpy", "jumps"},
                                 Synonym{"noisy", "jumps"},
                                 Synonym{"rises", "drifts up"},
                                 Synonym{"rising", "drifts up"},
                                 Synonym{"climbs", "drifts up"},
                                 Synonym{"falls", "drifts down"},
                                 Synonym{"falling", "drifts down"},
                                 Synonym{"sinks", "drifts down"},
                                 Synonym{"ca", "about"},
                                 Synonym{"approx", "about"},
                                 Synonym{"nearly", "about"}};

std::string way_to_write(Draft& draft, const std::string& word, const Measurement* measurement) {
  const bool power_on = measurement != nullptr && !circuit::is_power_off(*measurement);
  for (const Synonym& synonym : synonyms) {
    if (word == synonym.written && power_on && synonym.ours == "open") {
      return "Take a higher range and give its figure; `open` is of the ohms and the diode range.";
    }
    if (word == synonym.written) return "Write " + quote(synonym.ours) + ".";
  }
  const std::string near = nearest_among(draft, word, {"about", "open", "jumps", "drifts"});
  if (!near.empty()) return near;
  return "Write a figure with its unit, such as `9.1mV`; or `about 9mV`, `jumps`, `drifts up`, "
         "`drifts down`; of the ohms and the diode range also `open`.";
}

// Letters that cannot begin a value: those that IEC 60062 writes for the point can.
bool is_a_word(const std::string& text) {
  if (text.empty()) return false;
  const auto is_letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  return is_letter(text[0]) && (text.size() < 2 || text[1] < '0' || text[1] > '9');
}

/// The words of what was shown, taken one after the other.
struct WordsRead {
  Draft& draft;
  std::span<const Word> words;
  const Measurement* measurement;
  std::size_t at = 0;

  [[nodiscard]] bool is_next(std::string_view text) const {
    return at < words.size() && words[at].text == text;
  }
};

bool refuse(WordsRead& reading, const Word& word, std::string headline, std::string instead) {
  complain(reading.draft, "reading-unreadable", word, std::move(headline), "", std::move(instead));
  return false;
}

// jumps, drifts up, drifts down; nothing where none of them comes next. False: complained.
bool take_movement(WordsRead& reading, Shown& shown) {
  if (reading.is_next("jumps")) {
    shown.firmness = Firmness::jumps;
    ++reading.at;
    return true;
  }
  if (!reading.is_next("drifts")) return true;
  const Word& word = reading.words[reading.at++];
  if (reading.is_next("up") || reading.is_next("down")) {
    shown.firmness = reading.is_next("up") ? Firmness::drifts_up : Firmness::drifts_down;
    ++reading.at;
    return true;
  }
  return refuse(reading,
                word,
                "`drifts` does not say which way",
                "Write `drifts up` (away from zero) or `drifts down` (towards it).");
}

bool take_open(WordsRead& reading, Shown& shown) {
  const Word& word = reading.words[reading.at++];
  if (reading.measurement != nullptr && !circuit::is_power_off(*reading.measurement)) {
    return refuse(reading,
                  word,
                  "`open` is what the ohms or the diode range shows, with the power off",
                  "Give the figure that the meter showed, or write `ohms A B` where the ohms range "
                  "was used.");
  }
  shown.firmness = Firmness::beyond_range;
  return true;
}

bool take_figure(WordsRead& reading, Shown& shown) {
  const Word& word = reading.words[reading.at++];
  if (word.text.starts_with('~')) {
    return refuse(reading,
                  word,
                  quote(word.text) + " is written another way",
                  "Write " + quote("about " + word.text.substr(1)) + ".");
  }
  if (is_a_word(word.text)) {
    return refuse(reading,
                  word,
                  quote(word.text) + " is nothing that a meter shows",
                  way_to_write(reading.draft, word.text, reading.measurement));
  }
  if (reading.measurement == nullptr) return true;
  const Range range =
      circuit::is_power_off(*reading.measurement) ? Range::not_negative : Range::any;
  shown.value = read_number(reading.draft, {}, word, "", unit_of(*reading.measurement), range);
  return shown.value.has_value();
}

bool take_value(WordsRead& reading, Shown& shown) {
  const bool about = reading.is_next("about");
  if (about) {
    const Word& word = reading.words[reading.at++];
    shown.firmness = Firmness::about;
    if (reading.at == reading.words.size()) {
      return refuse(reading, word, "`about` stops before its figure", "Write `about 0.6V`.");
    }
  }
  if (!about && reading.is_next("open")) return take_open(reading, shown);
  if (!about && (reading.is_next("jumps") || reading.is_next("drifts"))) return true;
  return take_figure(reading, shown);
}

bool is_at_end(WordsRead& reading) {
  if (reading.at >= reading.words.size()) return true;
  const Word& extra = reading.words[reading.at];
  if (reading.at > 0 && reading.measurement != nullptr) {
    const std::string together = reading.words[reading.at - 1].text + extra.text;
    const auto read = values::read_value(together, unit_of(*reading.measurement));
    if (std::holds_alternative<double>(read) && is_a_word(extra.text)) {
      complain(reading.draft,
               "space-in-value",
               extra,
               "a blank stands between " + quote(reading.words[reading.at - 1].text) + " and " +
                   quote(extra.text),
               "A value is one word.",
               "Write " + quote(together) + ".");
      return false;
    }
  }
  return refuse(reading,
                extra,
                "the word " + quote(extra.text) + " is one too many",
                is_a_word(extra.text) ? way_to_write(reading.draft, extra.text, reading.measurement)
                                      : "Give one figure a reading.");
}

}  // namespace

std::size_t measurement_size(const std::string& first) {
  if (first == "volts" || first == "ohms" || first == "diode") return 3;
  if (first == "amps" || first == "watts" || first == "celsius") return 2;
  return 1;
}

std::optional<NamedMeasurement> read_measurement_words(Draft& draft, std::span<const Word> words) {
  const Word& first = words.front();
  if (measurement_size(first.text) == 1) {
    const auto known = read_named(draft, first);
    if (!known) return std::nullopt;
    return NamedMeasurement{first.text, *known};
  }
  std::optional<Measurement> found;
  if (first.text == "ohms" || first.text == "diode") {
    found = read_between(draft, words);
  } else if (const auto probe = read_probe_words(draft, words)) {
    found = *probe;
  }
  if (!found) return std::nullopt;
  return NamedMeasurement{circuit::write_measurement(draft.circuit, *found), *found};
}

std::optional<Shown> read_shown_words(Draft& draft,
                                      std::span<const Word> words,
                                      const Measurement* measurement) {
  WordsRead reading{draft, words, measurement};
  Shown shown;
  const bool read = take_value(reading, shown) &&
                    (shown.firmness == Firmness::beyond_range || take_movement(reading, shown)) &&
                    is_at_end(reading);
  if (!read) return std::nullopt;
  return shown;
}

std::vector<Word> words_within(const Word& word) {
  std::vector<Word> words;
  const std::size_t quote_mark = word.quoted ? 1 : 0;
  std::size_t at = 0;
  while ((at = word.text.find_first_not_of(" \t", at)) != std::string::npos) {
    const std::size_t end = std::min(word.text.find_first_of(" \t", at), word.text.size());
    words.push_back({word.text.substr(at, end - at),
                     word.source,
                     std::min(word.offset + quote_mark + at, word.source->text().size()),
                     false});
    at = end;
  }
  return words;
}

Unit unit_of(const Measurement& measurement) {
  if (const auto* probe = std::get_if<Probe>(&measurement)) return unit_of(*probe);
  return std::holds_alternative<OhmsBetween>(measurement) ? Unit::ohm : Unit::volt;
}

}  // namespace idlepoint::language
