// The usual values of each class of part, and how far parts of the class lie from them.
//
// Used by answers/fit_parameters. Common practice, no source: figures that a technician would call
// ordinary, scaled by the largest current the part is made for.
#pragma once

#include <initializer_list>
#include <string>
#include <vector>

#include "answers/fit_parameters.hpp"
#include "circuit/type_points.hpp"

namespace idlepoint::answers {

// The variables of a class, in the order in which they are freed.
[[nodiscard]] std::vector<FitParameter> bipolar_parameters(const circuit::TypePoints& asked);
[[nodiscard]] std::vector<FitParameter> diode_parameters(const circuit::TypePoints& asked);
[[nodiscard]] std::vector<FitParameter> junction_fet_parameters(const circuit::TypePoints& asked);
[[nodiscard]] std::vector<FitParameter> mosfet_parameters(const circuit::TypePoints& asked);

/// Behind a usual value that scales with the part.
inline constexpr const char* size_words = "ordinary for its size";

/// The largest current the part is made for: the rating, or ten times the largest of its points.
[[nodiscard]] double size_a(const circuit::TypePoints& asked);

/// kT/q at the type's `measured_at`.
[[nodiscard]] double thermal_v(const Law& law);

/// Null where there is none.
[[nodiscard]] const circuit::TypePoint* first_of(const circuit::TypePoints& asked,
                                                 circuit::PointQuantity quantity);

/// The point's value, or the middle of its window, or its one limit.
[[nodiscard]] double aim_of(const circuit::TypePoint& point);

[[nodiscard]] bool at_two_temperatures(const circuit::TypePoints& asked,
                                       std::initializer_list<circuit::PointQuantity> quantities);

/// "5 mA".
[[nodiscard]] std::string amperes(double a);

}  // namespace idlepoint::answers
