// The statement of a part type: every field that has a value, the spread beside it.
#include <array>
#include <charconv>
#include <vector>

#include "circuit/type_fields.hpp"
#include "language/fields.hpp"
#include "language/write_parts.hpp"
#include "language/write_words.hpp"
#include "values/format.hpp"

namespace idlepoint::language {
namespace {

using circuit::PartType;
using values::Unit;
using values::write_value;

/// How values are written, and whether a field that holds its default is.
struct Manner {
  std::string (*value)(double value, Unit unit);
  bool with_defaults;
};

double rounded(double value, int figures) {
  std::array<char, 32> text{};
  const auto end =
      std::to_chars(text.begin(), text.end(), value, std::chars_format::scientific, figures - 1);
  std::from_chars(text.begin(), end.ptr, value);
  return value;
}

// "4.2 pA" as one word; with an exponent what is too small for a prefix.
std::string in_four_figures(double value, Unit unit) {
  constexpr int figures = 4;
  const bool is_tiny = value != 0.0 && value > -1e-15 && value < 1e-15;
  if (is_tiny) return write_value(rounded(value, figures), unit);
  std::string text = values::format_value(value, unit, figures);
  std::erase(text, ' ');
  return text;
}

constexpr Manner exact{write_value, true};
constexpr Manner brief{in_four_figures, false};

// The pairs of one statement, each "key=value".
using PairTexts = std::vector<std::string>;

void add(PairTexts& pairs,
         const Manner& manner,
         const std::string& key,
         const std::optional<double>& value,
         Unit unit) {
  if (value) pairs.push_back(key + "=" + manner.value(*value, unit));
}

template <class Fields, class Data>
void add_fields(PairTexts& pairs,
                const Manner& manner,
                const Fields& fields,
                const PartType& type,
                const Data& data) {
  Data usual;
  if constexpr (std::is_same_v<Data, devices::FetData>)
    usual = devices::usual_fet(data.is_junction);
  for (const auto& field : fields) {
    if (!circuit::belongs(field.only, type.kind)) continue;
    const std::string name(field.name);
    const auto number = [&field](const Data& of) {
      return std::visit([&of](auto member) -> std::optional<double> { return of.*member; },
                        field.member);
    };
    const std::optional<double> value = number(data);
    const auto spread = type.spreads.find(name);
    const bool has_spread = spread != type.spreads.end();
    // A test current means something beside a zener voltage only.
    if (field.range == Range::positive && value && *value <= 0.0) continue;
    if (!manner.with_defaults && !has_spread && value == number(usual)) continue;
    add(pairs, manner, name, value, field.unit);
    if (!has_spread) continue;
    add(pairs, manner, name + ".min", spread->second.min, field.unit);
    add(pairs, manner, name + ".max", spread->second.max, field.unit);
  }
}

void add_law(PairTexts& pairs, const Manner& manner, const PartType& type) {
  if (const auto* diode = std::get_if<devices::DiodeData>(&type.law)) {
    add_fields(pairs, manner, circuit::diode_fields(), type, *diode);
  } else if (const auto* bipolar = std::get_if<devices::BipolarData>(&type.law)) {
    add_fields(pairs, manner, circuit::bipolar_fields(), type, *bipolar);
  } else {
    add_fields(pairs, manner, circuit::fet_fields(), type, std::get<devices::FetData>(type.law));
  }
}

void add_ratings(PairTexts& pairs, const Manner& manner, const PartType& type) {
  for (const circuit::RatingField& field : circuit::rating_fields(type.kind)) {
    const std::optional<double> value =
        std::visit([&type](auto member) -> std::optional<double> { return type.ratings.*member; },
                   field.member);
    add(pairs, manner, std::string(field.name), value, field.unit);
  }
  std::string area;
  for (const auto& point : type.ratings.safe_area) {
    area += (area.empty() ? "" : ",") + manner.value(point.voltage_v, Unit::volt) + ":" +
            manner.value(point.current_a, Unit::ampere);
  }
  if (!area.empty()) pairs.push_back("safe_area=" + area);
  if (!type.ratings.case_style.empty()) {
    pairs.push_back("case_style=" + in_quotes(type.ratings.case_style));
  }
  if (!type.source.empty()) pairs.push_back("source=" + in_quotes(type.source));
}

PairTexts pairs_of(const PartType& type, const Manner& manner) {
  PairTexts pairs;
  add_law(pairs, manner, type);
  add_ratings(pairs, manner, type);
  return pairs;
}

std::string beginning_of(const PartType& type) {
  return "type " + std::string(circuit::keyword(type.kind)) + " " + type.name;
}

}  // namespace

std::string write_type(const PartType& type) {
  std::string line = beginning_of(type);
  for (const std::string& pair : pairs_of(type, exact)) line += " " + pair;
  return line + "\n";
}

std::string write_short_type(const PartType& type) {
  constexpr std::size_t widest = 100;
  std::string text = beginning_of(type);
  std::size_t column = text.size();
  for (const std::string& pair : pairs_of(type, brief)) {
    const bool fits = column + 1 + pair.size() <= widest;
    text += fits ? " " + pair : "\n  " + pair;
    column = (fits ? column + 1 : 2) + pair.size();
  }
  return text + "\n";
}

}  // namespace idlepoint::language
