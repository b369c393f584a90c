#include "circuit/type_points.hpp"

#include <cassert>

#include "values/format.hpp"

namespace idlepoint::circuit {
namespace {

using values::Range;
using values::Unit;
using enum PointQuantity;

// Usual conditions: common practice, no source.
constexpr double usual_vce_v = 5.0;
constexpr double usual_vds_v = 10.0;

constexpr PointCondition none{};
constexpr PointCondition amperes(std::string_view key) {
  return {key, Unit::ampere, Range::positive, std::nullopt};
}
constexpr PointCondition volts(std::string_view key,
                               std::optional<double> usual = std::nullopt,
                               Range range = Range::positive) {
  return {key, Unit::volt, range, usual};
}
constexpr PointCondition vce = volts("vce", usual_vce_v);
constexpr PointCondition vds = volts("vds", usual_vds_v);
constexpr PointCondition gate = volts("vgs", std::nullopt, Range::any);

constexpr auto table = std::to_array<QuantityFacts>({
    {vbe, "vbe", PointKinds::bipolar, Unit::volt, Range::positive, {amperes("ic"), vce}},
    {gain, "gain", PointKinds::bipolar, Unit::none, Range::positive, {amperes("ic"), vce}},
    {vce_sat,
     "vce_sat",
     PointKinds::bipolar,
     Unit::volt,
     Range::positive,
     {amperes("ic"), amperes("ib")}},
    {vbe_sat,
     "vbe_sat",
     PointKinds::bipolar,
     Unit::volt,
     Range::positive,
     {amperes("ic"), amperes("ib")}},
    {icbo, "icbo", PointKinds::bipolar, Unit::ampere, Range::positive, {volts("vcb"), none}},
    {vf, "vf", PointKinds::diode, Unit::volt, Range::positive, {amperes("if"), none}},
    {vz, "vz", PointKinds::diode, Unit::volt, Range::positive, {amperes("iz"), none}},
    {ir, "ir", PointKinds::diode, Unit::ampere, Range::positive, {volts("vr"), none}},
    {idss, "idss", PointKinds::junction_fet, Unit::ampere, Range::positive, {vds, none}},
    {vgs, "vgs", PointKinds::fet, Unit::volt, Range::any, {amperes("id"), vds}},
    {id, "id", PointKinds::fet, Unit::ampere, Range::positive, {gate, vds}},
    {vds_on, "vds_on", PointKinds::fet, Unit::volt, Range::positive, {amperes("id"), gate}},
});

}  // namespace

std::span<const QuantityFacts> all_quantities() noexcept { return table; }

const QuantityFacts& facts(PointQuantity quantity) noexcept {
  for (const QuantityFacts& row : table) {
    if (row.quantity == quantity) return row;
  }
  assert(false && "a quantity that is not in the table");
  return table.front();
}

bool belongs(PointKinds kinds, PartKind kind) noexcept {
  switch (kinds) {
    case PointKinds::diode:
      return kind == PartKind::diode;
    case PointKinds::bipolar:
      return is_bipolar(kind);
    case PointKinds::junction_fet:
      return kind == PartKind::n_jfet || kind == PartKind::p_jfet;
    case PointKinds::fet:
      return is_fet(kind);
  }
  return false;
}

std::string point_in_words(const TypePoint& point) {
  const QuantityFacts& row = facts(point.quantity);
  std::string text(row.name);
  std::string_view joint = " at ";
  for (std::size_t index = 0; index < row.conditions.size(); ++index) {
    const PointCondition& condition = row.conditions[index];
    if (condition.key.empty() || point.at_usual[index]) continue;
    text += std::string(joint) + std::string(condition.key) + " " +
            values::format_value(point.at[index], condition.unit);
    joint = ", ";
  }
  if (point.temperature_k) {
    text += ", " + values::format_value(*point.temperature_k, Unit::temperature);
  }
  return text;
}

}  // namespace idlepoint::circuit
