// What the stage asks of a transistor or a diode, beside what its type allows.
//
// Used by `swap` and by the hot list. At rest the figures are those of the state that is given;
// played loud they are those of one sine at full output (answers/played_loud), the heat sink as
// warm as in the given state. Source: docs/commands.md, "Ratings"; the dissipation of a class-B
// pair [SedraSmith2015] 12.3.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "answers/played_loud.hpp"
#include "circuit/checked_circuit.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

enum class Rating {
  voltage,               ///< Collector-emitter, drain-source, reverse; at full swing, mains high.
  current,               ///< Collector, drain, forward; the largest of rest and both tops.
  base_emitter_voltage,  ///< Backwards; the largest of rest and both tops. Bipolar alone.
  idle_power,            ///< At rest, against the watts allowed as warm as it is there.
  junction_temperature,  ///< At rest. Demand and limit in degrees Celsius.
  resistive_power,       ///< Mean watts at the worst level of a sine into the load as it is named.
  reactive_power,        ///< The same into a load of that size at 60 degrees.
  safe_area_resistive,   ///< Amperes at the worst point of the load line.
  safe_area_reactive,    ///< The same at 60 degrees.
};

/// The word in JSON: as the enumerator.
[[nodiscard]] std::string_view word(Rating rating) noexcept;

struct RatingCheck {
  circuit::PartId part;
  Rating rating = Rating::voltage;
  std::optional<double> limit = {};   ///< SI; none: the type does not give it.
  std::optional<double> demand = {};  ///< SI; none: it could not be found.
  std::optional<double> margin = {};  ///< 1 - demand/limit, negative beyond the limit.
  std::optional<bool> ok = {};        ///< Demand within the limit; none without either.
  std::optional<double> at_v = {};    ///< Safe area alone: the volts of the worst point.
  /// Safe area that is not kept: up to which angle of the load it is; none where not even 0.
  std::optional<double> kept_to_rad = {};
};

/// Every rating of `parts` (those without a type are passed over), part by part in the order of
/// `Rating`. `state` is the warm or cold state of `stage`. Power and safe area played loud are
/// judged for parts that carry the load's current, or drive those that do, across the moving
/// output; other parts have none.
[[nodiscard]] std::vector<RatingCheck> check_ratings(const circuit::CheckedCircuit& stage,
                                                     const solve::OperatingPoint& state,
                                                     const solve::Conditions& conditions,
                                                     const std::vector<circuit::PartId>& parts);

/// The same from a stage that has been played; null where it cannot be.
[[nodiscard]] std::vector<RatingCheck> check_ratings(const circuit::Circuit& circuit,
                                                     const solve::OperatingPoint& state,
                                                     const PlayedLoud* loud,
                                                     const std::vector<circuit::PartId>& parts);

/// What the stage before must feed into a base at the top of the sine.
struct PeakDrive {
  circuit::PartId part;
  double base_a = 0.0;  ///< The larger of both tops, positive in normal use.
};

/// One for each bipolar transistor of `parts`; none where no top was found.
[[nodiscard]] std::vector<PeakDrive> peak_drives(const circuit::Circuit& circuit,
                                                 const PlayedLoud& loud,
                                                 const std::vector<circuit::PartId>& parts);

}  // namespace idlepoint::answers
