// One channel's drawing as data: nodes, parts, rails, heat sinks, what is read and adjusted.
//
// Made by language/read_stage, judged by circuit/topology, changed by circuit/edits. Plain data;
// only a CheckedCircuit (checked_circuit.hpp) can be solved.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "circuit/ids.hpp"
#include "circuit/part.hpp"
#include "circuit/part_type.hpp"
#include "complaints/complaint.hpp"

namespace idlepoint::circuit {

struct Node {
  std::string name;        ///< `gnd`, the drawing's own, or `Q603.c` for an unnamed wire.
  bool is_socket = false;  ///< A wire that leaves the drawing here.
  bool lifted = false;     ///< Made by a fault for one lifted lead; not listed in answers.
  complaints::Place place;
};

struct Rail {
  NodeId node;
  double nominal_v = 0.0;
  std::optional<double> measured_v;  ///< Used instead of the nominal where given.
  double resistance_ohm = 0.05;
  double tolerance = 0.0;
  bool lost = false;  ///< Its source is taken away: open, not 0 V.
  complaints::Place place;
};

/// The volts of the source behind the rail's resistance, before any scaling.
[[nodiscard]] double source_v(const Rail& rail) noexcept;

struct Heatsink {
  std::string name;
  double resistance_k_per_w = 0.0;
  std::optional<double> capacity_j_per_k;
  complaints::Place place;
};

/// What a reading reads.
struct VoltsBetween {
  NodeId a;
  NodeId b;
};
struct AmpsThrough {
  std::variant<PartId, RailId> what;
};
struct WattsIn {
  std::variant<PartId, RailId> what;
};
struct CelsiusOf {
  std::variant<PartId, HeatsinkId> what;
};
using Probe = std::variant<VoltsBetween, AmpsThrough, WattsIn, CelsiusOf>;

struct Limit {
  double low;
  double high;
  complaints::Place place;
};

struct Reading {
  std::string name;
  Probe probe;
  std::optional<Limit> limit;  ///< SI; kelvin for celsius readings.
  complaints::Place place;
};

struct Adjustment {
  PartId trimmer;
  ReadingId reading;
  double target = 0.0;  ///< SI; kelvin for celsius readings.
  double within = 0.0;  ///< The stated or the default half-width.
  complaints::Place place;
};

struct Meter {
  double error = 0.005;
  double floor_v = 0.2e-3;
  double input_ohm = 10e6;
};

/// A voltage that the service sheet prints, between two nodes.
struct PrintedVolts {
  NodeId a;
  NodeId b;
  double volts = 0.0;
  std::string text;  ///< As a person would say it: "the emitter of Q603".
  complaints::Place place;
};

struct Matched {
  std::vector<PartId> parts;
  std::optional<double> within_fraction;  ///< Of gain and saturation current.
  std::optional<double> within_v;         ///< Of base-emitter or gate voltage.
  complaints::Place place;
};

struct Signal {
  std::optional<NodeId> output;
  std::optional<NodeId> input;
  std::optional<NodeId> drive;
};

/// A value, type or heat sink written `?`.
struct Blank {
  std::string text;  ///< "the value of R8 (resistor, b_hi to t)".
  complaints::Place place;
};

struct Circuit {
  std::string file;  ///< As the user named it; "-" for standard input.
  std::string title;
  double ambient_k = 298.15;
  std::vector<Node> nodes;  ///< nodes[0] is `gnd`.
  std::vector<Part> parts;
  std::vector<PartType> types;
  std::vector<Rail> rails;
  std::vector<Heatsink> heatsinks;
  std::vector<Reading> readings;
  std::vector<Adjustment> adjustments;
  Meter meter;
  std::vector<PrintedVolts> printed;
  std::vector<Matched> matched;
  Signal signal;  ///< As written; see `output_node` for the default.
  std::vector<Blank> blanks;

  [[nodiscard]] const Node& at(NodeId id) const { return nodes.at(id.index); }
  [[nodiscard]] const Part& at(PartId id) const { return parts.at(id.index); }
  [[nodiscard]] const PartType& at(TypeId id) const { return types.at(id.index); }
  [[nodiscard]] const Rail& at(RailId id) const { return rails.at(id.index); }
  [[nodiscard]] const Heatsink& at(HeatsinkId id) const { return heatsinks.at(id.index); }
  [[nodiscard]] const Reading& at(ReadingId id) const { return readings.at(id.index); }
  [[nodiscard]] Part& at(PartId id) { return parts.at(id.index); }
};

[[nodiscard]] std::optional<NodeId> find_node(const Circuit& circuit, std::string_view name);
[[nodiscard]] std::optional<PartId> find_part(const Circuit& circuit, std::string_view name);
[[nodiscard]] std::optional<TypeId> find_type(const Circuit& circuit, std::string_view name);
[[nodiscard]] std::optional<RailId> find_rail(const Circuit& circuit, NodeId node);
[[nodiscard]] std::optional<HeatsinkId> find_heatsink(const Circuit& circuit,
                                                      std::string_view name);
[[nodiscard]] std::optional<ReadingId> find_reading(const Circuit& circuit, std::string_view name);

/// Where the signal leaves the stage: as written, else the first node of the first load, or the far
/// node of the capacitor that hangs there; none without a load.
[[nodiscard]] std::optional<NodeId> output_node(const Circuit& circuit);

/// True where any part can heat: it sits on a heat sink or its type has `junction_to_ambient`.
[[nodiscard]] bool can_heat(const Circuit& circuit);

/// "volts e_hi out", "amps R11": a probe as the language writes it.
[[nodiscard]] std::string write_probe(const Circuit& circuit, const Probe& probe);

/// A node for a sentence: its name, or "the joint of D601 and D602" where the drawing names none.
[[nodiscard]] std::string node_in_words(const Circuit& circuit, NodeId node);

}  // namespace idlepoint::circuit
