// The bipolar transistor: integral charge control at DC, with the reverse breakdown of its emitter.
//
// Used by the solver for `npn` and `pnp` parts, as an npn: the caller mirrors a pnp. The three
// terminal resistances are not in this law; the solver gives them conductances and inner points.
// Source: [GummelPoon1970] in docs/sources.md, its DC part alone; symbols as in docs/models.md.
#pragma once

#include <optional>

#include "devices/junction.hpp"

namespace idlepoint::devices {

/// What a types file says of a bipolar transistor, SI units, at `measured_at_k`. An empty optional
/// drops its term.
template <class Real>
struct BasicBipolarData {
  Real saturation_current_a = Real(0.0);  ///< Is > 0.
  Real gain = Real(0.0);                  ///< B > 0.
  Real inverse_gain = Real(2.0);          ///< Bi > 0.
  Real ideality = Real(1.0);
  Real inverse_ideality = Real(1.0);
  std::optional<Real> early_voltage_v = std::nullopt;
  std::optional<Real> inverse_early_voltage_v = std::nullopt;
  std::optional<Real> knee_current_a = std::nullopt;
  std::optional<Real> inverse_knee_current_a = std::nullopt;
  Real recombination_current_a = Real(0.0);
  Real recombination_ideality = Real(2.0);
  Real collector_recombination_current_a = Real(0.0);
  Real collector_recombination_ideality = Real(2.0);
  Real cutoff_current_a = Real(0.0);
  Real cutoff_doubles_every_k = Real(10.0);
  Real base_resistance_ohm = Real(0.0);
  Real collector_resistance_ohm = Real(0.0);
  Real emitter_resistance_ohm = Real(0.0);
  std::optional<Real> emitter_base_breakdown_voltage_v = std::nullopt;
  Real gain_temperature_power = Real(1.5);
  Real temperature_power = Real(3.0);
  Real band_gap_ev = Real(1.206);
  Real measured_at_k = Real(298.15);
};
using BipolarData = BasicBipolarData<double>;

/// The law's numbers at one temperature.
template <class Real>
struct BasicBipolarAt {
  BasicScaled<Real> saturation_a;  ///< Is(T).
  BasicScaled<Real> gain;          ///< B(T).
  BasicScaled<Real> inverse_gain;  ///< Bi(T).
  BasicScaled<Real> thermal_v;     ///< U = kT/q.
  Real ideality = Real(1.0);
  Real inverse_ideality = Real(1.0);
  Real per_early_v = Real(0.0);          ///< 1/Ua, 0 where not given.
  Real per_inverse_early_v = Real(0.0);  ///< 1/Ui.
  Real per_knee_a = Real(0.0);           ///< 1/Ik.
  Real per_inverse_knee_a = Real(0.0);   ///< 1/Iki.
  BasicScaled<Real> recombination_a;     ///< I2(T).
  Real recombination_ideality = Real(2.0);
  BasicScaled<Real> collector_recombination_a;  ///< I3(T).
  Real collector_recombination_ideality = Real(2.0);
  BasicScaled<Real> cutoff_a;  ///< Ico(T).
  bool has_breakdown = false;
  Real breakdown_v = Real(0.0);  ///< Uebo.
};
using BipolarAt = BasicBipolarAt<double>;

/// Currents into base and collector of an npn (the emitter's is minus their sum) at the inner
/// junction voltages, and all slopes.
template <class Real>
struct BasicBipolarTangent {
  Real collector_a = Real(0.0);
  Real base_a = Real(0.0);
  Real collector_by_ube_s = Real(0.0);
  Real collector_by_ubc_s = Real(0.0);
  Real base_by_ube_s = Real(0.0);
  Real base_by_ubc_s = Real(0.0);
  Real collector_a_per_k = Real(0.0);
  Real base_a_per_k = Real(0.0);
  Real forward_a = Real(0.0);  ///< f, for the words "conducting", "bottomed", "reversed".
  Real reverse_a = Real(0.0);  ///< r.
  Mask<Real> in_range =
      Mask<Real>(true);  ///< False where w or the charge were continued outside the law.
  Mask<Real> in_breakdown =
      Mask<Real>(false);  ///< Base-emitter junction carries 1 uA or more backwards.
};
using BipolarTangent = BasicBipolarTangent<double>;

[[nodiscard]] BipolarAt bipolar_at(const BipolarData& data, double temperature_k) noexcept;

[[nodiscard]] BipolarTangent evaluate_bipolar(const BipolarAt& at,
                                              double ube_v,
                                              double ubc_v) noexcept;

/// The saturation current with which the type at T0, collector and base joined, takes `current_a`
/// into the joined lead at `vbe_v` (terminal voltage, resistances included), its other fields as
/// given. Empty where there is none.
[[nodiscard]] std::optional<double> saturation_current_from_vbe(const BipolarData& data,
                                                                double vbe_v,
                                                                double current_a);

}  // namespace idlepoint::devices
