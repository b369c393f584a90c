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
struct BipolarData {
  double saturation_current_a = 0.0;  ///< Is > 0.
  double gain = 0.0;                  ///< B > 0.
  double inverse_gain = 2.0;          ///< Bi > 0.
  double ideality = 1.0;
  double inverse_ideality = 1.0;
  std::optional<double> early_voltage_v = std::nullopt;
  std::optional<double> inverse_early_voltage_v = std::nullopt;
  std::optional<double> knee_current_a = std::nullopt;
  std::optional<double> inverse_knee_current_a = std::nullopt;
  double recombination_current_a = 0.0;
  double recombination_ideality = 2.0;
  double collector_recombination_current_a = 0.0;
  double collector_recombination_ideality = 2.0;
  double cutoff_current_a = 0.0;
  double cutoff_doubles_every_k = 10.0;
  double base_resistance_ohm = 0.0;
  double collector_resistance_ohm = 0.0;
  double emitter_resistance_ohm = 0.0;
  std::optional<double> emitter_base_breakdown_voltage_v = std::nullopt;
  double gain_temperature_power = 1.5;
  double temperature_power = 3.0;
  double band_gap_ev = 1.206;
  double measured_at_k = 298.15;
};

/// A number at one temperature and its slope by temperature.
struct Scaled {
  double value = 0.0;
  double per_k = 0.0;
};

/// The law's numbers at one temperature.
struct BipolarAt {
  Scaled saturation_a;  ///< Is(T).
  Scaled gain;          ///< B(T).
  Scaled inverse_gain;  ///< Bi(T).
  Scaled thermal_v;     ///< U = kT/q.
  double ideality = 1.0;
  double inverse_ideality = 1.0;
  double per_early_v = 0.0;          ///< 1/Ua, 0 where not given.
  double per_inverse_early_v = 0.0;  ///< 1/Ui.
  double per_knee_a = 0.0;           ///< 1/Ik.
  double per_inverse_knee_a = 0.0;   ///< 1/Iki.
  Scaled recombination_a;            ///< I2(T).
  double recombination_ideality = 2.0;
  Scaled collector_recombination_a;  ///< I3(T).
  double collector_recombination_ideality = 2.0;
  Scaled cutoff_a;  ///< Ico(T).
  bool has_breakdown = false;
  double breakdown_v = 0.0;  ///< Uebo.
};

/// Currents into base and collector of an npn (the emitter's is minus their sum) at the inner
/// junction voltages, and all slopes.
struct BipolarTangent {
  double collector_a = 0.0;
  double base_a = 0.0;
  double collector_by_ube_s = 0.0;
  double collector_by_ubc_s = 0.0;
  double base_by_ube_s = 0.0;
  double base_by_ubc_s = 0.0;
  double collector_a_per_k = 0.0;
  double base_a_per_k = 0.0;
  double forward_a = 0.0;     ///< f, for the words "conducting", "bottomed", "reversed".
  double reverse_a = 0.0;     ///< r.
  bool in_range = true;       ///< False where w or the charge were continued outside the law.
  bool in_breakdown = false;  ///< Base-emitter junction carries 1 uA or more backwards.
};

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
