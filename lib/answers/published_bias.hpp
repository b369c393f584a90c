// What a published rule says of the best standing current of two complementary followers.
//
// The rule: the gain in the middle equals that far out where each half's own resistance, V_T / I,
// equals all the ohms it stands behind; so V_T = kT/q stands across the emitter resistor and the
// transistor's own ohms together, I = V_T / (R_E + r_e + r_b / gain). It holds for transistors that
// follow an exponential. Used by the crossover answer beside its own figure.
// Source: [Oliver1971] in docs/sources.md.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "circuit/circuit.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

/// One half, or one of its parallel transistors.
struct PublishedResistor {
  circuit::PartId resistor;
  circuit::PartId transistor;
  double thermal_v = 0.0;     ///< kT/q at its junction.
  double resistor_ohm = 0.0;  ///< Outside: what a meter can be put across.
  double inside_ohm = 0.0;    ///< Emitter resistance, and base resistance over gain.
  double across_v = 0.0;      ///< Of `thermal_v`, what stands across the resistor alone.
  double standing_a = 0.0;
};

/// What it comes to on one reading.
struct PublishedBias {
  double reading_v = 0.0;                    ///< The sum of `across_v`, signed as the reading is.
  std::vector<PublishedResistor> resistors;  ///< Those the reading lies across, one or two.
};

/// For the reading `probe` at the temperatures of `state`; or why it says nothing, as a sentence:
/// the reading is not across emitter resistors, the transistor is a FET, or its collector and not
/// its emitter gives the load its current.
[[nodiscard]] std::variant<PublishedBias, std::string> published_bias(
    const circuit::Circuit& circuit,
    const circuit::Probe& probe,
    const solve::OperatingPoint& state);

}  // namespace idlepoint::answers
