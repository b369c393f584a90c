// Complaints as text for a terminal, in the house's own layout.
#pragma once

#include <string>

#include "complaints/complaint.hpp"

namespace idlepoint::complaints {

/// All complaints, one after another with a blank line between, each as
///
///     quarry-30w.stage: nothing sets the voltage of `drive`.
///
///       line 23, column 20   npn Q4 c=vpos b=drive e=out type=driver-npn
///                            here: `drive` meets only this lead
///
///       Why   At DC every point must be tied to ground through parts that conduct.
///       Do    Write `drive` on line 12, or join `drive` to the circuit.
///
/// No colour, no marks in the margin. Control characters of the user's text are shown as `?`.
[[nodiscard]] std::string render(const Complaints& complaints);

}  // namespace idlepoint::complaints
