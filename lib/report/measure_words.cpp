#include "report/measure_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <variant>
#include <vector>

#include "report/figures.hpp"
#include "report/words.hpp"
#include "values/constants.hpp"
#include "values/format.hpp"

namespace idlepoint::report {
namespace {

using circuit::Circuit;
using circuit::DiodeBetween;
using circuit::Firmness;
using circuit::Measurement;
using circuit::NodeId;
using circuit::OhmsBetween;
using circuit::Probe;
using circuit::VoltsBetween;

std::string point(const Circuit& circuit, NodeId node) {
  return circuit::node_in_words(circuit, node);
}

bool is_two_legged(const circuit::Part& part, NodeId a, NodeId b) {
  if (part.damage.absent || part.leads.size() != 2 || part.kind == circuit::PartKind::capacitor) {
    return false;
  }
  return (part.leads[0] == a && part.leads[1] == b) || (part.leads[0] == b && part.leads[1] == a);
}

// "(across R610)": the parts of two legs that join the points themselves.
std::string across(const Circuit& circuit, NodeId a, NodeId b) {
  std::vector<std::string> names;
  for (const auto& part : circuit.parts) {
    if (is_two_legged(part, a, b)) names.push_back(part.name);
  }
  return names.empty() ? "" : fmt::format(" (across {})", list_in_words(names));
}

// "e5 (emitter of Q605)": whose leg the hand looks for; a transistor's where there is one.
std::string point_and_leg(const Circuit& circuit, NodeId node) {
  const std::string name = point(circuit, node);
  if (node == circuit::ground || circuit::find_rail(circuit, node)) return name;
  for (const auto& part : circuit.parts) {
    if (part.damage.absent || !circuit::is_transistor(part.kind)) continue;
    for (std::size_t lead = 0; lead < part.leads.size(); ++lead) {
      if (part.leads[lead] != node) continue;
      return fmt::format("{} ({} of {})", name, circuit::lead_in_words(part.kind, lead), part.name);
    }
  }
  return name;
}

std::string power_off(const Circuit& circuit, const char* range, NodeId a, NodeId b) {
  return fmt::format("{} {} to {}{}, red lead on {}, power off",
                     range,
                     point(circuit, a),
                     point(circuit, b),
                     across(circuit, a, b),
                     point(circuit, a));
}

bool is_ohms(const Measurement& measurement) {
  return std::holds_alternative<OhmsBetween>(measurement);
}

answers::ReadingUnit unit_shown(const Measurement& measurement) {
  const auto* probe = std::get_if<Probe>(&measurement);
  return probe == nullptr ? answers::ReadingUnit::volt : answers::unit_of(*probe);
}

// Two figures of ohms are all that a part in circuit has a meaning for.
std::string ohms(double value) { return values::format_ohms(value, 2); }

/// A base (or gate) that stands at a point, and a transistor there with a rail on the next leg.
struct Slip {
  const circuit::Part* controlled;
  const circuit::Part* beside;
  std::string rail;
};

constexpr std::size_t control_lead = 1;  // b, g

bool is_at(const circuit::Part& part, NodeId node) {
  return std::find(part.leads.begin(), part.leads.end(), node) != part.leads.end();
}

std::optional<NodeId> rail_beside(const Circuit& circuit, const circuit::Part& part, NodeId node) {
  if (!is_at(part, node)) return std::nullopt;
  for (const auto& lead : part.leads) {
    if (lead && *lead != node && circuit::find_rail(circuit, *lead)) return lead;
  }
  return std::nullopt;
}

std::optional<Slip> slip_at(const Circuit& circuit, NodeId node) {
  if (circuit::find_rail(circuit, node)) return std::nullopt;
  const circuit::Part* controlled = nullptr;
  const circuit::Part* beside = nullptr;
  std::string rail;
  for (const auto& part : circuit.parts) {
    if (part.damage.absent || !circuit::is_transistor(part.kind)) continue;
    const auto rail_node = rail_beside(circuit, part, node);
    const bool is_control = part.leads[control_lead] == node;
    // One transistor that is both says it best.
    if (is_control && (controlled == nullptr || rail_node)) controlled = &part;
    if (rail_node && (beside == nullptr || is_control)) {
      beside = &part;
      rail = point(circuit, *rail_node);
    }
  }
  if (controlled == nullptr || beside == nullptr) return std::nullopt;
  return Slip{controlled, beside, rail};
}

std::string slip_in_words(const Slip& slip) {
  const char* control = circuit::is_fet(slip.controlled->kind) ? "gate" : "base";
  if (slip.controlled == slip.beside) {
    return fmt::format(
        "the {} of {} is a leg away from {}", control, slip.controlled->name, slip.rail);
  }
  return fmt::format("this is the {} of {}, and on {} the next leg is {}",
                     control,
                     slip.controlled->name,
                     slip.beside->name,
                     slip.rail);
}

std::string how_of_volts(const Circuit& circuit, const VoltsBetween& volts) {
  const auto on_a = slip_at(circuit, volts.a);
  const auto slip = on_a ? on_a : slip_at(circuit, volts.b);
  const std::string a = point_and_leg(circuit, volts.a);
  const std::string b = point_and_leg(circuit, volts.b);
  if (slip) {
    return fmt::format(
        "Power off, reservoirs down, hook both leads on: black on {}, red on {}. Power on, hands "
        "away, read, power off. Do not touch about with a probe here: {}, and a slip that joins "
        "the two can turn it hard on.",
        b,
        a,
        slip_in_words(*slip));
  }
  return fmt::format(
      "Power off, hook the black lead on {}. Power on, one hand, the probe taped to its tip: touch "
      "{} once.",
      b,
      a);
}

constexpr const char* break_the_lead =
    "Power off and reservoirs down before the lead is opened, and again before it is closed; the "
    "meter on its highest range first, and its lead back in the volts hole at once.";

std::string how_of_amps(const Circuit& circuit, const circuit::AmpsThrough& amps) {
  if (const auto* rail = std::get_if<circuit::RailId>(&amps.what)) {
    return fmt::format("The meter in place of the fuse of {}, with the lamp in the mains lead. {}",
                       point(circuit, circuit.at(*rail).node),
                       break_the_lead);
  }
  const auto& part = circuit.at(std::get<circuit::PartId>(amps.what));
  if (part.kind == circuit::PartKind::resistor && part.value > 0.0) {
    return fmt::format("Nothing is opened: read the volts across {}; {} there is 1 mA.",
                       part.name,
                       volts(part.value * 1e-3));
  }
  return fmt::format("The meter in a lead of {}. {}", part.name, break_the_lead);
}

std::string how_of_power_off(NodeId a, NodeId b, const Circuit& circuit) {
  return fmt::format(
      "Plug out, reservoirs discharged and measured, nothing lifted. Red lead on {}, black on {}; "
      "wait until it stands still. Of a needle meter the black lead is mostly the positive one: "
      "try it on a diode first.",
      point_and_leg(circuit, a),
      point_and_leg(circuit, b));
}

struct HowToTake {
  const Circuit& circuit;

  std::string operator()(const VoltsBetween& volts) const { return how_of_volts(circuit, volts); }
  std::string operator()(const circuit::AmpsThrough& amps) const {
    return how_of_amps(circuit, amps);
  }
  std::string operator()(const circuit::WattsIn&) const {
    return "Read the volts across it and the amps through it: watts are the two multiplied.";
  }
  std::string operator()(const circuit::CelsiusOf&) const {
    return "A probe for temperature with an insulated tip, held on; never a finger: the can bears "
           "its collector's volts.";
  }
};

std::string movement(Firmness firmness) {
  if (firmness == Firmness::jumps) return "jumps";
  return firmness == Firmness::drifts_up ? "drifts up" : "drifts down";
}

bool is_movement(Firmness firmness) {
  return firmness == Firmness::jumps || firmness == Firmness::drifts_up ||
         firmness == Firmness::drifts_down;
}

// To the digits the person gave, as far as three.
std::string as_given(const Measurement& measurement, double si_value) {
  if (is_ohms(measurement)) return values::format_ohms(si_value);
  const auto unit = unit_shown(measurement);
  const double value = answers::in_own_unit(si_value, unit);
  return value == 0.0 ? figure(value, unit) : as_written(value, unit);
}

}  // namespace

std::string measurement_in_words(const Circuit& circuit, const Measurement& measurement) {
  if (const auto* ohms = std::get_if<OhmsBetween>(&measurement)) {
    return power_off(circuit, "ohms", ohms->a, ohms->b);
  }
  if (const auto* diode = std::get_if<DiodeBetween>(&measurement)) {
    return power_off(circuit, "diode range", diode->a, diode->b);
  }
  const auto& probe = std::get<Probe>(measurement);
  const std::string words = probe_in_words(circuit, probe);
  const auto* volts = std::get_if<VoltsBetween>(&probe);
  return volts == nullptr ? words : "volts " + words + across(circuit, volts->a, volts->b);
}

std::string shown_in_words(const Measurement& measurement, double value) {
  return is_ohms(measurement) ? ohms(value) : figure(value, unit_shown(measurement));
}

std::string expected_in_words(const Measurement& measurement, const answers::Expected& expected) {
  if (expected.beyond_range) return "open";
  const std::string text = shown_in_words(measurement, expected.value);
  if (!is_ohms(measurement)) {
    const std::string brackets =
        band(expected.low, expected.high, expected.value, unit_shown(measurement));
    return brackets.empty() ? text : text + " " + brackets;
  }
  const std::string low = ohms(expected.low);
  const std::string high = ohms(expected.high);
  return low == high ? text : fmt::format("{} ({} to {})", text, low, high);
}

std::string reading_in_words(const circuit::BenchReading& reading) {
  std::string text = reading.name;
  if (reading.firmness == Firmness::beyond_range) return text + " open";
  if (reading.firmness == Firmness::about) text += " about";
  if (reading.value) text += " " + as_given(reading.measurement, *reading.value);
  if (is_movement(reading.firmness)) text += " " + movement(reading.firmness);
  return text;
}

std::string how_to_take(const Circuit& circuit, const Measurement& measurement) {
  if (const auto* ohms = std::get_if<OhmsBetween>(&measurement)) {
    return how_of_power_off(ohms->a, ohms->b, circuit);
  }
  if (const auto* diode = std::get_if<DiodeBetween>(&measurement)) {
    return how_of_power_off(diode->a, diode->b, circuit);
  }
  return std::visit(HowToTake{circuit}, std::get<Probe>(measurement));
}

}  // namespace idlepoint::report
