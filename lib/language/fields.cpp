#include "language/fields.hpp"

#include <algorithm>
#include <variant>

#include "language/statement_table.hpp"
#include "values/format.hpp"
#include "values/quantity.hpp"

namespace idlepoint::language {
namespace {

using values::Unit;

bool reads_as(std::string_view text, Unit unit) {
  return std::holds_alternative<double>(values::read_value(text, unit)) && !text.empty() &&
         (text.back() < '0' || text.back() > '9');
}

// The word that the form asks for in place of one that is missing: "VALUE".
std::string word_of_form(std::string_view form, std::size_t index) {
  for (; index > 0; --index) {
    const std::size_t blank = form.find(' ');
    if (blank == std::string_view::npos) return {};
    form.remove_prefix(blank + 1);
  }
  return std::string(form.substr(0, form.find(' ')));
}

// "resistor R8": enough to know which statement is meant.
std::string beginning_of(const Statement& statement) {
  const std::string& keyword = statement.keyword().text;
  return statement.words.size() > 1 ? keyword + " " + statement.words[1].text : keyword;
}

// 0.47 3W, 47 uF, 4k7 5%: the word that is too many is a value itself.
bool complain_of_second_value(Draft& draft, const Word& value, const Word& extra) {
  const std::string together = value.text + extra.text;
  const bool begins_with_digit =
      !extra.text.empty() && extra.text[0] >= '0' && extra.text[0] <= '9';
  for (const Unit unit : {Unit::ohm, Unit::farad, Unit::henry, Unit::volt, Unit::ampere}) {
    if (begins_with_digit || !reads_as(together, unit)) continue;
    complain(draft,
             "space-in-value",
             {place_of(extra)},
             "a blank stands between " + quote(value.text) + " and " + quote(extra.text),
             "A value is one word.",
             "Write " + quote(together) + ".");
    return true;
  }
  const char* key = reads_as(extra.text, Unit::watt)        ? "power="
                    : reads_as(extra.text, Unit::volt)      ? "voltage="
                    : reads_as(extra.text, Unit::tolerance) ? "tolerance="
                                                            : nullptr;
  if (key == nullptr) return false;
  complain(draft,
           "two-values",
           {place_of(extra)},
           quote(extra.text) + " stands as a second value behind " + quote(value.text),
           "",
           "Write " + quote(value.text + " " + key + extra.text) + ".");
  return true;
}

std::string limit_in_words(Unit unit, Range range) {
  const bool percent = unit == Unit::percent || unit == Unit::tolerance;
  switch (range) {
    case Range::not_negative:
      return "less than 0";
    case Range::positive:
      return "not more than 0";
    case Range::share:
      return percent ? "outside 0 % to 100 %" : "outside 0 to 1";
    case Range::tolerance:
      return "outside 0 % to 99 %";
    case Range::any:
      break;
  }
  return {};
}

bool fits(double value, Range range) {
  switch (range) {
    case Range::not_negative:
      return value >= 0.0;
    case Range::positive:
      return value > 0.0;
    case Range::share:
      return value >= 0.0 && value <= 1.0;
    case Range::tolerance:
      return value >= 0.0 && value < 1.0;
    case Range::any:
      break;
  }
  return true;
}

std::string why_range(Range range) {
  if (range == Range::not_negative) return "It may be 0 or more.";
  if (range == Range::positive) return "It must be more than 0.";
  return {};
}

std::string list_choices(std::initializer_list<std::string_view> choices) {
  std::string text;
  std::size_t index = 0;
  for (const std::string_view choice : choices) {
    if (index > 0) text += index + 1 == choices.size() ? " or " : ", ";
    text += "`" + std::string(choice) + "`";
    ++index;
  }
  return text;
}

}  // namespace

bool has_words(Draft& draft,
               const Statement& statement,
               std::size_t least,
               std::size_t most,
               std::string_view form) {
  const std::size_t count = statement.words.size();
  const std::string write = "Write `" + std::string(form) + "`.";
  if (count < least) {
    for (const Word& word : statement.words) draft.forgiven.insert(word.text);
    complain(draft,
             "missing-word",
             {place_of(statement.keyword())},
             quote(beginning_of(statement)) + " stops before its " + word_of_form(form, count),
             "",
             write);
    return false;
  }
  if (count > most) {
    const Word& extra = statement.words[most];
    if (!complain_of_second_value(draft, statement.words[most - 1], extra)) {
      complain(draft,
               "extra-word",
               {place_of(extra)},
               "the word " + quote(extra.text) + " is one too many",
               "",
               write);
    }
  }
  return true;
}

void note_blank(Draft& draft, const Statement& statement, const Word& word, std::string_view what) {
  std::string text(what);
  const std::size_t name = statement.keyword().text == "type" ? 2 : 1;
  if (statement.words.size() > name) text += " of " + statement.words[name].text;
  text += " (" + statement.keyword().text;
  const StatementFacts* facts = find_statement(statement.keyword().text);
  const bool is_part = facts != nullptr && facts->step == Step::parts;
  if (is_part && statement.words.size() > 4) {
    text += ", " + statement.words[2].text + " to " + statement.words[3].text;
  }
  draft.circuit.blanks.push_back({.text = text + ")", .place = place_of(word)});
}

bool is_in_range(Draft& draft, const Word& word, double value, Unit unit, Range range) {
  if (fits(value, range)) return true;
  complain(draft,
           "out-of-range",
           word,
           quote(word.text) + " is " + limit_in_words(unit, range),
           why_range(range),
           "");
  return false;
}

std::optional<double> read_number(Draft& draft,
                                  const Statement& statement,
                                  const Word& word,
                                  std::string_view what,
                                  Unit unit,
                                  Range range) {
  if (word.text == "?" && !statement.words.empty()) {
    note_blank(draft, statement, word, what);
    return std::nullopt;
  }
  const auto read = values::read_value(word.text, unit);
  if (const auto* problem = std::get_if<values::ValueProblem>(&read)) {
    complain(draft, problem->kind, word, problem->headline, problem->why, problem->instead);
    return std::nullopt;
  }
  const double value = std::get<double>(read);
  if (!is_in_range(draft, word, value, unit, range)) return std::nullopt;
  return value;
}

double read_part_value(
    Draft& draft, const Statement& statement, const Word& word, Unit unit, Range range) {
  return read_number(draft, statement, word, "the value", unit, range).value_or(1.0);
}

Pairs::Pairs(Draft& draft, const Statement& statement)
    : draft_(draft), statement_(statement), used_(statement.pairs.size(), false) {}

const Word* Pairs::find(std::string_view key) {
  if (std::find(asked_.begin(), asked_.end(), key) == asked_.end()) asked_.emplace_back(key);
  const Word* found = nullptr;
  for (std::size_t index = 0; index < used_.size(); ++index) {
    if (statement_.pairs[index].key.text != key) continue;
    used_[index] = true;
    if (found == nullptr) found = &statement_.pairs[index].value;
  }
  return found;
}

const Word* Pairs::require(std::string_view key) {
  const Word* found = find(key);
  if (found == nullptr) {
    complain(draft_,
             "missing-key",
             {place_of(statement_.keyword())},
             quote(beginning_of(statement_)) + " lacks its " + quote(std::string(key) + "="),
             "",
             "Write " + quote(std::string(key) + "=...") + " into this statement.");
  }
  return found;
}

std::optional<double> Pairs::number(std::string_view key, Unit unit, Range range) {
  const Word* word = find(key);
  if (word == nullptr) return std::nullopt;
  return read_number(draft_, statement_, *word, "`" + std::string(key) + "`", unit, range);
}

std::optional<std::size_t> Pairs::choice(std::string_view key,
                                         std::initializer_list<std::string_view> choices) {
  const Word* word = find(key);
  if (word == nullptr) return std::nullopt;
  const auto chosen = std::find(choices.begin(), choices.end(), word->text);
  if (chosen != choices.end()) return static_cast<std::size_t>(chosen - choices.begin());
  complain(draft_,
           "choice-expected",
           *word,
           quote(std::string(key) + "=" + word->text) + " is none of the choices",
           "",
           "Write " + list_choices(choices) + ".");
  return std::nullopt;
}

void Pairs::finish() {
  for (std::size_t index = 0; index < used_.size(); ++index) {
    if (used_[index]) continue;
    const Word& key = statement_.pairs[index].key;
    std::string instead = nearest_among(draft_, key.text, asked_);
    if (instead.empty()) {
      for (const std::string& asked : asked_) {
        if (asked_.size() > 12) break;
        instead += (instead.empty() ? "Known here: `" : ", `") + asked + "=`";
      }
      if (!instead.empty()) instead += ".";
      if (asked_.empty()) instead = "Take it out: this statement has no pairs.";
    }
    complain(draft_,
             "unknown-key",
             key,
             quote(statement_.keyword().text) + " knows no " + quote(key.text + "="),
             "",
             instead);
  }
}

}  // namespace idlepoint::language
