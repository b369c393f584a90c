#include "language/write_stage.hpp"

#include <vector>

#include "language/write_parts.hpp"
#include "language/write_words.hpp"
#include "values/format.hpp"

namespace idlepoint::language {
namespace {

using circuit::Circuit;
using values::Unit;
using values::write_value;

std::string write_rail(const Circuit& circuit, const circuit::Rail& rail) {
  std::string line = "rail " + write_node(circuit, rail.node) + " " +
                     (rail.nominal_v >= 0 ? "+" : "") + write_value(rail.nominal_v, Unit::volt);
  if (rail.measured_v) line += " measured=" + write_value(*rail.measured_v, Unit::volt);
  line += " resistance=" + write_value(rail.resistance_ohm, Unit::ohm);
  line += " tolerance=" + write_value(rail.tolerance, Unit::tolerance);
  return line + "\n";
}

// Nodes are numbered as the text names them: a rail is written as soon as its node is the next new
// one or known already, so that the numbers come out as they were.
std::string write_rails_and_parts(const Circuit& circuit) {
  std::string text;
  std::size_t known = 1;  // Nodes named so far, gnd among them.
  const auto learn = [&known](circuit::NodeId node) {
    if (node.index >= known) known = node.index + 1;
  };
  std::size_t rail = 0;
  const auto write_ready_rails = [&] {
    while (rail < circuit.rails.size() && circuit.rails[rail].node.index <= known) {
      text += write_rail(circuit, circuit.rails[rail]);
      learn(circuit.rails[rail].node);
      ++rail;
    }
  };
  write_ready_rails();
  for (const circuit::Part& part : circuit.parts) {
    text += write_part(circuit, part);
    for (const auto& lead : part.leads) {
      if (lead) learn(*lead);
    }
    write_ready_rails();
  }
  return text;
}

std::string write_head(const Circuit& circuit) {
  std::string text;
  if (!circuit.title.empty()) text += "stage " + in_quotes(circuit.title) + "\n";
  text += "ambient " + write_value(circuit.ambient_k, Unit::temperature) + "\n";
  text += "meter error=" + write_value(circuit.meter.error, Unit::percent) +
          " floor=" + write_value(circuit.meter.floor_v, Unit::volt) +
          " input=" + write_value(circuit.meter.input_ohm, Unit::ohm) + "\n";
  for (const circuit::Heatsink& sink : circuit.heatsinks) {
    text += "heatsink " + sink.name +
            " resistance=" + write_value(sink.resistance_k_per_w, Unit::kelvin_per_watt);
    if (sink.capacity_j_per_k) {
      text += " capacity=" + write_value(*sink.capacity_j_per_k, Unit::joule_per_kelvin);
    }
    text += "\n";
  }
  for (const circuit::PartType& type : circuit.types) text += write_type(type);
  return text;
}

std::string write_signal(const Circuit& circuit) {
  const circuit::Signal& signal = circuit.signal;
  std::string text;
  for (std::size_t index = 1; index < circuit.nodes.size(); ++index) {
    if (circuit.nodes[index].is_socket) {
      text += "socket " + write_node(circuit, circuit::NodeId{index}) + "\n";
    }
  }
  if (!signal.output) return text;
  text += "signal output=" + write_node(circuit, *signal.output);
  if (signal.input) text += " input=" + write_node(circuit, *signal.input);
  if (signal.drive) text += " drive=" + write_node(circuit, *signal.drive);
  return text + "\n";
}

std::string write_matched(const Circuit& circuit, const circuit::Matched& matched) {
  std::string line = "matched";
  for (const circuit::PartId part : matched.parts) line += " " + circuit.at(part).name;
  if (matched.within_v) {
    line += " within=" + write_value(*matched.within_v, Unit::volt);
  } else if (matched.within_fraction) {
    line += " within=" + write_value(*matched.within_fraction, Unit::percent);
  }
  return line + "\n";
}

}  // namespace

std::string write_stage(const Circuit& circuit) {
  std::string text = write_head(circuit) + write_rails_and_parts(circuit) + write_signal(circuit);
  for (const circuit::Matched& matched : circuit.matched) text += write_matched(circuit, matched);
  for (const circuit::Reading& reading : circuit.readings) text += write_reading(circuit, reading);
  for (const circuit::Adjustment& adjustment : circuit.adjustments) {
    text += write_adjustment(circuit, adjustment);
  }
  for (const circuit::PrintedVolts& printed : circuit.printed) {
    text += write_printed(circuit, printed);
  }
  return text;
}

}  // namespace idlepoint::language
