#include "language/write_words.hpp"

#include <optional>

#include "language/probe_words.hpp"
#include "values/format.hpp"

namespace idlepoint::language {
namespace {

using circuit::Circuit;
using values::Unit;
using values::write_value;

std::string write_probe_words(const Circuit& circuit, const circuit::Probe& probe) {
  const auto part_or_rail = [&circuit](const auto& what) {
    if (const auto* part = std::get_if<circuit::PartId>(&what)) return circuit.at(*part).name;
    return write_node(circuit, circuit.at(std::get<circuit::RailId>(what)).node);
  };
  if (const auto* volts = std::get_if<circuit::VoltsBetween>(&probe)) {
    return "volts " + write_node(circuit, volts->a) + " " + write_node(circuit, volts->b);
  }
  if (const auto* amps = std::get_if<circuit::AmpsThrough>(&probe)) {
    return "amps " + part_or_rail(amps->what);
  }
  if (const auto* watts = std::get_if<circuit::WattsIn>(&probe)) {
    return "watts " + part_or_rail(watts->what);
  }
  const auto& what = std::get<circuit::CelsiusOf>(probe).what;
  if (const auto* part = std::get_if<circuit::PartId>(&what)) {
    return "celsius " + circuit.at(*part).name;
  }
  return "celsius " + circuit.at(std::get<circuit::HeatsinkId>(what)).name;
}

// "Q603 e" where the printed volts were said of a leg.
std::optional<std::string> printed_leg(const Circuit& circuit,
                                       const circuit::PrintedVolts& printed) {
  if (printed.b != circuit::ground || !printed.text.starts_with("the ")) return std::nullopt;
  for (const circuit::Part& part : circuit.parts) {
    if (!circuit::has_type(part.kind) || !printed.text.ends_with(" " + part.name)) continue;
    for (std::size_t lead = 0; lead < part.leads.size(); ++lead) {
      const std::string words =
          "the " + circuit::lead_in_words(part.kind, lead) + " of " + part.name;
      if (words != printed.text || part.leads[lead] != printed.a) continue;
      return part.name + " " + std::string(circuit::lead_names(part.kind)[lead]) + "=";
    }
  }
  return std::nullopt;
}

}  // namespace

std::string write_node(const Circuit& circuit, circuit::NodeId node) {
  return circuit.at(node).name;
}

std::string in_quotes(std::string_view text) {
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') quoted += '\\';
    quoted += c;
  }
  return quoted + "\"";
}

std::string write_reading(const Circuit& circuit, const circuit::Reading& reading) {
  std::string text =
      "reading " + reading.name + " " + write_probe_words(circuit, reading.probe) + "\n";
  if (reading.limit) {
    const Unit unit = unit_of(reading.probe);
    text += "limit " + reading.name + " " + write_value(reading.limit->low, unit) + " to " +
            write_value(reading.limit->high, unit) + "\n";
  }
  return text;
}

std::string write_adjustment(const Circuit& circuit, const circuit::Adjustment& adjustment) {
  const circuit::Reading& reading = circuit.at(adjustment.reading);
  return "adjust " + circuit.at(adjustment.trimmer).name + " until " + reading.name + " reads " +
         write_value(adjustment.target, unit_of(reading.probe)) + " within " +
         write_value(adjustment.within, difference_unit_of(reading.probe)) + "\n";
}

std::string write_printed(const Circuit& circuit, const circuit::PrintedVolts& printed) {
  const std::string volts = write_value(printed.volts, Unit::volt);
  if (const auto leg = printed_leg(circuit, printed)) return "printed " + *leg + volts + "\n";
  return "printed volts " + write_node(circuit, printed.a) + " " + write_node(circuit, printed.b) +
         " " + volts + "\n";
}

}  // namespace idlepoint::language
