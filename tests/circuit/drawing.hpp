// A drawing made in code, one call a statement, for tests that should not lean on the reader.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "circuit/circuit.hpp"
#include "circuit/edits.hpp"
#include "complaints/complaint.hpp"

namespace idlepoint::circuit {

/// Every call stands on a line of its own, counted from 1; each lead's column is its place in the
/// call (2 for the first). A node named "-" is a lead left off.
class Drawing {
 public:
  Drawing();

  Drawing& rail(const std::string& node, double volts, double resistance_ohm = 0.05);
  /// Any part by its statement word; nodes in the order of its leads.
  Drawing& part(std::string_view kind,
                const std::string& name,
                const std::vector<std::string>& nodes,
                double value = 0.0);
  Drawing& socket(const std::string& node);
  Drawing& heatsink(const std::string& name);
  /// An empty type of that kind; its id counts from 0.
  PartType& type(std::string_view kind, const std::string& name);

  [[nodiscard]] NodeId node(const std::string& name);
  [[nodiscard]] Part& last() { return circuit.parts.back(); }
  [[nodiscard]] PartId id(std::string_view name) const { return *find_part(circuit, name); }

  Circuit circuit;

 private:
  [[nodiscard]] complaints::Place next_line();
  int line_ = 0;
};

/// The short names of the complaints about a drawing, in order of place.
[[nodiscard]] std::vector<std::string> kinds_of(const Drawing& drawing);

/// The one complaint about a drawing; fails the test where there is not exactly one.
[[nodiscard]] complaints::Complaint only_complaint(const Drawing& drawing);

/// The checked circuit of a drawing that is known to be sound.
[[nodiscard]] CheckedCircuit checked(const Drawing& drawing);

/// The circuit after an edit that must fit, or after several in order.
[[nodiscard]] Circuit after(const Drawing& drawing, const std::vector<Edit>& edits);

/// What is said of an edit that must not fit.
[[nodiscard]] std::string refusal(const Drawing& drawing, const Edit& edit);

/// Complementary emitter follower of 25 W: diode string, drivers, emitter resistors, loudspeaker.
[[nodiscard]] Drawing complementary_stage();

/// Two n-type outputs between split rails, the lower driven by a pnp.
[[nodiscard]] Drawing quasi_complementary_stage();

/// Single supply, loudspeaker behind an output capacitor.
[[nodiscard]] Drawing capacitor_coupled_stage();

/// Driver and output of unlike polarity in each half.
[[nodiscard]] Drawing compound_stage();

}  // namespace idlepoint::circuit
