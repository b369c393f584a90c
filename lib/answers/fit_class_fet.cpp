// Junction FETs and power MOSFETs.
#include <fmt/format.h>

#include "answers/fit_classes.hpp"

namespace idlepoint::answers {

using circuit::PointQuantity;
using circuit::TypePoint;
using circuit::TypePoints;

namespace {

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

}  // namespace

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

}  // namespace idlepoint::answers
