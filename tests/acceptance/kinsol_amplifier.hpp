// A whole amplifier's equations written a second time, for SUNDIALS KINSOL to solve.
//
// Nothing of the program is included here: no law, no stamp, no solver. The device laws are typed
// from docs/models.md, with their temperature scaling, and put into another formulation. The
// program eliminates sources and keeps inner points; here every branch current is an unknown beside
// the node voltages (a sparse tableau), ideal links are resistors of 0 ohm, and a transistor's
// resistances stand inside its own two equations. KINSOL takes the slopes by differences.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

namespace idlepoint::tests {

/// Node 0 is ground. A resistor of 0 ohm is a link.
struct PlainResistor {
  std::size_t a, b;
  double ohm;
};

/// Between ground and `node`; its current counts positive into the node.
struct PlainRail {
  std::size_t node;
  double source_v;
  double ohm;
};

struct PlainDiode {
  std::size_t anode, cathode;
  double saturation_a, ideality, series_ohm;  // of one junction
  double junctions;
  double temperature_power, band_gap_ev, measured_at_k;
  double temperature_k;
};

struct PlainTransistor {
  std::size_t collector, base, emitter;
  bool is_pnp;
  double saturation_a, gain, inverse_gain, ideality, inverse_ideality;
  std::optional<double> early_v, inverse_early_v, knee_a, inverse_knee_a;
  double recombination_a, recombination_ideality;
  double collector_recombination_a, collector_recombination_ideality;
  double cutoff_a, cutoff_doubles_every_k;
  double base_ohm, collector_ohm, emitter_ohm;
  std::optional<double> breakdown_v;
  double gain_temperature_power, temperature_power, band_gap_ev, measured_at_k;
  double temperature_k;
};

struct PlainAmplifier {
  std::size_t nodes = 1;  ///< With ground.
  std::vector<PlainResistor> resistors;
  std::vector<PlainRail> rails;
  std::vector<PlainDiode> diodes;
  std::vector<PlainTransistor> transistors;
};

/// Each list beside its list in the amplifier.
struct PlainState {
  std::vector<double> node_v;      ///< [nodes]
  std::vector<double> resistor_a;  ///< From a to b.
  std::vector<double> rail_a;
  std::vector<double> diode_a;
  std::vector<double> base_a;  ///< Into the lead.
  std::vector<double> collector_a;
  std::vector<double> unknowns;  ///< All of them, as the solver numbers them.
  double largest_missing = 0.0;  ///< Volts or amperes that the worst equation lacks.
};

/// KINSOL with line search from zero volts and zero amperes, the rails raised by degrees; empty
/// where it does not get there.
[[nodiscard]] std::optional<PlainState> solve_by_kinsol(const PlainAmplifier& amplifier);

/// The same from a state of the same amplifier at other temperatures, without raising the rails.
[[nodiscard]] std::optional<PlainState> solve_by_kinsol(const PlainAmplifier& amplifier,
                                                        const PlainState& from);

}  // namespace idlepoint::tests
