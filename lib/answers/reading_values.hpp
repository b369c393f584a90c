// What the meter shows: every reading of a stage, from one solved state.
//
// Used by the readings, preset and check answers. Source: docs/commands.md, "readings".
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "answers/bands.hpp"
#include "circuit/checked_circuit.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

/// What a reading is counted in.
enum class ReadingUnit { volt, ampere, watt, celsius };

/// "V", "A", "W" or "C".
[[nodiscard]] std::string_view symbol(ReadingUnit unit) noexcept;

[[nodiscard]] ReadingUnit unit_of(const circuit::Probe& probe) noexcept;

/// A value that `OperatingPoint::read` gave (kelvin for temperatures) in the reading's own unit.
[[nodiscard]] double in_own_unit(double si_value, ReadingUnit unit) noexcept;

/// What becomes of a reading while parts are taken out (answers/taken_out).
enum class WithPartsOut {
  as_usual,
  reads_nothing,  ///< Volts across resistors that carry nothing now.
  reads_others,   ///< Volts across the resistor of a part that is out: others' current.
  not_judged,     ///< Its limit is broken for want of those parts alone.
};

/// One reading, in its own unit: volts, amperes, watts, or degrees Celsius.
struct ReadingValue {
  std::string name;
  circuit::Probe probe;
  ReadingUnit unit = ReadingUnit::volt;
  double value = 0.0;
  std::optional<circuit::Limit> limit;  ///< As in the circuit: kelvin for temperatures.
  std::optional<bool> within_limit;     ///< None without a limit, and where it is not judged.
  /// Volts alone: what the stage's meter shows with its input resistance across the two points,
  /// this reading alone. None for other units, and where the stage does not settle with the meter
  /// on it.
  std::optional<double> as_metered;
  /// In the reading's own unit, of the reading and of `as_metered`; none until `add_bands`.
  std::optional<Band> band = {};
  std::optional<Band> metered_band = {};
  WithPartsOut with_parts_out = WithPartsOut::as_usual;
};

/// Every reading of `stage` in the state `at`, in the file's order. Cost: one solve for each
/// reading in volts (the meter on it), under `at`'s own conditions, cold or warm.
[[nodiscard]] std::vector<ReadingValue> read_all(const circuit::CheckedCircuit& stage,
                                                 const solve::OperatingPoint& at);

/// Fills the bands of `readings`, all those of `stage` in their order, in the state that
/// `conditions` ask for; none where that state is not found. Cost: two solves a reading, and
/// `band_samples` where one of them bends.
void add_bands(const circuit::CheckedCircuit& stage,
               const solve::Conditions& conditions,
               std::vector<ReadingValue>& readings);

/// From what `find_bands` found.
void add_bands(const Bands& bands, std::vector<ReadingValue>& readings);

/// The moment after switch-on, beside a warm state.
struct ColdMoment {
  solve::OperatingPoint state;
  std::vector<ReadingValue> readings;
};

/// None where the stage has no cold state. Cost as of `read_all`.
[[nodiscard]] std::optional<ColdMoment> read_cold_moment(const circuit::CheckedCircuit& stage,
                                                         const solve::Conditions& conditions);

/// True where any reading lies outside its limit.
[[nodiscard]] bool any_limit_broken(const std::vector<ReadingValue>& readings) noexcept;

}  // namespace idlepoint::answers
