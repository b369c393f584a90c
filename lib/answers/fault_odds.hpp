// How often each kind of fault is met: the odds before any reading.
//
// Used by the diagnosis and by its blind trials. Basis: common practice, no source; what counts is
// the ratio of one row to another. In words: docs/how_it_diagnoses.md.
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "circuit/circuit.hpp"

namespace idlepoint::answers {

enum class FaultKind {
  open,
  shorted,   ///< A two-terminal part, or two leads of a transistor, any two.
  lead_off,  ///< One lead of three: a dry joint, a bad socket, a cracked track.
  wiper_lifted,
  drifted,  ///< A value that has moved out of its tolerance.
  leaks,
  gain_lost,
  other_type,  ///< Somebody fitted another type.
  leads_swapped,
  bridged,        ///< Solder between two points that share a part.
  set_elsewhere,  ///< A trimmer that does not stand where it was said to stand.
  rail_lost,
  insulator_pierced,  ///< Collector or drain through the washer to the chassis.
};

/// What is likely to fail how.
enum class PartClass {
  power_transistor,  ///< On a heat sink, and not the sensor: a type for 2 A and more, or unknown.
  small_transistor,
  diode,
  resistor,
  low_resistor,  ///< Below 2 ohms: emitter and safety resistors.
  trimmer,
  electrolytic,  ///< A capacitor of 1 uF and more.
  small_capacitor,
  thermistor,
  fuse,
  winding,  ///< Inductor, lamp.
  link,
  none,  ///< Stand-ins, the loudspeaker.
};

[[nodiscard]] PartClass class_of(const circuit::Circuit& circuit, circuit::PartId part);

struct FaultOdds {
  PartClass part;
  FaultKind kind;
  double weight;  ///< Of that kind on one such part, all its leads and directions together.
  std::string_view why;
};

/// One row a class and kind that is met at all.
[[nodiscard]] std::span<const FaultOdds> fault_odds() noexcept;

/// None where that is not met.
[[nodiscard]] std::optional<double> fault_weight(PartClass part, FaultKind kind) noexcept;

/// Of one pair of points that share a part, and of one rail.
inline constexpr double bridge_weight = 0.3;
inline constexpr double lost_rail_weight = 8.0;

/// Of the odds before any reading, that nothing is wrong and that what is wrong is not in the list.
inline constexpr double healthy_odds = 0.10;
inline constexpr double none_of_these_odds = 0.05;

/// Of a second fault, given a first.
inline constexpr double second_fault_odds = 0.05;

}  // namespace idlepoint::answers
