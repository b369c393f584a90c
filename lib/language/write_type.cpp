// The statement of a part type: every field that has a value, the spread beside it.
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

std::string pair(const std::string& key, const std::optional<double>& value, Unit unit) {
  return value ? " " + key + "=" + write_value(*value, unit) : std::string();
}

template <class Fields, class Data>
std::string write_fields(const Fields& fields, const PartType& type, const Data& data) {
  std::string text;
  for (const auto& field : fields) {
    if (!circuit::belongs(field.only, type.kind)) continue;
    const std::string name(field.name);
    const std::optional<double> value = std::visit(
        [&data](auto member) -> std::optional<double> { return data.*member; }, field.member);
    // A test current means something beside a zener voltage only.
    if (field.range == Range::positive && value && *value <= 0.0) continue;
    text += pair(name, value, field.unit);
    const auto spread = type.spreads.find(name);
    if (spread == type.spreads.end()) continue;
    text += pair(name + ".min", spread->second.min, field.unit);
    text += pair(name + ".max", spread->second.max, field.unit);
  }
  return text;
}

std::string write_law(const PartType& type) {
  if (const auto* diode = std::get_if<devices::DiodeData>(&type.law)) {
    return write_fields(circuit::diode_fields(), type, *diode);
  }
  if (const auto* bipolar = std::get_if<devices::BipolarData>(&type.law)) {
    return write_fields(circuit::bipolar_fields(), type, *bipolar);
  }
  return write_fields(circuit::fet_fields(), type, std::get<devices::FetData>(type.law));
}

std::string write_ratings(const PartType& type) {
  std::string text;
  for (const circuit::RatingField& field : circuit::rating_fields(type.kind)) {
    const std::optional<double> value =
        std::visit([&type](auto member) -> std::optional<double> { return type.ratings.*member; },
                   field.member);
    text += pair(std::string(field.name), value, field.unit);
  }
  std::string area;
  for (const auto& point : type.ratings.safe_area) {
    area += (area.empty() ? "" : ",") + write_value(point.voltage_v, Unit::volt) + ":" +
            write_value(point.current_a, Unit::ampere);
  }
  if (!area.empty()) text += " safe_area=" + area;
  if (!type.ratings.case_style.empty()) text += " case_style=" + in_quotes(type.ratings.case_style);
  return text;
}

}  // namespace

std::string write_type(const PartType& type) {
  std::string line = "type " + std::string(circuit::keyword(type.kind)) + " " + type.name;
  line += write_law(type) + write_ratings(type);
  if (!type.source.empty()) line += " source=" + in_quotes(type.source);
  return line + "\n";
}

}  // namespace idlepoint::language
