// Bipolar transistors, silicon and germanium.
#include <fmt/format.h>

#include <cmath>

#include "answers/fit_classes.hpp"
#include "values/format.hpp"

namespace idlepoint::answers {

using circuit::PointQuantity;
using circuit::TypePoint;
using circuit::TypePoints;
using values::format_value;
using values::Unit;

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
       .lacking = "no gain at large currents"},
      {.field = "recombination_current",
       .stands = Stands::crossing,
       .usual = 1e-6 * most_a,
       .width = 2.5,
       .low = 1e-12 * most_a,
       .high = most_a,
       .is_left_out = true,
       .basis = "",
       .lacking = "no gain at small currents"},
      {.field = "collector_resistance",
       .usual = 0.4 / most_a,
       .width = 1.0,
       .low = 1e-4 / most_a,
       .high = 20.0 / most_a,
       .basis = "0.4 V at the largest current",
       .lacking = "no `vce_sat` at a current large enough"},
      {.field = "emitter_resistance",
       .usual = 0.15 / most_a,
       .width = 1.0,
       .low = 1e-4 / most_a,
       .high = 5.0 / most_a,
       .basis = "0.15 V at the largest current",
       .lacking = "no base-emitter voltage at a current large enough"},
      {.field = "base_resistance",
       .usual = 18.0 / most_a,
       .width = 1.0,
       .low = 1e-2 / most_a,
       .high = 1e3 / most_a,
       .basis = "18 V divided by the largest current",
       .lacking = "no base-emitter voltage with much base current"},
      {.field = "early_voltage",
       .usual = 100.0,
       .width = 0.8,
       .low = 3.0,
       .high = 1e4,
       .basis = "common among transistors",
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

}  // namespace idlepoint::answers
