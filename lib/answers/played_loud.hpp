// What a stage does while it plays a sine as loud as its supply allows.
//
// Two solves stand for the two tops of the sine: the peak current drawn from the output by an ideal
// feed, and fed into it, the loudspeaker itself not connected, every junction at room temperature.
// They tell who carries the current, at how much base current, and how parallel parts share it; not
// what the moving volts do, for which answers/node_swings stands. Used by the ratings, the hot list
// and `swap`. Source: docs/commands.md, "Ratings".
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "answers/full_output.hpp"
#include "circuit/checked_circuit.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

/// The half of the output that gives current to the load, or takes it.
enum class Half { upper, lower };

/// A transistor that stands between the output and a supply and carries the load's current.
struct OutputPart {
  circuit::PartId part;
  Half half = Half::upper;
  double share = 1.0;  ///< Of its half's current; those of a half add to 1.
};

struct PlayedLoud {
  FullOutput full;
  OutermostSources sources;
  solve::OperatingPoint rest;                  ///< Cold.
  std::optional<solve::OperatingPoint> gives;  ///< The peak current drawn from the output.
  std::optional<solve::OperatingPoint> takes;  ///< Fed into it.
  std::vector<double> swings = {};             ///< [nodes] as `node_swings`.
  std::vector<OutputPart> output_parts = {};   ///< In the circuit's order, those of both halves.
  std::vector<std::string> said = {};          ///< What could not be found, a sentence each.
};

/// The stage, or why it cannot be played: no load, no output, no cold state. A half whose solve
/// does not settle, or drags the output away by more than half of `peak_v` (its drive runs out, or
/// a transformer closes its loop), is empty, and `said` says so; its output parts are then those
/// that lie in the drawing between output and supply, in equal shares.
[[nodiscard]] std::variant<PlayedLoud, std::string> play_loud(const circuit::CheckedCircuit& stage,
                                                              const solve::Conditions& conditions);

/// The stage with `current_a` taken from one point and fed into another by an ideal feed.
[[nodiscard]] circuit::CheckedCircuit drawing_current(const circuit::CheckedCircuit& stage,
                                                      circuit::NodeId from,
                                                      circuit::NodeId into,
                                                      double current_a);

/// Current of a part as `OperatingPoint::read` gives amps: of a transistor its collector's or
/// drain's, positive in normal use.
[[nodiscard]] double amps_of(const circuit::Circuit& circuit,
                             circuit::PartId part,
                             const solve::OperatingPoint& state);

/// Mean watts of a resistor over the sine: its current at rest, moved in each half as the two
/// solves tell, and the swing of its own ends. The closed form over both halves of
/// (1/2pi) integral of R (I0 + d sin t)^2 is R (I0^2 + 2 I0 (d1 + d2)/pi + (d1^2 + d2^2)/4). None
/// for other parts, and where a half is empty. Left out: how the string's and the voltage
/// amplifier's currents follow the signal.
[[nodiscard]] std::optional<double> loud_watts(const circuit::Circuit& circuit,
                                               const PlayedLoud& loud,
                                               circuit::PartId id);

}  // namespace idlepoint::answers
