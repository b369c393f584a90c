// The laws of parts without a junction that are not plain ohms: lamp, thermistor, feed.
//
// Source: lamp, the engineering power law of tungsten, [FinkBeaty]; thermistor, the beta law;
// feed, this project's own smooth compliance (docs/models.md).
#pragma once

namespace idlepoint::devices {

template <class Real>
struct BasicLampTangent {
  Real current_a;
  Real conductance_s;  ///< dI/dV.
};
using LampTangent = BasicLampTangent<double>;

/// I = V/R, R = (V0^2/P)((V/V0)^2 + 0.003^2)^0.225. Requires rated values > 0.
[[nodiscard]] LampTangent evaluate_lamp(double rated_v, double rated_w, double voltage_v) noexcept;

template <class Real>
struct BasicFeedTangent {
  Real current_a;
  Real conductance_s;  ///< dI/dV, V from `from` to `into`.
};
using FeedTangent = BasicFeedTangent<double>;

/// I = value / (1 + exp(-(V - Vc)/0.05 V)).
[[nodiscard]] FeedTangent evaluate_feed(double value_a,
                                        double compliance_v,
                                        double voltage_v) noexcept;

template <class Real>
struct BasicResistanceAt {
  Real ohm;
  Real ohm_per_k;
};
using ResistanceAt = BasicResistanceAt<double>;

/// R = R25 exp(beta (1/T - 1/298.15 K)).
[[nodiscard]] ResistanceAt thermistor_resistance(double at_25c_ohm,
                                                 double beta_k,
                                                 double temperature_k) noexcept;

/// R (1 + tempco (T - 298.15 K)).
[[nodiscard]] ResistanceAt resistor_resistance(double ohm,
                                               double tempco_per_k,
                                               double temperature_k) noexcept;

/// beta from the resistances at 25 C and 50 C.
[[nodiscard]] double beta_from_two_points(double at_25c_ohm, double at_50c_ohm) noexcept;

}  // namespace idlepoint::devices
