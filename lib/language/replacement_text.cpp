#include "language/replacement_text.hpp"

#include <algorithm>
#include <charconv>
#include <optional>
#include <unordered_map>
#include <utility>

#include "circuit/sentence.hpp"
#include "language/command_text.hpp"
#include "language/fields.hpp"
#include "language/substitution_words.hpp"
#include "values/quantity.hpp"

namespace idlepoint::language {
namespace {

using circuit::Circuit;
using circuit::Edit;
using circuit::PartId;
using circuit::TypeId;
using complaints::Result;

constexpr const char* forms =
    "Write `Q5=TYPE`; for a diode, a stack or a thermistor also \"D1=3 TYPE + 22R\", \"D1=47R\" or "
    "\"D1=spreader TYPE 1k2 560R\".";

/// A name that is a type's is never ohms, though `n3` might be.
using KnownTypes = std::unordered_map<std::string, std::size_t>;

bool is_ohms(const Word& word, const KnownTypes& types) {
  return !types.contains(word.text) &&
         std::holds_alternative<double>(values::read_value(word.text, values::Unit::ohm));
}

// `3` or `3x`; not `3R`.
std::optional<std::size_t> count_of(const Word& word) {
  std::string digits = word.text;
  if (digits.size() > 1 && digits.back() == 'x') digits.pop_back();
  std::size_t count = 0;
  const char* end = digits.data() + digits.size();
  const auto [stopped, error] = std::from_chars(digits.data(), end, count);
  if (error != std::errc() || stopped != end) return std::nullopt;
  return count;
}

/// What stands on the right-hand side, not yet looked up.
struct Written {
  std::optional<Word> count;
  std::optional<Word> type;
  bool is_spreader = false;
  std::vector<Word> ohms;
  bool fits = true;  ///< False: in no order that is known.
};

Written take_apart(const std::vector<Word>& words, const KnownTypes& types) {
  Written written;
  const auto is_ohms_here = [&](const Word& word) { return is_ohms(word, types); };
  auto next = words.begin();
  const auto is_next = [&](auto&& like) { return next != words.end() && like(*next); };
  const auto is_text = [](const char* text) {
    return [text](const Word& word) { return word.text == text; };
  };
  if (is_next(is_text("spreader"))) {
    written.is_spreader = true;
    ++next;
  } else if (words.size() > 1 &&
             is_next([](const Word& word) { return count_of(word).has_value(); })) {
    written.count = *next++;
  }
  if (is_next([&](const Word& word) { return !is_ohms_here(word) && word.text != "+"; })) {
    written.type = *next++;
  }
  const bool wants_plus = !written.is_spreader && written.type;
  if (wants_plus && is_next(is_text("+"))) {
    ++next;
    written.fits = next != words.end();
  } else if (wants_plus && next != words.end()) {
    written.fits = false;
  }
  while (is_next(is_ohms_here)) written.ohms.push_back(*next++);
  const std::size_t most = written.is_spreader ? 2 : 1;
  written.fits = written.fits && next == words.end() && written.ohms.size() <= most &&
                 (written.type || (!written.is_spreader && !written.count));
  if (written.is_spreader && written.ohms.size() < most) written.fits = false;
  return written;
}

struct TwoSides {
  Word part;
  std::vector<Word> words;
};

// At the first `=`; the word that holds it is cut in two.
std::optional<TwoSides> two_sides(const CommandText& command) {
  if (command.words.empty()) return std::nullopt;
  TwoSides sides{command.words.front(), {command.words.begin() + 1, command.words.end()}};
  const std::size_t equals = sides.part.text.find('=');
  if (equals == std::string::npos || equals == 0) return std::nullopt;
  Word right = sides.part;
  right.text = right.text.substr(equals + 1);
  right.offset += equals + 1;
  sides.part.text.resize(equals);
  if (!right.text.empty()) sides.words.insert(sides.words.begin(), std::move(right));
  if (sides.words.empty()) return std::nullopt;
  return sides;
}

std::optional<double> ohms_of(Draft& draft, const Word& word) {
  return read_number(draft, {}, word, "", values::Unit::ohm, Range::positive);
}

std::optional<circuit::Spreader> spreader(Draft& draft, const Written& written) {
  const auto type = known_type(draft, *written.type);
  if (!type) return std::nullopt;
  if (!circuit::is_bipolar(draft.circuit.at(*type).kind)) {
    complain_of_kind(draft,
                     *written.type,
                     draft.circuit.at(*type),
                     "a spreader is made with an npn or a pnp",
                     "Name a bipolar type.");
    return std::nullopt;
  }
  const auto collector_base = ohms_of(draft, written.ohms[0]);
  const auto base_emitter = ohms_of(draft, written.ohms[1]);
  if (!collector_base || !base_emitter) return std::nullopt;
  return circuit::Spreader{*type, *collector_base, *base_emitter};
}

constexpr std::size_t most_diodes = 20;

std::optional<circuit::DiodeString> diode_string(Draft& draft, const Written& written) {
  circuit::DiodeString string;
  if (written.type) {
    string.type = known_type(draft, *written.type);
    if (!string.type) return std::nullopt;
    if (draft.circuit.at(*string.type).kind != circuit::PartKind::diode) {
      complain_of_kind(draft,
                       *written.type,
                       draft.circuit.at(*string.type),
                       "a string is made of diodes",
                       "Name a diode's type, or write `spreader` before a transistor's.");
      return std::nullopt;
    }
    string.diodes = written.count ? *count_of(*written.count) : 1;
    if (string.diodes == 0 || string.diodes > most_diodes) {
      complain(draft,
               "out-of-range",
               *written.count,
               quote(written.count->text) + " diodes cannot be strung",
               "",
               "From 1 to 20 can.");
      return std::nullopt;
    }
  }
  if (!written.ohms.empty()) {
    const auto ohm = ohms_of(draft, written.ohms[0]);
    if (!ohm) return std::nullopt;
    string.series_ohm = *ohm;
  }
  return string;
}

std::optional<Replacement> stand_in_for(Draft& draft, const Word& name, const Written& written) {
  const auto part = part_named(draft, name);
  if (!part) return std::nullopt;
  const circuit::PartKind kind = draft.circuit.at(*part).kind;
  if (kind != circuit::PartKind::diode && kind != circuit::PartKind::thermistor) {
    complain(draft,
             "fault-does-not-fit",
             name,
             quote(name.text) + " is " + circuit::a_kind(kind) +
                 ", and a stand-in takes the place of a diode, a stack or a thermistor",
             "",
             circuit::has_type(kind) ? "Name one type." : "");
    return std::nullopt;
  }
  if (written.is_spreader) {
    const auto made = spreader(draft, written);
    if (!made) return std::nullopt;
    return circuit::StandIn{*part, *made};
  }
  const auto made = diode_string(draft, written);
  if (!made) return std::nullopt;
  return circuit::StandIn{*part, *made};
}

// A transistor: whatever stands there is meant as a type, even where it could be read as ohms.
bool takes_a_type_alone(const Draft& draft, const Word& name) {
  const auto part = circuit::find_part(draft.circuit, name.text);
  return part && circuit::is_transistor(draft.circuit.at(*part).kind);
}

std::optional<Replacement> replacement(Draft& draft, const CommandText& command) {
  const auto sides = two_sides(command);
  if (sides && sides->words.size() == 1 && takes_a_type_alone(draft, sides->part)) {
    const auto type = read_other_type(draft, sides->part, sides->words.front());
    if (!type) return std::nullopt;
    return *type;
  }
  const Written written = sides ? take_apart(sides->words, draft.types) : Written{};
  if (!sides || !written.fits) {
    complain(draft,
             "setting-unreadable",
             {command.source.place(0, "")},
             quote(command.source.text()) + " does not say what takes which part's place",
             "",
             forms);
    return std::nullopt;
  }
  const bool is_plain =
      written.type && !written.count && !written.is_spreader && written.ohms.empty();
  const auto part = circuit::find_part(draft.circuit, sides->part.text);
  const bool is_thermistor = part && draft.circuit.at(*part).kind == circuit::PartKind::thermistor;
  if (!is_plain || is_thermistor) return stand_in_for(draft, sides->part, written);
  const auto type = read_other_type(draft, sides->part, *written.type);
  if (!type) return std::nullopt;
  return *type;
}

}  // namespace

Result<Edit> read_substitution(std::string_view text, const Circuit& circuit) {
  const CommandText command(text);
  Draft draft = draft_of(circuit);
  std::optional<Edit> edit;
  if (const auto sides = sides_of(draft, command, "Q5=TYPE")) {
    if (const auto type = read_other_type(draft, sides->left, sides->right)) edit = *type;
  }
  return answer(draft, std::move(edit), "setting-unreadable", command);
}

Result<Replacement> read_replacement(std::string_view text, const Circuit& circuit) {
  const CommandText command(text);
  Draft draft = draft_of(circuit);
  auto found = replacement(draft, command);
  return answer(draft, std::move(found), "setting-unreadable", command);
}

std::vector<std::string> types_named_in(std::string_view text) {
  const CommandText command(text);
  const auto sides = two_sides(command);
  if (!sides) return {};
  const Written written = take_apart(sides->words, {});
  if (!written.fits || !written.type) return {};
  return {written.type->text};
}

}  // namespace idlepoint::language
