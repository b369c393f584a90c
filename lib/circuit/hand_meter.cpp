#include "circuit/hand_meter.hpp"

#include <algorithm>
#include <string>
#include <utility>

namespace idlepoint::circuit {
namespace {

constexpr double not_connected_ohm = 1e15;
constexpr double ohms_range_ohm = ohms_range_v / ohms_range_a;

const char* const limiting = "hand meter, limiting";
const char* const lifted_limit = "hand meter, leads off";

PartId add_part(Circuit& circuit, Part part) {
  part.name = "hand meter " + std::to_string(circuit.parts.size());
  circuit.parts.push_back(std::move(part));
  return {circuit.parts.size() - 1};
}

PartId add_feed(Circuit& circuit, NodeId from, NodeId into) {
  Part feed;
  feed.kind = PartKind::feed;
  feed.leads = {from, into};
  feed.details = FeedDetails{.compliance_v = std::nullopt};
  return add_part(circuit, std::move(feed));
}

PartId add_resistance(Circuit& circuit, NodeId a, NodeId b) {
  Part resistor;
  resistor.kind = PartKind::resistor;
  resistor.leads = {a, b};
  resistor.value = not_connected_ohm;
  resistor.details = ResistorDetails{};
  return add_part(circuit, std::move(resistor));
}

/// A zener of no silicon: sharp at its volts, and no diode the other way.
TypeId limiter_type(Circuit& circuit, const char* name, double volts) {
  if (const auto known = find_type(circuit, name)) return *known;
  devices::DiodeData law;
  law.saturation_current_a = 1e-30;
  law.ideality = 2.0;
  law.zener_voltage_v = volts;
  law.zener_test_current_a = diode_range_a;
  law.measured_at_k = circuit.ambient_k;
  circuit.types.push_back({.name = name,
                           .kind = PartKind::diode,
                           .law = law,
                           .ratings = {},
                           .spreads = {},
                           .source = {},
                           .place = {}});
  return {circuit.types.size() - 1};
}

}  // namespace

HandMeter add_ohms_range(Circuit& circuit, NodeId red, NodeId black) {
  HandMeter meter{HandMeter::Range::ohms, {red, black}, {}, {}, {}};
  meter.feed = add_feed(circuit, black, red);
  meter.across = add_resistance(circuit, red, black);
  return meter;
}

HandMeter add_diode_range(Circuit& circuit, NodeId red, NodeId black) {
  constexpr double out_of_the_way = 4.0;
  HandMeter meter{HandMeter::Range::diode, {red, black}, {}, {}, {}};
  meter.feed = add_feed(circuit, black, red);
  meter.across = add_resistance(circuit, red, black);
  (void)limiter_type(circuit, limiting, diode_range_v);
  Part limiter;
  limiter.kind = PartKind::diode;
  limiter.leads = {black, red};
  limiter.details = DiodeDetails{};
  limiter.type = limiter_type(circuit, lifted_limit, out_of_the_way * diode_range_v);
  meter.limiter = add_part(circuit, std::move(limiter));
  return meter;
}

HandMeter add_volts_range(Circuit& circuit, NodeId red, NodeId black) {
  HandMeter meter{HandMeter::Range::volts, {red, black}, {}, {}, {}};
  meter.across = add_resistance(circuit, red, black);
  return meter;
}

void connect(Circuit& circuit, const HandMeter& meter) {
  switch (meter.range) {
    case HandMeter::Range::ohms:
      circuit.at(*meter.feed).value = ohms_range_a;
      circuit.at(*meter.across).value = ohms_range_ohm;
      break;
    case HandMeter::Range::diode:
      circuit.at(*meter.feed).value = diode_range_a;
      circuit.at(*meter.across).value = not_connected_ohm;
      circuit.at(*meter.limiter).type = find_type(circuit, limiting);
      break;
    case HandMeter::Range::volts:
      circuit.at(*meter.across).value = circuit.meter.input_ohm;
      break;
  }
}

void connect_softly(Circuit& circuit, const HandMeter& meter) {
  connect(circuit, meter);
  if (meter.range != HandMeter::Range::diode) return;
  circuit.at(*meter.across).value = diode_range_v / diode_range_a;
}

void disconnect(Circuit& circuit, const HandMeter& meter) {
  if (meter.feed) circuit.at(*meter.feed).value = 0.0;
  if (meter.across) circuit.at(*meter.across).value = not_connected_ohm;
  if (meter.limiter) circuit.at(*meter.limiter).type = find_type(circuit, lifted_limit);
}

std::optional<double> ohms_shown(double volts) noexcept {
  if (volts >= volts_of_ohms(ohms_are_open_ohm)) return std::nullopt;
  return std::max(0.0, ohms_range_ohm * volts / (ohms_range_v - volts));
}

double volts_of_ohms(double ohms) noexcept { return ohms_range_v * ohms / (ohms + ohms_range_ohm); }

std::optional<double> diode_shown(double volts) noexcept {
  if (volts >= diode_is_open_v) return std::nullopt;
  return volts;
}

}  // namespace idlepoint::circuit
