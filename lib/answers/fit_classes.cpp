#include "answers/fit_classes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "values/constants.hpp"
#include "values/format.hpp"

namespace idlepoint::answers {

using circuit::PointQuantity;
using circuit::TypePoint;
using circuit::TypePoints;
using values::Unit;

double thermal_v(const Law& law) {
  return std::visit([](const auto& data) { return values::thermal_voltage_v(data.measured_at_k); },
                    law);
}

namespace {

/// The first condition of a quantity that is a current, if it is.
double current_of(const TypePoint& point) {
  return circuit::facts(point.quantity).conditions[0].unit == Unit::ampere ? point.at[0] : 0.0;
}

}  // namespace

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

std::string amperes(double a) { return values::format_value(a, values::Unit::ampere, 2); }

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
       .lacking = "no two forward voltages at currents far enough apart"}};
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
  list.push_back({.field = "series_resistance",
                  .usual = 0.1 / most_a,
                  .width = 1.2,
                  .low = 1e-5 / most_a,
                  .high = 10.0 / most_a,
                  .basis = "0.1 V at the largest current",
                  .lacking = "no third forward voltage at a current large enough"});
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

}  // namespace idlepoint::answers
