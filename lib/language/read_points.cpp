#include "language/read_points.hpp"

#include <algorithm>
#include <utility>

#include "circuit/sentence.hpp"
#include "circuit/type_fields.hpp"
#include "language/fields.hpp"
#include "language/type_statement.hpp"

namespace idlepoint::language {
namespace {

using circuit::PartKind;
using circuit::PointCondition;
using circuit::QuantityFacts;
using circuit::TypePoint;
using circuit::TypePoints;
using values::Unit;

std::vector<std::string> quantities_of(PartKind kind) {
  std::vector<std::string> names;
  for (const QuantityFacts& row : circuit::all_quantities()) {
    if (circuit::belongs(row.kinds, kind)) names.emplace_back(row.name);
  }
  return names;
}

const QuantityFacts* quantity_named(Draft& draft, const Word& word, PartKind kind) {
  for (const QuantityFacts& row : circuit::all_quantities()) {
    if (row.name == word.text && circuit::belongs(row.kinds, kind)) return &row;
  }
  const std::vector<std::string> known = quantities_of(kind);
  std::string instead = nearest_among(draft, word.text, known);
  if (instead.empty()) {
    std::vector<std::string> quoted;
    for (const std::string& name : known) quoted.push_back("`" + name + "`");
    instead =
        "The points of " + circuit::a_kind(kind) + " are " + circuit::list_words(quoted) + ".";
  }
  complain(draft,
           "unknown-quantity",
           word,
           quote(word.text) + " is nothing that a point of " + circuit::a_kind(kind) + " can give",
           "",
           instead);
  return nullptr;
}

// "point vce_sat VALUE at ic=... ib=..."
std::string form_of(const QuantityFacts& row) {
  std::string text = "point " + std::string(row.name) + " VALUE at";
  for (const PointCondition& condition : row.conditions) {
    if (!condition.key.empty()) text += " " + std::string(condition.key) + "=...";
  }
  return text;
}

void read_conditions(Draft& draft,
                     const Statement& statement,
                     Pairs& pairs,
                     const QuantityFacts& row,
                     TypePoint& point) {
  for (std::size_t index = 0; index < row.conditions.size(); ++index) {
    const PointCondition& condition = row.conditions[index];
    if (condition.key.empty()) continue;
    const bool written = pairs.find(condition.key) != nullptr;
    if (!written && !condition.usual) {
      complain(draft,
               "missing-key",
               {place_of(statement.words[1])},
               quote("point " + std::string(row.name)) + " does not say at which " +
                   quote(std::string(condition.key) + "="),
               "A reading of a part says something only together with how it was taken.",
               "Write " + quote(form_of(row)) + ".");
      continue;
    }
    point.at_usual[index] = !written;
    point.at[index] =
        written ? pairs.number(condition.key, condition.unit, condition.range).value_or(1.0)
                : *condition.usual;
  }
  point.temperature_k = pairs.number("temperature", Unit::temperature, Range::positive);
}

// 5% is a fraction of the value, 10mV a number of the quantity itself.
void read_within(Draft& draft,
                 const Statement& statement,
                 Pairs& pairs,
                 const QuantityFacts& row,
                 TypePoint& point) {
  const Word* word = pairs.find("within");
  if (word == nullptr) return;
  const bool percent = word->text.ends_with('%');
  const Unit unit = percent ? Unit::percent : row.unit;
  const auto number = read_number(draft, statement, *word, "`within`", unit, Range::positive);
  (percent ? point.within_fraction : point.within) = number;
}

void check_window(Draft& draft, const Statement& statement, Pairs& pairs, const TypePoint& point) {
  const std::string name(circuit::facts(point.quantity).name);
  const Word* min = pairs.find(name + ".min");
  const Word* max = pairs.find(name + ".max");
  if (point.min && point.max && *point.min > *point.max) {
    complain(draft,
             "low-above-high",
             {place_of(*min), place_of(*max)},
             quote(name + ".min") + " lies above " + quote(name + ".max"),
             "",
             "Exchange the two.");
    return;
  }
  const bool below = point.value && point.min && *point.value < *point.min;
  const bool above = point.value && point.max && *point.value > *point.max;
  if (!below && !above) return;
  complain(draft,
           "nominal-outside",
           {place_of(statement.words[2]), place_of(below ? *min : *max)},
           quote(statement.words[2].text) + " lies outside its own window",
           "",
           "The plain figure belongs between `.min` and `.max`.");
}

void require_a_figure(Draft& draft, const Statement& statement, const QuantityFacts& row) {
  const std::string name(row.name);
  complain(draft,
           "missing-word",
           {place_of(statement.words[1])},
           quote("point " + name) + " gives no figure",
           "",
           "Write " + quote(form_of(row)) + ", or " + quote(name + ".min=") + " or " +
               quote(name + ".max=") + " where the sheet gives a limit alone.");
}

// Where the word `at` stands: 2 without a value, 3 with one; 0 where the statement is malformed.
std::size_t place_of_at(Draft& draft, const Statement& statement, const QuantityFacts& row) {
  const auto& words = statement.words;
  if (words.size() > 2 && words[2].text == "at" && words.size() == 3) return 2;
  if (words.size() == 4 && words[3].text == "at") return 3;
  const bool lacks_at = words.size() <= 3;
  complain(draft,
           lacks_at ? "missing-word" : "extra-word",
           lacks_at ? words.back() : words[3],
           lacks_at ? "this point does not say `at` what it was taken"
                    : "the word " + quote(words[3].text) + " does not belong here",
           "",
           "Write " + quote(form_of(row)) + ".");
  return 0;
}

std::optional<TypePoint> read_point(Draft& draft, const Statement& statement, PartKind kind) {
  if (!has_words(draft, statement, 2, 4, "point QUANTITY VALUE at")) return std::nullopt;
  const QuantityFacts* row = quantity_named(draft, statement.words[1], kind);
  if (row == nullptr) return std::nullopt;
  const std::size_t at = place_of_at(draft, statement, *row);
  if (at == 0) return std::nullopt;
  const std::size_t complaints_before = draft.complaints.size();
  Pairs pairs(draft, statement);
  TypePoint point;
  point.quantity = row->quantity;
  point.place = place_of(statement.words[1], "");
  if (at == 3) {
    point.value =
        read_number(draft, statement, statement.words[2], "the value", row->unit, row->range);
  }
  const std::string name(row->name);
  point.min = pairs.number(name + ".min", row->unit, row->range);
  point.max = pairs.number(name + ".max", row->unit, row->range);
  read_conditions(draft, statement, pairs, *row, point);
  read_within(draft, statement, pairs, *row, point);
  if (const Word* note = pairs.find("note")) point.note = note->text;
  check_window(draft, statement, pairs, point);
  pairs.finish();
  if (draft.complaints.size() > complaints_before) return std::nullopt;
  if (!point.value && !point.min && !point.max) require_a_figure(draft, statement, *row);
  return point;
}

bool is_law_field(const circuit::PartType& type, std::string_view key) {
  return circuit::field_range(type, key).has_value();
}

// The one `type` statement; complains of a second one.
const Statement* type_statement(Draft& draft, const std::vector<Statement>& statements) {
  const Statement* type = nullptr;
  for (const Statement& statement : statements) {
    const std::string& keyword = statement.keyword().text;
    if (keyword == "point") continue;
    if (keyword != "type") {
      complain(draft,
               "statement-not-here",
               statement.keyword(),
               quote(keyword) + " does not belong in a points file",
               "A points file holds one `type` statement and its `point` statements.",
               nearest_among(draft, keyword, {"type", "point"}));
    } else if (type != nullptr) {
      complain(
          draft,
          "statement-twice",
          {place_of(statement.keyword(), "the second"), place_of(type->keyword(), "the first")},
          "two types stand in one points file",
          "The points belong to one type.",
          "Give each type a file of its own.");
    } else {
      type = &statement;
    }
  }
  return type;
}

void complain_of_nothing(Draft& draft, const std::string& file_name, const std::string& headline) {
  if (!draft.complaints.empty()) return;
  complain(
      draft,
      "nothing-to-fit",
      {{.file = file_name, .line = 0, .column = 0, .line_text = {}, .remark = {}}},
      headline,
      "",
      "Write one statement such as `type npn BD139 max_collector_current=1.5A`, and one such as "
      "`point vbe 0.62V at ic=10mA` for each figure.");
}

void complain_of_blanks(Draft& draft) {
  for (const circuit::Blank& blank : draft.circuit.blanks) {
    complain(draft,
             "blank",
             {blank.place},
             blank.text + " is still blank",
             "",
             "Fill it in, or take it out: what is not known is left to the fit.");
  }
}

}  // namespace

complaints::Result<TypePoints> read_points(const std::string& text, const std::string& file_name) {
  const SourceText source(file_name, text, 0);
  Draft draft;
  draft.circuit.file = file_name;
  const std::vector<Statement> statements = lex(source, draft.complaints);
  TypePoints read;
  const Statement* type = type_statement(draft, statements);
  if (type == nullptr)
    complain_of_nothing(draft, file_name, "no `type` statement says whose points these are");
  const auto understood =
      type == nullptr ? std::nullopt : understand_type(draft, *type, TypeUse::with_gaps);
  if (understood) {
    read.type = *understood;
    for (const Pair& pair : type->pairs) {
      if (is_law_field(read.type, pair.key.text)) read.given.insert(pair.key.text);
    }
    for (const Statement& statement : statements) {
      if (statement.keyword().text != "point") continue;
      if (auto point = read_point(draft, statement, read.type.kind)) {
        read.points.push_back(*std::move(point));
      }
    }
    if (read.points.empty()) complain_of_nothing(draft, file_name, "the file gives no point");
  }
  complain_of_blanks(draft);
  complaints::sort_by_place(draft.complaints);
  if (complaints::has_error(draft.complaints)) return std::move(draft.complaints);
  return read;
}

complaints::Result<TypePoints> read_points_file(const std::string& path, const FileSource& files) {
  FileText text = files(path);
  if (const auto* trouble = std::get_if<FileTrouble>(&text)) return file_trouble(path, *trouble);
  return read_points(std::get<std::string>(text), path);
}

}  // namespace idlepoint::language
