// What would a capacitor's leakage do to the readings, and how much of it would matter?
//
// One adjoint solve a reading gives the slopes of all capacitors at once. Asked by cli/capacitor;
// rendered by report/text_capacitor and json_capacitor. Source: docs/commands.md, "capacitor".
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "answers/reading_values.hpp"
#include "answers/setup.hpp"
#include "answers/thermal_story.hpp"
#include "solve/not_settled.hpp"

namespace idlepoint::answers {

/// Why a shift of a reading begins to matter.
enum class Matters {
  offset,  ///< 50 mV of the output against ground, where it ought to stand at 0.
  share,   ///< A twentieth of the reading.
  meter,   ///< What the meter can tell, where a twentieth is less.
  warmth,  ///< 5 K.
  limit,   ///< The reading's own limit is met before.
};

/// What leakage of one capacitor does to one reading.
struct LeakEffect {
  std::size_t reading = 0;  ///< Among `CapacitorLeaks::readings`.
  double per_a = 0.0;       ///< Reading's own unit an ampere, from the end at more volts.
  double shift = 0.0;       ///< Which begins to matter, > 0; own unit.
  Matters why = Matters::share;
  std::optional<double> leakage_that_matters_a = {};  ///< None where it never does.
};

struct LeakyCapacitor {
  circuit::PartId part;
  double volts = 0.0;                     ///< First terminal against the second.
  bool can_leak = false;                  ///< Enough volts stand across it.
  std::vector<LeakEffect> effects = {};   ///< [readings]; empty where it cannot leak.
  std::optional<std::size_t> first = {};  ///< Among `effects`: what shows the least leakage.
};

/// Below this nothing to speak of flows through a leak.
inline constexpr double least_leaking_v = 0.05;
inline constexpr double offset_that_matters_v = 0.05;
inline constexpr double share_that_matters = 0.05;
inline constexpr double warmth_that_matters_k = 5.0;
/// No capacitor worth the name leaks more.
inline constexpr double most_leakage_a = 0.1;

struct CapacitorLeaks {
  circuit::CheckedCircuit stage;
  solve::Conditions conditions;
  std::vector<ReadingValue> readings;      ///< As they are, without further leakage; no bands.
  std::vector<LeakyCapacitor> capacitors;  ///< In the order of the file.
  std::vector<std::string> changes = {};
  std::vector<std::string> warnings = {};
};

/// Of every capacitor of the stage, in the state that is asked for. In proportion: from the slope
/// at the present leakage.
[[nodiscard]] std::variant<CapacitorLeaks, solve::NotSettled, ThermalStory> ask_leaks(
    const Setup& setup);

/// The leakage that begins to matter somewhere; none where it never does.
[[nodiscard]] std::optional<double> leakage_that_matters_a(const LeakyCapacitor& capacitor);

}  // namespace idlepoint::answers
