// Junction FET and power MOSFET: one smooth drain law, gate junctions, body diode.
//
// Used by the solver for `n-jfet`, `p-jfet`, `n-mosfet`, `p-mosfet`, as an n kind: the caller
// mirrors a p kind. Source and drain resistances are not in this law.
// Source: [EnzKrummenacherVittoz1995] in docs/sources.md, source-referred form.
#pragma once

#include <optional>

#include "devices/junction.hpp"

namespace idlepoint::devices {

/// What a types file says of a FET, SI units, at `measured_at_k`.
struct FetData {
  bool is_junction = false;              ///< True: jfet, with gate junctions; false: mosfet.
  double threshold_voltage_v = 0.0;      ///< Ut.
  double current_factor_a_per_v2 = 0.0;  ///< K > 0.
  double slope_factor = 1.0;             ///< n; 1 for a jfet.
  double drain_slope_per_v = 0.0;        ///< a.
  double source_resistance_ohm = 0.0;
  double drain_resistance_ohm = 0.0;
  double threshold_tempco_v_per_k = -5e-3;
  double current_factor_temperature_power = 1.5;
  double gate_leakage_current_a = 10e-12;  ///< jfet only: each gate junction's Is.
  double body_diode_a = 0.0;               ///< mosfet only; 0: none.
  double temperature_power = 3.0;
  double band_gap_ev = 1.206;
  double measured_at_k = 298.15;
};

/// The law's numbers at one temperature.
struct FetAt {
  bool is_junction = false;
  double threshold_v = 0.0;
  double threshold_v_per_k = 0.0;
  double factor_a_per_v2 = 0.0;
  double factor_per_k = 0.0;
  double slope_factor = 1.0;
  double drain_slope_per_v = 0.0;
  double thermal_v = 0.0;
  double thermal_v_per_k = 0.0;
  JunctionAt diode;  ///< Each gate junction (jfet) or the body diode (mosfet).
  bool has_diode = false;
};

/// Drain current of the channel alone, at the inner voltages, with all slopes. The diodes are
/// evaluated by `evaluate_junction(at.diode, ...)`: gate to source and gate to drain for a jfet,
/// source to drain for a mosfet.
struct FetTangent {
  double drain_a = 0.0;
  double by_ugs_s = 0.0;
  double by_uds_s = 0.0;
  double drain_a_per_k = 0.0;
  double forward_a = 0.0;  ///< First term of the drain law times its factor.
  double reverse_a = 0.0;  ///< Second term.
};

[[nodiscard]] FetAt fet_at(const FetData& data, double temperature_k) noexcept;

[[nodiscard]] FetTangent evaluate_fet(const FetAt& at, double ugs_v, double uds_v) noexcept;

/// The threshold with which a mosfet at T0, gate and drain joined, takes `current_a` at `vgs_v`
/// (terminal voltage). Empty where there is none.
[[nodiscard]] std::optional<double> threshold_from_vgs(const FetData& data,
                                                       double vgs_v,
                                                       double current_a);

/// K = 2 IDSS / Ut^2 of a junction FET.
[[nodiscard]] double current_factor_from_idss(double idss_a, double threshold_v) noexcept;

}  // namespace idlepoint::devices
