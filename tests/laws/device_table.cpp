#include "laws/device_table.hpp"

namespace idlepoint::laws {

using devices::BipolarData;
using devices::DiodeData;
using devices::FetData;

const std::vector<Named<BipolarData>>& bipolar_table() {
  static const std::vector<Named<BipolarData>> table{
      {"bare", {.saturation_current_a = 1e-14, .gain = 100.0}},
      {"early and knees",
       {.saturation_current_a = 3e-12,
        .gain = 70.0,
        .inverse_gain = 3.0,
        .early_voltage_v = 80.0,
        .inverse_early_voltage_v = 14.0,
        .knee_current_a = 4.0,
        .inverse_knee_current_a = 0.5}},
      {"every term",
       {.saturation_current_a = 2e-13,
        .gain = 150.0,
        .inverse_gain = 4.0,
        .ideality = 1.02,
        .inverse_ideality = 1.04,
        .early_voltage_v = 110.0,
        .inverse_early_voltage_v = 20.0,
        .knee_current_a = 1.5,
        .inverse_knee_current_a = 0.2,
        .recombination_current_a = 4e-12,
        .recombination_ideality = 1.8,
        .collector_recombination_current_a = 6e-12,
        .collector_recombination_ideality = 1.6,
        .cutoff_current_a = 20e-9,
        .cutoff_doubles_every_k = 9.0,
        .emitter_base_breakdown_voltage_v = 7.5,
        .gain_temperature_power = 1.7,
        .temperature_power = 3.4,
        .band_gap_ev = 1.19,
        .measured_at_k = 300.0}},
      {"germanium",
       {.saturation_current_a = 2e-7,
        .gain = 60.0,
        .inverse_gain = 10.0,
        .early_voltage_v = 60.0,
        .knee_current_a = 1.0,
        .cutoff_current_a = 6e-6,
        .gain_temperature_power = 0.0,
        .band_gap_ev = 0.74}},
      {"weak at small currents",
       {.saturation_current_a = 5e-15,
        .gain = 300.0,
        .recombination_current_a = 1e-13,
        .emitter_base_breakdown_voltage_v = 6.2}},
  };
  return table;
}

const std::vector<Named<DiodeData>>& diode_table() {
  static const std::vector<Named<DiodeData>> table{
      {"bare", {.saturation_current_a = 1e-13}},
      {"small signal", {.saturation_current_a = 4e-9, .ideality = 1.9}},
      {"germanium", {.saturation_current_a = 1e-6, .ideality = 1.1, .band_gap_ev = 0.74}},
      {"zener 5.6 V",
       {.saturation_current_a = 1e-13,
        .ideality = 1.05,
        .zener_voltage_v = 5.6,
        .zener_test_current_a = 5e-3,
        .zener_ideality = 1.5,
        .zener_tempco_per_k = 300e-6}},
      {"zener 2.4 V, soft",
       {.saturation_current_a = 1e-13,
        .zener_voltage_v = 2.4,
        .zener_test_current_a = 5e-3,
        .zener_ideality = 6.0,
        .zener_tempco_per_k = -700e-6,
        .measured_at_k = 300.0}},
  };
  return table;
}

const std::vector<Named<FetData>>& fet_table() {
  static const std::vector<Named<FetData>> table{
      {"power mosfet",
       {.threshold_voltage_v = 3.2,
        .current_factor_a_per_v2 = 4.0,
        .drain_slope_per_v = 0.01,
        .body_diode_a = 1e-12}},
      {"lateral mosfet",
       {.threshold_voltage_v = 0.5,
        .current_factor_a_per_v2 = 1.8,
        .slope_factor = 1.4,
        .threshold_tempco_v_per_k = -1e-3,
        .current_factor_temperature_power = 2.0,
        .measured_at_k = 300.0}},
      {"small jfet",
       {.is_junction = true,
        .threshold_voltage_v = -2.5,
        .current_factor_a_per_v2 = 1.6e-3,
        .drain_slope_per_v = 0.02,
        .threshold_tempco_v_per_k = -2e-3}},
  };
  return table;
}

}  // namespace idlepoint::laws
