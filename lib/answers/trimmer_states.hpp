// What a stage does with one trimmer at its ends, half way, and with its wiper lifted, and what an
// ohm-meter finds on that trimmer: the safe end, and the hazard.
//
// Used by the preset answer. All are first cold moments with the other trimmers as they stand in
// the stage given. Source: docs/commands.md, "preset".
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers/at_rail.hpp"
#include "answers/reading_values.hpp"
#include "circuit/checked_circuit.hpp"
#include "circuit/part.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

/// What an ohm-meter finds between the terminals of a trimmer taken out of circuit, end and wiper
/// resistance included. None with its wiper lifted.
struct TrackOhms {
  std::optional<double> a_to_wiper_ohm;
  std::optional<double> wiper_to_b_ohm;
};

/// Requires a trimmer.
[[nodiscard]] TrackOhms ohms_at(const circuit::Part& trimmer, double travel) noexcept;

/// One such state, without its node voltages.
struct TrimmerState {
  bool solved = false;            ///< False: no DC state there, and nothing below is set.
  std::optional<double> reading;  ///< In the reading's own unit.
  std::optional<double> total_power_w;
  std::optional<double>
      times_preset_power;  ///< None where the rails deliver nothing at the preset.
  OutputPlace output = OutputPlace::unknown;
  std::optional<double> output_v;          ///< Of the stage's output, where it has one.
  double output_moves_v = 0.0;             ///< From where it stands at the preset.
  std::vector<std::string> over_stressed;  ///< Names of the parts beyond a rating.
  /// Power above 1.5 times that at the preset, output at a rail, or no DC state.
  bool hazard = true;
};

struct TrimmerStates {
  TrimmerState at_a;
  TrimmerState at_b;
  TrimmerState half_way;
  /// The end at which the rails deliver less; an end without a DC state is the unsafe one. None
  /// where the two differ by less than 5 % of the larger, and where neither end has a state.
  std::optional<circuit::TrackEnd> safe_end;
  /// The travel up to which, from the safe end, the reading makes less than a tenth of its way to
  /// the preset; found in steps of a twentieth. None without a safe end, or where the preset is at
  /// it.
  std::optional<double> wakes_at;
  TrimmerState wiper_open;  ///< Where the spare leg is unknown, the worse of the two below.
  std::optional<TrimmerState> wiper_open_tied;  ///< Only where the spare leg is unknown.
  std::optional<TrimmerState> wiper_open_free;
};

/// `at_preset` is the cold state of `stage`, whose travels are set.
[[nodiscard]] TrimmerStates find_trimmer_states(const circuit::CheckedCircuit& stage,
                                                const solve::OperatingPoint& at_preset,
                                                const circuit::Adjustment& adjustment);

}  // namespace idlepoint::answers
