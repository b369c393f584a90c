#include "language/write_parts.hpp"

#include <array>
#include <string_view>

#include "circuit/part_value.hpp"
#include "language/write_words.hpp"
#include "values/format.hpp"

namespace idlepoint::language {
namespace {

using circuit::Circuit;
using circuit::Part;
using circuit::PartKind;
using circuit::SpareLeg;
using values::Unit;

std::string pair(std::string_view key, double value, Unit unit) {
  return " " + std::string(key) + "=" + values::write_value(value, unit);
}

std::string pair(std::string_view key, const std::optional<double>& value, Unit unit) {
  return value ? pair(key, *value, unit) : std::string();
}

std::string lead_word(const Circuit& circuit, const Part& part, std::size_t index) {
  const auto node = circuit::lead(part, index);
  return node ? write_node(circuit, *node) : "-";
}

std::string write_mounting(const Circuit& circuit, const Part& part) {
  std::string text;
  const circuit::Mounting& mounting = part.mounting;
  if (mounting.heatsink) text += " on=" + circuit.at(*mounting.heatsink).name;
  if (part.kind == PartKind::thermistor) return text;
  if (mounting.washer_k_per_w != 0.0) {
    text += pair("washer", mounting.washer_k_per_w, Unit::kelvin_per_watt);
  }
  if (mounting.coupling != 1.0) text += pair("coupling", mounting.coupling, Unit::percent);
  return text;
}

// clockwise=a, in capitals where a point of that name is wired to the other end.
std::string write_clockwise(const Circuit& circuit, const Part& part, circuit::TrackEnd end) {
  const bool is_a = end == circuit::TrackEnd::a;
  const std::string letter = is_a ? "a" : "b";
  const bool taken = lead_word(circuit, part, 0) == letter || lead_word(circuit, part, 2) == letter;
  return " clockwise=" + (taken ? std::string(is_a ? "A" : "B") : letter);
}

std::string write_trimmer(const Circuit& circuit, const Part& part) {
  const auto& details = std::get<circuit::TrimmerDetails>(part.details);
  std::string line = "trimmer " + part.name + " " + lead_word(circuit, part, 0) + " " +
                     lead_word(circuit, part, 1);
  if (details.spare == SpareLeg::none) line += " " + lead_word(circuit, part, 2);
  line += " " + values::write_value(part.value, Unit::ohm);
  line += pair("at", details.travel, Unit::percent);
  line += pair("end_resistance", details.end_resistance_ohm, Unit::ohm);
  line += pair("wiper_resistance", details.wiper_resistance_ohm, Unit::ohm);
  if (details.clockwise) line += write_clockwise(circuit, part, *details.clockwise);
  line += pair("turns", details.turns, Unit::none);
  line += pair("tolerance", part.tolerance, Unit::tolerance);
  if (details.spare == SpareLeg::tied) line += " spare=tied";
  if (details.spare == SpareLeg::free) line += " spare=free";
  if (details.spare == SpareLeg::unknown) line += " spare=unknown";
  return line;
}

std::string write_device(const Circuit& circuit, const Part& part) {
  std::string line = std::string(circuit::keyword(part.kind)) + " " + part.name;
  const auto names = circuit::lead_names(part.kind);
  for (std::size_t index = 0; index < names.size(); ++index) {
    line += " " + std::string(names[index]) + "=" + lead_word(circuit, part, index);
  }
  line += " type=" + (part.type ? circuit.at(*part.type).name : std::string("?"));
  if (const auto* diode = std::get_if<circuit::DiodeDetails>(&part.details)) {
    line += " junctions=" + std::to_string(diode->junctions);
  }
  return line + write_mounting(circuit, part);
}

std::string write_feed(const Circuit& circuit, const Part& part) {
  std::string line = "feed " + part.name + " " + values::write_value(part.value, Unit::ampere) +
                     " from=" + lead_word(circuit, part, 0) +
                     " into=" + lead_word(circuit, part, 1);
  const auto& details = std::get<circuit::FeedDetails>(part.details);
  if (!details.compliance_v) return line + " compliance=none";
  return line + pair("compliance", *details.compliance_v, Unit::volt);
}

// The pairs of a part with two leads.
struct PairsOf {
  const Part& part;

  std::string operator()(std::monostate) const { return {}; }
  std::string operator()(const circuit::ResistorDetails& details) const {
    return pair("tolerance", part.tolerance, Unit::tolerance) +
           pair("power", details.power_w, Unit::watt) +
           pair("tempco", details.tempco_per_k, Unit::ppm_per_kelvin);
  }
  std::string operator()(const circuit::CapacitorDetails& details) const {
    return pair("leakage", details.leakage_ohm, Unit::ohm) +
           pair("voltage", details.rated_v, Unit::volt);
  }
  std::string operator()(const circuit::SeriesDetails& details) const {
    return pair("resistance", details.resistance_ohm, Unit::ohm);
  }
  std::string operator()(const circuit::LampDetails& details) const {
    return pair("voltage", details.rated_v, Unit::volt) +
           pair("power", details.rated_w, Unit::watt);
  }
  std::string operator()(const circuit::ThermistorDetails& details) const {
    return details.beta_assumed ? std::string() : pair("beta", details.beta_k, Unit::kelvin);
  }
  std::string operator()(const circuit::TrimmerDetails&) const { return {}; }
  std::string operator()(const circuit::FeedDetails&) const { return {}; }
  std::string operator()(const circuit::DiodeDetails&) const { return {}; }
};

std::string write_two_leads(const Circuit& circuit, const Part& part) {
  std::string line = std::string(circuit::keyword(part.kind)) + " " + part.name + " " +
                     lead_word(circuit, part, 0) + " " + lead_word(circuit, part, 1);
  if (part.kind != PartKind::link && part.kind != PartKind::lamp) {
    line += " " + values::write_value(part.value, circuit::unit_of_value(part.kind));
  }
  line += std::visit(PairsOf{part}, part.details);
  if (part.kind == PartKind::thermistor) line += write_mounting(circuit, part);
  return line;
}

}  // namespace

std::string write_part(const Circuit& circuit, const Part& part) {
  if (part.kind == PartKind::trimmer) return write_trimmer(circuit, part) + "\n";
  if (part.kind == PartKind::feed) return write_feed(circuit, part) + "\n";
  if (circuit::has_type(part.kind)) return write_device(circuit, part) + "\n";
  return write_two_leads(circuit, part) + "\n";
}

}  // namespace idlepoint::language
