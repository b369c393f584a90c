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
template <class Real>
struct BasicDiodeData {
  Real saturation_current_a = Real(0.0);  ///< > 0.
  Real ideality = Real(1.0);              ///< > 0, usually 1 to 2.
  Real series_resistance_ohm = Real(0.0);
  std::optional<Real> zener_voltage_v =
      std::nullopt;                       ///< > 0: the sheet's voltage at its test current.
  Real zener_test_current_a = Real(0.0);  ///< > 0 where a zener voltage is given.
  Real zener_ideality = Real(1.0);
  Real zener_tempco_per_k = Real(0.0);
  Real temperature_power = Real(3.0);
  Real band_gap_ev = Real(1.206);
  Real measured_at_k = Real(298.15);
};
using DiodeData = BasicDiodeData<double>;

/// The law's numbers at one temperature.
template <class Real>
struct BasicDiodeAt {
  BasicJunctionAt<Real> forward;
  bool has_zener = false;
  Real zener_v = Real(0.0);
  Real zener_v_per_k = Real(0.0);
  Real zener_test_a = Real(0.0);
  Real zener_scale_v = Real(1.0);
  Real zener_scale_v_per_k = Real(0.0);
};
using DiodeAt = BasicDiodeAt<double>;

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
