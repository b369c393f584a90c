// The part type: `type KIND NAME key=value ...`, its law, ratings, spread and source.
#include <cmath>
#include <utility>

#include "circuit/type_fields.hpp"
#include "language/quick_fields.hpp"
#include "language/statement_table.hpp"
#include "language/type_statement.hpp"
#include "values/quantity.hpp"

namespace idlepoint::language {
namespace {

using circuit::PartKind;
using circuit::PartType;
using circuit::TypeField;
using values::Unit;

template <class Data>
void store(const TypeField<Data>& field, Data& data, double value) {
  std::visit([&data, value](auto member) { data.*member = value; }, field.member);
}

template <class Data>
std::optional<double> nominal_of(const TypeField<Data>& field, const Data& data) {
  return std::visit([&data](auto member) -> std::optional<double> { return data.*member; },
                    field.member);
}

// FIELD.min= and FIELD.max=: the production spread.
void read_spread(
    Draft& draft, Pairs& pairs, PartType& type, std::string_view name, Unit unit, Range range) {
  const std::string field(name);
  circuit::Spread spread;
  spread.min = pairs.number(field + ".min", unit, range);
  spread.max = pairs.number(field + ".max", unit, range);
  if (!spread.min && !spread.max) return;
  if (spread.min && spread.max && *spread.min > *spread.max) {
    complain(draft,
             "low-above-high",
             {place_of(*pairs.find(field + ".min")), place_of(*pairs.find(field + ".max"))},
             quote(field + ".min") + " lies above " + quote(field + ".max"),
             "",
             "Exchange the two.");
  }
  type.spreads[field] = spread;
}

// Numbers that a quick field may give instead.
bool may_come_from_reading(std::string_view name) {
  return name == "saturation_current" || name == "threshold_voltage" || name == "current_factor";
}

void check_nominal(Draft& draft,
                   Pairs& pairs,
                   const PartType& type,
                   std::string_view name,
                   std::optional<double> nominal) {
  const auto spread = type.spreads.find(std::string(name));
  if (spread == type.spreads.end()) return;
  const Word* word = pairs.find(name);
  const circuit::Spread& ends = spread->second;
  if (ends.min && ends.max && *ends.min > *ends.max) return;  // Complained of already.
  const bool outside =
      nominal && ((ends.min && *nominal < *ends.min) || (ends.max && *nominal > *ends.max));
  if (word != nullptr && outside) {
    complain(draft,
             "nominal-outside",
             *word,
             quote(std::string(name) + "=" + word->text) + " lies outside its own spread",
             "",
             "The plain figure belongs between `.min` and `.max`.");
  } else if (word == nullptr && (!nominal || outside) && !may_come_from_reading(name)) {
    const std::string field(name);
    const Word* end = pairs.find(field + (ends.min ? ".min" : ".max"));
    complain(draft,
             "missing-key",
             *end,
             quote(field + "=") + " is missing beside its spread",
             "A spread is about the plain figure.",
             "Write " + quote(field + "=...") + " too.");
  }
}

template <class Data>
void read_law(Draft& draft,
              Pairs& pairs,
              PartType& type,
              std::span<const TypeField<Data>> fields,
              QuickFields& found) {
  Data& data = std::get<Data>(type.law);
  for (const TypeField<Data>& field : fields) {
    if (!circuit::belongs(field.only, type.kind)) continue;
    const bool written = pairs.find(field.name) != nullptr;
    if (written && field.name == "saturation_current") found.has_saturation_current = true;
    if (written && field.name == "threshold_voltage") found.has_threshold = true;
    if (written && field.name == "current_factor") found.has_current_factor = true;
    if (const auto value = pairs.number(field.name, field.unit, field.range)) {
      store(field, data, *value);
    }
    read_spread(draft, pairs, type, field.name, field.unit, field.range);
    check_nominal(draft, pairs, type, field.name, nominal_of(field, data));
  }
}

void complain_of_safe_area(Draft& draft, const Word& word, const std::string& headline) {
  complain(draft,
           "value-unreadable",
           word,
           headline,
           "",
           "Write rising voltages with the current at each: `safe_area=40V:3A,60V:1.2A`.");
}

// 40V:3A,60V:1.2A
void read_safe_area(Draft& draft, const Word& word, circuit::Ratings& ratings) {
  std::string_view rest = word.text;
  while (!rest.empty()) {
    const std::size_t comma = std::min(rest.find(','), rest.size());
    const std::string_view point = rest.substr(0, comma);
    const std::size_t colon = point.find(':');
    if (colon == std::string_view::npos) {
      return complain_of_safe_area(draft, word, quote(point) + " is no point of a safe area");
    }
    const auto volts = values::read_value(point.substr(0, colon), Unit::volt);
    const auto amperes = values::read_value(point.substr(colon + 1), Unit::ampere);
    const double* v = std::get_if<double>(&volts);
    const double* a = std::get_if<double>(&amperes);
    if (v == nullptr || a == nullptr || *v <= 0.0 || *a <= 0.0) {
      return complain_of_safe_area(draft, word, quote(point) + " is no point of a safe area");
    }
    if (!ratings.safe_area.empty() && *v <= ratings.safe_area.back().voltage_v) {
      return complain_of_safe_area(draft, word, "the voltages of this safe area do not rise");
    }
    ratings.safe_area.push_back({*v, *a});
    rest.remove_prefix(std::min(comma + 1, rest.size()));
  }
}

void read_ratings(Draft& draft, Pairs& pairs, PartType& type) {
  for (const circuit::RatingField& field : circuit::rating_fields(type.kind)) {
    if (const auto value = pairs.number(field.name, field.unit, field.range)) {
      std::visit([&type, &value](auto member) { type.ratings.*member = *value; }, field.member);
    }
  }
  if (const Word* word = pairs.find("safe_area")) read_safe_area(draft, *word, type.ratings);
  if (const Word* word = pairs.find("case_style")) type.ratings.case_style = word->text;
  if (const Word* word = pairs.find("source")) type.source = word->text;
}

PartType empty_type(PartKind kind) {
  PartType type;
  type.kind = kind;
  if (circuit::is_bipolar(kind)) type.law = devices::BipolarData{};
  if (circuit::is_fet(kind)) {
    type.law = devices::usual_fet(kind == PartKind::n_jfet || kind == PartKind::p_jfet);
  }
  return type;
}

void require_fields(Draft& draft, Pairs& pairs, PartType& type) {
  if (circuit::is_bipolar(type.kind)) pairs.require("gain");
  if (const auto* fet = std::get_if<devices::FetData>(&type.law)) {
    pairs.require(fet->is_junction ? "threshold_voltage" : "current_factor");
    // The drain current of a junction FET falls to nothing at its threshold.
    const Word* threshold = pairs.find("threshold_voltage");
    if (fet->is_junction && threshold != nullptr && fet->threshold_voltage_v == 0.0) {
      complain(draft,
               "out-of-range",
               *threshold,
               quote(threshold->text) + " is no threshold of a junction FET",
               "Its current at zero gate volts would be zero.",
               "");
    }
  }
  const auto* diode = std::get_if<devices::DiodeData>(&type.law);
  if (diode != nullptr && diode->zener_voltage_v) pairs.require("zener_test_current");
}

// In a points file a tester's reading is a point like any other.
void refuse_quick_fields(Draft& draft, Pairs& pairs) {
  const std::pair<const char*, const char*> readings[] = {
      {"vbe", "point vbe 0.58V at ic=50mA"},
      {"vf", "point vf 0.70V at if=10mA"},
      {"vgs", "point vgs 3.6V at id=100mA"},
      {"idss", "point idss 8mA at vds=10V"},
  };
  for (const auto& [key, statement] : readings) {
    const Word* word = pairs.find(key);
    if (word == nullptr) continue;
    static_cast<void>(pairs.find(std::string(key) + "_at"));
    complain(draft,
             "quick-field",
             *word,
             quote(std::string(key) + "=") + " is a reading, and here a reading is a point",
             "The field it stands for is what the points are to give.",
             "Write it as in " + quote(statement) + ".");
  }
}

bool register_type(Draft& draft, const PartType& type, const Word& name) {
  const auto [known, is_new] = draft.types.try_emplace(type.name, draft.circuit.types.size());
  if (is_new) return true;
  const complaints::Place& first = draft.circuit.types[known->second].place;
  complaints::Place there = first;
  there.remark = "the first";
  complain(draft,
           "type-twice",
           {place_of(name, "the second"), there},
           "type " + quote(type.name) + " stands twice",
           "",
           "Leave one of the two.");
  return false;
}

std::optional<PartKind> kind_of_type(Draft& draft, const Word& word) {
  const auto kind = circuit::part_kind(word.text);
  if (kind && circuit::has_type(*kind)) return kind;
  complain(draft,
           "choice-expected",
           word,
           quote(word.text) + " is no kind of part type",
           "",
           "Write `diode`, `npn`, `pnp`, `n-jfet`, `p-jfet`, `n-mosfet` or `p-mosfet`.");
  return std::nullopt;
}

}  // namespace

std::optional<PartType> understand_type(Draft& draft, const Statement& statement, TypeUse use) {
  if (!has_words(draft, statement, 3, 3, "type KIND NAME")) return std::nullopt;
  const Word& name = statement.words[2];
  const auto kind = kind_of_type(draft, statement.words[1]);
  const bool good_name = is_good_name(draft, name, true);
  if (!kind || !good_name) {
    draft.forgiven.insert(name.text);
    return std::nullopt;
  }
  PartType type = empty_type(*kind);
  type.name = name.text;
  type.place = place_of(name, "");
  Pairs pairs(draft, statement);
  QuickFields found;
  std::visit(
      [&]<class Data>(const Data&) {
        if constexpr (std::is_same_v<Data, devices::DiodeData>) {
          read_law<Data>(draft, pairs, type, circuit::diode_fields(), found);
        } else if constexpr (std::is_same_v<Data, devices::BipolarData>) {
          read_law<Data>(draft, pairs, type, circuit::bipolar_fields(), found);
        } else {
          read_law<Data>(draft, pairs, type, circuit::fet_fields(), found);
        }
      },
      type.law);
  if (use == TypeUse::whole) {
    require_fields(draft, pairs, type);
    read_quick_fields(draft, statement, pairs, type, found);
  } else {
    refuse_quick_fields(draft, pairs);
  }
  read_ratings(draft, pairs, type);
  pairs.finish();
  return type;
}

void read_type(Draft& draft, const Statement& statement) {
  auto type = understand_type(draft, statement, TypeUse::whole);
  if (type && register_type(draft, *type, statement.words[2])) {
    draft.circuit.types.push_back(*std::move(type));
  }
}

}  // namespace idlepoint::language
