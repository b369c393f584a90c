#include "answers/fit_parameters.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>

#include "values/constants.hpp"
#include "values/format.hpp"

namespace idlepoint::answers {
namespace {

using circuit::PartKind;
using circuit::PointQuantity;
using circuit::TypePoint;
using circuit::TypePoints;
using values::format_value;
using values::Unit;

double thermal_v(const Law& law) {
  return std::visit([](const auto& data) { return values::thermal_voltage_v(data.measured_at_k); },
                    law);
}

/// The first condition of a quantity that is a current, if it is.
double current_of(const TypePoint& point) {
  return circuit::facts(point.quantity).conditions[0].unit == Unit::ampere ? point.at[0] : 0.0;
}

/// The largest current the part is made for; ten times the largest of its points where the sheet's
/// limit is not given.
double size_a(const TypePoints& asked) {
  if (asked.type.ratings.max_current_a) return *asked.type.ratings.max_current_a;
  double largest_a = 0.0;
  for (const TypePoint& point : asked.points) {
    largest_a = std::max(largest_a, current_of(point));
    const bool is_current = circuit::facts(point.quantity).unit == Unit::ampere;
    if (is_current && circuit::is_fet(asked.type.kind)) {
      largest_a = std::max(largest_a, point.value.value_or(point.max.value_or(0.0)));
    }
  }
  return largest_a > 0.0 ? 10.0 * largest_a : 1.0;
}

const TypePoint* first_of(const TypePoints& asked, PointQuantity quantity) {
  for (const TypePoint& point : asked.points) {
    if (point.quantity == quantity) return &point;
  }
  return nullptr;
}

double aim_of(const TypePoint& point) {
  if (point.value) return *point.value;
  if (point.min && point.max) return 0.5 * (*point.min + *point.max);
  return point.min ? *point.min : *point.max;
}

bool at_two_temperatures(const TypePoints& asked, std::initializer_list<PointQuantity> quantities) {
  const double t0_k =
      std::visit([](const auto& data) { return data.measured_at_k; }, asked.type.law);
  double low_k = 0.0;
  double high_k = 0.0;
  for (const TypePoint& point : asked.points) {
    if (std::find(quantities.begin(), quantities.end(), point.quantity) == quantities.end())
      continue;
    const double k = point.temperature_k.value_or(t0_k);
    low_k = low_k == 0.0 ? k : std::min(low_k, k);
    high_k = std::max(high_k, k);
  }
  return high_k > low_k;
}

std::string amperes(double a) { return format_value(a, Unit::ampere, 2); }

constexpr const char* size_words = "ordinary for its size";

std::vector<FitParameter> bipolar_parameters(const TypePoints& asked) {
  const auto& law = std::get<devices::BipolarData>(asked.type.law);
  const double most_a = size_a(asked);
  const bool is_germanium = law.band_gap_ev < 0.95;
  const double usual_v = is_germanium ? 0.15 : 0.60;
  const double at_a = most_a / 300.0;
  const double is_a = at_a * std::exp(-usual_v / (law.ideality * thermal_v(asked.type.law)));
  const double usual_gain = most_a < 1.0 ? 150.0 : 70.0;
  std::vector<FitParameter> list = {
      {.field = "saturation_current",
       .usual = is_a,
       .width = 2.5,
       .low = is_a * 1e-8,
       .high = is_a * 1e8,
       .basis = fmt::format(
           "{} at {}, {}", format_value(usual_v, Unit::volt, 2), amperes(at_a), size_words),
       .lacking = "no reading of the base-emitter voltage"},
      {.field = "gain",
       .usual = usual_gain,
       .width = 1.0,
       .low = 0.5,
       .high = 5e4,
       .basis = size_words,
       .lacking = "no reading of the gain"},
      {.field = "knee_current",
       .usual = 0.5 * most_a,
       .width = 1.2,
       .low = 1e-4 * most_a,
       .high = 1e3 * most_a,
       .basis = "half of the largest current",
       .lacking = "no point that shows the gain fall at large currents"},
      {.field = "recombination_current",
       .stands = Stands::crossing,
       .usual = 1e-6 * most_a,
       .width = 2.5,
       .low = 1e-12 * most_a,
       .high = most_a,
       .is_left_out = true,
       .basis = "",
       .lacking = "no point that shows the gain fall at small currents"},
      {.field = "emitter_resistance",
       .usual = 0.15 / most_a,
       .width = 1.0,
       .low = 1e-4 / most_a,
       .high = 5.0 / most_a,
       .basis = "0.15 V at the largest current",
       .lacking = "no base-emitter voltage at a current large enough"},
      {.field = "collector_resistance",
       .usual = 0.4 / most_a,
       .width = 1.0,
       .low = 1e-4 / most_a,
       .high = 20.0 / most_a,
       .basis = "0.4 V at the largest current",
       .lacking = "no `vce_sat` at a current large enough"},
      {.field = "base_resistance",
       .usual = 18.0 / most_a,
       .width = 1.0,
       .low = 1e-2 / most_a,
       .high = 1e3 / most_a,
       .basis = "18 V over the largest current",
       .lacking = "no base-emitter voltage with much base current"},
      {.field = "early_voltage",
       .usual = 100.0,
       .width = 0.8,
       .low = 3.0,
       .high = 1e4,
       .basis = "common among silicon transistors",
       .lacking = "no two points at different collector voltages"}};
  if (const TypePoint* leak = first_of(asked, PointQuantity::icbo)) {
    const double aim_a = aim_of(*leak);
    list.push_back({.field = "cutoff_current",
                    .usual = aim_a,
                    .width = 2.0,
                    .low = aim_a * 1e-6,
                    .high = aim_a * 1e4,
                    .is_left_out = true,
                    .basis = "",
                    .lacking = "only a limit of the cut-off current"});
    if (at_two_temperatures(asked, {PointQuantity::icbo})) {
      list.push_back({.field = "cutoff_doubles_every",
                      .is_logarithmic = false,
                      .usual = 10.0,
                      .width = 2.0,
                      .low = 3.0,
                      .high = 30.0,
                      .is_left_out = true,
                      .basis = "",
                      .lacking = "no `icbo` at two temperatures"});
    }
  }
  if (at_two_temperatures(asked, {PointQuantity::gain})) {
    list.push_back({.field = "gain_temperature_power",
                    .is_logarithmic = false,
                    .usual = 1.5,
                    .width = 1.0,
                    .low = -3.0,
                    .high = 6.0,
                    .is_left_out = true,
                    .basis = "",
                    .lacking = "no gain at two temperatures"});
  }
  if (at_two_temperatures(asked, {PointQuantity::vbe})) {
    list.push_back({.field = "band_gap",
                    .is_logarithmic = false,
                    .usual = law.band_gap_ev,
                    .width = 0.03,
                    .low = law.band_gap_ev - 0.25,
                    .high = law.band_gap_ev + 0.25,
                    .is_left_out = true,
                    .basis = "",
                    .lacking = "no base-emitter voltage at two temperatures"});
  }
  return list;
}

std::vector<FitParameter> diode_parameters(const TypePoints& asked) {
  const auto& law = std::get<devices::DiodeData>(asked.type.law);
  const double most_a = size_a(asked);
  const TypePoint* breakdown = first_of(asked, PointQuantity::vz);
  const bool is_zener = breakdown != nullptr || law.zener_voltage_v.has_value();
  const double usual_ideality = asked.given.contains("ideality") ? law.ideality
                                : is_zener                       ? 1.1
                                                                 : 1.8;
  const double at_a = most_a / 30.0;
  const double is_a = at_a * std::exp(-0.70 / (usual_ideality * thermal_v(asked.type.law)));
  std::vector<FitParameter> list = {
      {.field = "saturation_current",
       .usual = is_a,
       .width = 4.0,
       .low = is_a * 1e-14,
       .high = is_a * 1e10,
       .basis = fmt::format("0.70 V at {}, {}", amperes(at_a), size_words),
       .lacking = "no reading of the forward voltage"},
      {.field = "ideality",
       .usual = usual_ideality,
       .width = 0.8,
       .low = 0.5,
       .high = 8.0,
       .basis = is_zener ? "common among zener diodes" : "common among small silicon diodes",
       .lacking = "no two forward voltages at currents far enough apart"},
      {.field = "series_resistance",
       .usual = 0.1 / most_a,
       .width = 1.2,
       .low = 1e-5 / most_a,
       .high = 10.0 / most_a,
       .basis = "0.1 V at the largest current",
       .lacking = "no third forward voltage at a current large enough"}};
  if (breakdown != nullptr) {
    const double aim_v = aim_of(*breakdown);
    list.push_back({.field = "zener_voltage",
                    .usual = aim_v,
                    .width = 0.5,
                    .low = 0.3 * aim_v,
                    .high = 3.0 * aim_v,
                    .basis = "the limit of the sheet",
                    .lacking = "only a limit of the breakdown voltage"});
    list.push_back({.field = "zener_ideality",
                    .usual = 2.0,
                    .width = 1.0,
                    .low = 0.1,
                    .high = 200.0,
                    .basis = "common among zener diodes",
                    .lacking = "no two breakdown voltages at different currents"});
    if (at_two_temperatures(asked, {PointQuantity::vz})) {
      list.push_back({.field = "zener_tempco",
                      .is_logarithmic = false,
                      .usual = 0.0,
                      .width = 5e-4,
                      .low = -5e-3,
                      .high = 5e-3,
                      .is_left_out = true,
                      .basis = "",
                      .lacking = "no breakdown voltage at two temperatures"});
    }
  }
  if (at_two_temperatures(asked, {PointQuantity::vf})) {
    list.push_back({.field = "band_gap",
                    .is_logarithmic = false,
                    .usual = law.band_gap_ev,
                    .width = 0.1,
                    .low = law.band_gap_ev - 0.5,
                    .high = law.band_gap_ev + 0.5,
                    .is_left_out = true,
                    .basis = "",
                    .lacking = "no forward voltage at two temperatures"});
  }
  return list;
}

void add_fet_temperature(const TypePoints& asked, std::vector<FitParameter>& list) {
  const auto& law = std::get<devices::FetData>(asked.type.law);
  if (!at_two_temperatures(asked, {PointQuantity::vgs, PointQuantity::id, PointQuantity::idss}))
    return;
  list.push_back({.field = "threshold_tempco",
                  .is_logarithmic = false,
                  .usual = law.threshold_tempco_v_per_k,
                  .width = 2e-3,
                  .low = -20e-3,
                  .high = 20e-3,
                  .is_left_out = true,
                  .basis = "",
                  .lacking = "no points at two temperatures"});
  list.push_back({.field = "current_factor_temperature_power",
                  .is_logarithmic = false,
                  .usual = 1.5,
                  .width = 0.5,
                  .low = -1.0,
                  .high = 4.0,
                  .is_left_out = true,
                  .basis = "",
                  .lacking = "no large and small currents at two temperatures"});
}

std::vector<FitParameter> junction_fet_parameters(const TypePoints& asked) {
  const TypePoint* full = first_of(asked, PointQuantity::idss);
  const double most_a = full != nullptr ? aim_of(*full) : 0.1 * size_a(asked);
  const double usual_v = 2.0;
  std::vector<FitParameter> list = {
      {.field = "threshold_voltage",
       .stands = Stands::negative,
       .usual = usual_v,
       .width = 0.8,
       .low = 0.05,
       .high = 30.0,
       .basis = "common among small junction FETs",
       .lacking = "no gate-source voltage at a current well below IDSS"},
      {.field = "current_factor",
       .stands = Stands::idss,
       .usual = most_a,
       .width = 1.5,
       .low = most_a * 1e-3,
       .high = most_a * 1e3,
       .basis = fmt::format("an IDSS of {}, {}", amperes(most_a), size_words),
       .lacking = "no drain current"},
      {.field = "drain_slope",
       .usual = 0.01,
       .width = 1.0,
       .low = 1e-5,
       .high = 0.5,
       .basis = "common among small junction FETs",
       .lacking = "no two points at different drain voltages"},
      {.field = "source_resistance",
       .usual = 0.03 * usual_v / most_a,
       .width = 1.2,
       .low = 1e-4 * usual_v / most_a,
       .high = 0.5 * usual_v / most_a,
       .is_left_out = true,
       .basis = "",
       .lacking = "no third gate-source voltage"}};
  add_fet_temperature(asked, list);
  return list;
}

std::vector<FitParameter> mosfet_parameters(const TypePoints& asked) {
  const double most_a = size_a(asked);
  std::vector<FitParameter> list = {
      {.field = "threshold_voltage",
       .is_logarithmic = false,
       .usual = 3.0,
       .width = 2.0,
       .low = -10.0,
       .high = 20.0,
       .basis = "common among switching types; lateral audio types have less",
       .lacking = "no gate-source voltage"},
      {.field = "current_factor",
       .usual = most_a / 5.0,
       .width = 1.5,
       .low = most_a * 1e-5,
       .high = most_a * 1e4,
       .basis = size_words,
       .lacking = "no two gate-source voltages at different currents"},
      {.field = "source_resistance",
       .usual = 0.1 / most_a,
       .width = 1.5,
       .low = 1e-4 / most_a,
       .high = 20.0 / most_a,
       .basis = "0.1 V at the largest current",
       .lacking = "no third gate-source voltage at a current large enough"},
      {.field = "drain_resistance",
       .usual = 0.5 / most_a,
       .width = 1.5,
       .low = 1e-4 / most_a,
       .high = 50.0 / most_a,
       .basis = "0.5 V at the largest current",
       .lacking = "no `vds_on` at a current large enough"},
      {.field = "drain_slope",
       .usual = 0.005,
       .width = 1.0,
       .low = 1e-5,
       .high = 0.5,
       .basis = "common among power types",
       .lacking = "no two points at different drain voltages"},
      {.field = "slope_factor",
       .usual = 1.1,
       .width = 0.4,
       .low = 0.8,
       .high = 4.0,
       .is_left_out = true,
       .basis = "",
       .lacking = "no gate-source voltages at very small currents"}};
  add_fet_temperature(asked, list);
  return list;
}

std::vector<FitParameter> all_parameters(const TypePoints& asked) {
  if (asked.type.kind == PartKind::diode) return diode_parameters(asked);
  if (circuit::is_bipolar(asked.type.kind)) return bipolar_parameters(asked);
  const bool is_junction = std::get<devices::FetData>(asked.type.law).is_junction;
  return is_junction ? junction_fet_parameters(asked) : mosfet_parameters(asked);
}

/// What the variable is as the field's own number.
double field_number(const Law& law, const FitParameter& parameter, double value) {
  switch (parameter.stands) {
    case Stands::plain:
      break;
    case Stands::negative:
      return -value;
    case Stands::crossing: {
      // At the crossing f = value, so U_be = m U ln(value / Is).
      const auto& data = std::get<devices::BipolarData>(law);
      return value / data.gain *
             std::pow(data.saturation_current_a / value,
                      data.ideality / data.recombination_ideality);
    }
    case Stands::idss:
      return devices::current_factor_from_idss(value,
                                               std::get<devices::FetData>(law).threshold_voltage_v);
  }
  return value;
}

template <class Data>
MemberOf<Data> member_named(std::span<const circuit::TypeField<Data>> fields,
                            std::string_view name) {
  for (const auto& field : fields) {
    if (field.name == name) return field.member;
  }
  assert(false && "a variable of the fit that is no field of the law");
  return fields.front().member;
}

LawMember member_of(const Law& law, std::string_view name) {
  if (std::holds_alternative<devices::DiodeData>(law)) {
    return member_named(circuit::diode_fields(), name);
  }
  if (std::holds_alternative<devices::BipolarData>(law)) {
    return member_named(circuit::bipolar_fields(), name);
  }
  return member_named(circuit::fet_fields(), name);
}

}  // namespace

std::vector<FitParameter> fit_parameters(const TypePoints& asked) {
  std::vector<FitParameter> list = all_parameters(asked);
  std::erase_if(list, [&](const FitParameter& parameter) {
    return asked.given.contains(std::string(parameter.field));
  });
  for (FitParameter& parameter : list) {
    parameter.member = member_of(asked.type.law, parameter.field);
  }
  return list;
}

double value_at(const FitParameter& parameter, double u) {
  return parameter.is_logarithmic ? parameter.usual * std::exp(parameter.width * u)
                                  : parameter.usual + parameter.width * u;
}

double u_of(const FitParameter& parameter, double value) {
  return parameter.is_logarithmic ? std::log(value / parameter.usual) / parameter.width
                                  : (value - parameter.usual) / parameter.width;
}

void store(Law& law, const FitParameter& parameter, double value) {
  const double number = field_number(law, parameter, value);
  std::visit(
      [&]<class Data>(const MemberOf<Data>& member) {
        std::visit([&](auto where) { std::get<Data>(law).*where = number; }, member);
      },
      parameter.member);
}

}  // namespace idlepoint::answers
