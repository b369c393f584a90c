// The diode: junction, series resistance, breakdown (zener), several junctions in one body.
//
// Used by the solver for `diode` parts. The series resistance is not in this law: the solver gives
// it a conductance of its own (`junctions` times `series_resistance_ohm`) and an inner point.
// Source: [Shockley1949]; breakdown term as docs/models.md states it.
#pragma once

#include <optional>

#include "devices/junction.hpp"

namespace idlepoint::devices {

/// What a types file says of a diode, SI units, at `measured_at_k`.
struct DiodeData {
  double saturation_current_a = 0.0;  ///< > 0.
  double ideality = 1.0;              ///< > 0, usually 1 to 2.
  double series_resistance_ohm = 0.0;
  std::optional<double> zener_voltage_v =
      std::nullopt;                   ///< > 0: the sheet's voltage at its test current.
  double zener_test_current_a = 0.0;  ///< > 0 where a zener voltage is given.
  double zener_ideality = 1.0;
  double zener_tempco_per_k = 0.0;
  double temperature_power = 3.0;
  double band_gap_ev = 1.206;
  double measured_at_k = 298.15;
};

/// The law's numbers at one temperature.
struct DiodeAt {
  JunctionAt forward;
  bool has_zener = false;
  double zener_v = 0.0;
  double zener_v_per_k = 0.0;
  double zener_test_a = 0.0;
  double zener_scale_v = 1.0;
  double zener_scale_v_per_k = 0.0;
};

[[nodiscard]] DiodeAt diode_at(const DiodeData& data, double temperature_k) noexcept;

/// Current of ONE junction at the voltage behind its series resistance.
[[nodiscard]] JunctionTangent evaluate_diode(const DiodeAt& at, double junction_v) noexcept;

/// The saturation current with which one junction (series resistance included) drops `vf_v` at
/// `current_a` and T0. Negative or zero where no such current exists (the resistance alone drops
/// more).
[[nodiscard]] double saturation_current_from_vf(const DiodeData& data,
                                                double vf_v,
                                                double current_a) noexcept;

}  // namespace idlepoint::devices
