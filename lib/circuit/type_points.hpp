// Points of a data sheet or a tester: what a part type is fitted to.
//
// Read by language/read_points, answered by answers/fit. All numbers SI; the figures of a p kind
// are given as for the n kind, as its fields are.
#pragma once

#include <array>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "circuit/part_type.hpp"
#include "values/range.hpp"
#include "values/unit.hpp"

namespace idlepoint::circuit {

enum class PointQuantity {
  vbe,      ///< Base to emitter at a collector current and a collector-emitter voltage.
  gain,     ///< Collector over base current, there.
  vce_sat,  ///< Collector to emitter at a collector and a base current, bottomed.
  vbe_sat,  ///< Base to emitter there.
  icbo,     ///< Collector-base current with the emitter open.
  vf,       ///< Of one junction, at its current.
  vz,       ///< Breakdown voltage at its current, positive.
  ir,       ///< Reverse current at a reverse voltage, both positive.
  idss,     ///< Drain current with gate and source joined.
  vgs,      ///< Gate to source at a drain current and a drain-source voltage.
  id,       ///< Drain current at a gate-source and a drain-source voltage.
  vds_on,   ///< Drain to source at a drain current and a gate-source voltage.
};

/// `key=` behind the `at` of a point.
struct PointCondition {
  std::string_view key;
  values::Unit unit = values::Unit::none;
  values::Range range = values::Range::positive;
  std::optional<double> usual;  ///< Taken where it is not written; none: it must be written.
};

/// Which types a quantity belongs to.
enum class PointKinds { diode, bipolar, junction_fet, fet };

struct QuantityFacts {
  PointQuantity quantity;
  std::string_view name;
  PointKinds kinds;
  values::Unit unit;
  values::Range range;
  std::array<PointCondition, 2> conditions;  ///< An empty key: there is no second.
};

[[nodiscard]] std::span<const QuantityFacts> all_quantities() noexcept;
[[nodiscard]] const QuantityFacts& facts(PointQuantity quantity) noexcept;
[[nodiscard]] bool belongs(PointKinds kinds, PartKind kind) noexcept;

/// One `point` statement. `value`, or at least one end of the window, is there.
struct TypePoint {
  PointQuantity quantity = PointQuantity::gain;
  std::optional<double> value;
  std::optional<double> min;
  std::optional<double> max;
  std::array<double, 2> at{};           ///< In the order of QuantityFacts::conditions.
  std::array<bool, 2> at_usual{};       ///< True where the condition was not written.
  std::optional<double> temperature_k;  ///< None: the type's own `measured_at`.
  std::optional<double> within;         ///< How well the value is known, in the quantity's unit...
  std::optional<double> within_fraction;  ///< ... or as a fraction of it.
  std::string note;
  complaints::Place place;
};

/// "vbe at ic=10 mA": quantity and the conditions that were written.
[[nodiscard]] std::string point_in_words(const TypePoint& point);

/// A whole points file: one `type` statement with fields missing, and its points.
struct TypePoints {
  PartType type;                ///< Law fields that were not written hold the law's defaults.
  std::set<std::string> given;  ///< Law fields that were written: they stay as they are.
  std::vector<TypePoint> points;
};

}  // namespace idlepoint::circuit
