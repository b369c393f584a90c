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
template <class Real>
struct BasicFetData {
  bool is_junction = false;                  ///< True: jfet, with gate junctions; false: mosfet.
  Real threshold_voltage_v = Real(0.0);      ///< Ut.
  Real current_factor_a_per_v2 = Real(0.0);  ///< K > 0.
  Real slope_factor = Real(1.0);             ///< n; 1 for a jfet.
  Real drain_slope_per_v = Real(0.0);        ///< a.
  Real source_resistance_ohm = Real(0.0);
  Real drain_resistance_ohm = Real(0.0);
  Real threshold_tempco_v_per_k = Real(-5e-3);
  Real current_factor_temperature_power = Real(1.5);
  Real gate_leakage_current_a = Real(10e-12);  ///< jfet only: each gate junction's Is.
  Real body_diode_a = Real(0.0);               ///< mosfet only; 0: none.
  Real temperature_power = Real(3.0);
  Real band_gap_ev = Real(1.206);
  Real measured_at_k = Real(298.15);
};
using FetData = BasicFetData<double>;

/// A FET of whose fields nothing is known yet: each at its default.
[[nodiscard]] inline FetData usual_fet(bool is_junction) noexcept {
  FetData data;
  data.is_junction = is_junction;
  if (is_junction) data.threshold_tempco_v_per_k = -2e-3;
  return data;
}

/// The law's numbers at one temperature.
template <class Real>
struct BasicFetAt {
  bool is_junction = false;
  Real threshold_v = Real(0.0);
  Real threshold_v_per_k = Real(0.0);
  Real factor_a_per_v2 = Real(0.0);
  Real factor_per_k = Real(0.0);
  Real slope_factor = Real(1.0);
  Real drain_slope_per_v = Real(0.0);
  Real thermal_v = Real(0.0);
  Real thermal_v_per_k = Real(0.0);
  BasicJunctionAt<Real> diode;  ///< Each gate junction (jfet) or the body diode (mosfet).
  bool has_diode = false;
};
using FetAt = BasicFetAt<double>;

/// Drain current of the channel alone, at the inner voltages, with all slopes. The diodes are
/// evaluated by `evaluate_junction(at.diode, ...)`: gate to source and gate to drain for a jfet,
/// source to drain for a mosfet.
template <class Real>
struct BasicFetTangent {
  Real drain_a = Real(0.0);
  Real by_ugs_s = Real(0.0);
  Real by_uds_s = Real(0.0);
  Real drain_a_per_k = Real(0.0);
  Real forward_a = Real(0.0);  ///< First term of the drain law times its factor.
  Real reverse_a = Real(0.0);  ///< Second term.
};
using FetTangent = BasicFetTangent<double>;

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
