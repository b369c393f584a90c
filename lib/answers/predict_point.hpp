// What a part type would read where a point was taken: the device law solved behind its
// resistances.
//
// Used by answers/fit for every residual. A p kind is reckoned as the n kind, as its data are.
// Sources: those of the laws in lib/devices.
#pragma once

#include <array>
#include <optional>
#include <variant>

#include "circuit/type_points.hpp"

namespace idlepoint::answers {

using Law = std::variant<devices::DiodeData, devices::BipolarData, devices::FetData>;

/// The inner voltages of the last prediction of one point: where the next one starts.
struct InnerVolts {
  std::array<double, 2> v{};
  bool is_known = false;
};

/// The quantity of `point` that the law gives at the point's conditions, SI. None where the law has
/// no such state: a transistor that its base current cannot bottom, a resistance that drops more
/// than the voltage. Requires the law of the point's kind.
[[nodiscard]] std::optional<double> predict(const Law& law,
                                            const circuit::TypePoint& point,
                                            InnerVolts& start);

}  // namespace idlepoint::answers
