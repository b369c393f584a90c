// What a solved state says about a drawing: slips that the topology alone cannot show.
//
// Used by the check answer. Source: docs/language.md, "What is an error, what a warning".
#pragma once

#include "answers/setup.hpp"
#include "complaints/complaint.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

/// Healthy transistors that come out reversed or carry nothing, and a stage with more than one DC
/// state. A transistor with a fault in it, or taken out, is not healthy.
[[nodiscard]] complaints::Complaints complaints_of_state(const circuit::Circuit& circuit,
                                                         const solve::OperatingPoint& state);

/// `adjust` statements whose trimmer moves its reading, end to end, by less than `within`, and
/// those whose target no position reaches. Cost: three solves a trimmer, and one joint solve.
[[nodiscard]] complaints::Complaints complaints_of_trimmers(const Setup& setup);

}  // namespace idlepoint::answers
