// What a fault moved: every node by its volts, every part by its currents and its region, from the
// state of the sound stage to that of the faulty one.
//
// Read by the chain of cause (answers/fault_chain) and by its words. All is by Kirchhoff's current
// law: a part moves a node where the current that it feeds into the node stepped the node's way.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "circuit/circuit.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

/// The same quantity in the sound stage and in the faulty one.
struct Change {
  double was = 0.0;
  double now = 0.0;

  [[nodiscard]] double step() const noexcept { return now - was; }
};

/// A stage and one solved state of it.
struct StageState {
  const circuit::Circuit& circuit;
  const solve::OperatingPoint& state;
};

/// The sound state beside the faulty one. Ids are those of the faulty circuit, which holds all that
/// the sound one holds; what the fault added (a lifted lead's node, a bridge) stood before where
/// its lead stood, and carried nothing.
class Moves {
 public:
  Moves(StageState sound, StageState faulty) : sound_(sound), faulty_(faulty) {}

  /// Volts to gnd.
  [[nodiscard]] Change volts(circuit::NodeId node) const;

  /// Between two leads of a part, first less second; none where one is left off.
  [[nodiscard]] std::optional<Change> across_v(circuit::PartId part,
                                               std::size_t lead_1,
                                               std::size_t lead_2) const;

  /// Into the part at one lead; 0 where it was not there.
  [[nodiscard]] Change lead_a(circuit::PartId part, std::size_t lead) const;

  /// What the part feeds into the node, over all its leads there; what it takes out is negative.
  [[nodiscard]] Change into_node_a(circuit::PartId part, circuit::NodeId node) const;

  /// The current that names a part's state: first to second lead, into a trimmer's wiper;
  /// collector or drain, positive in normal use for either polarity.
  [[nodiscard]] Change main_a(circuit::PartId part) const;

  /// What steers a transistor: base to emitter or gate to source, positive in normal use for either
  /// polarity; of a diode anode to cathode, of any other part first to second lead.
  [[nodiscard]] Change control_v(circuit::PartId part) const;

  /// Degrees Celsius; the room's where a part has no temperature of its own.
  [[nodiscard]] Change junction_c(circuit::PartId part) const;

  /// None for parts that have no region.
  [[nodiscard]] std::optional<solve::Conduction> region_before(circuit::PartId part) const;
  [[nodiscard]] std::optional<solve::Conduction> region_now(circuit::PartId part) const;

  /// The emitter-base junction has broken down, and had not before.
  [[nodiscard]] bool breaks_down(circuit::PartId part) const;

  [[nodiscard]] const StageState& sound() const noexcept { return sound_; }
  [[nodiscard]] const StageState& faulty() const noexcept { return faulty_; }

 private:
  StageState sound_;
  StageState faulty_;
};

/// True where a bipolar transistor's emitter-base junction stands backwards at its breakdown.
[[nodiscard]] bool is_broken_down(const StageState& stage, circuit::PartId part);

/// Emitter to base the wrong way round, positive backwards; none where a lead is left off or the
/// part is no bipolar transistor.
[[nodiscard]] std::optional<double> base_backwards_v(const StageState& stage, circuit::PartId part);

}  // namespace idlepoint::answers
