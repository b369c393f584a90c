// Places and names for the complaints of the topology checks.
#pragma once

#include <optional>
#include <string>

#include "circuit/circuit.hpp"
#include "complaints/complaint.hpp"

namespace idlepoint::circuit {

/// Where the node of a lead is written (the part's statement where that is not known).
[[nodiscard]] complaints::Place place_of_lead(const Part& part,
                                              std::size_t lead,
                                              std::string remark = "");

[[nodiscard]] complaints::Place with_remark(complaints::Place place, std::string remark);

/// `name` in backticks; in plain words where the drawing gives no name.
[[nodiscard]] std::string quote(const Circuit& circuit, NodeId node);

/// "the base of Q4".
[[nodiscard]] std::string lead_of_part(const Part& part, std::size_t lead);

/// The node whose name was likely meant by that of `node`. Names that differ in figures alone
/// (`e1`, `e2`) are taken to be meant as they stand.
[[nodiscard]] std::optional<NodeId> likely_meant(const Circuit& circuit, NodeId node);

}  // namespace idlepoint::circuit
