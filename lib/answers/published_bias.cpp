#include "answers/published_bias.hpp"

#include <fmt/format.h>

#include <optional>

#include "answers/emitter_resistors.hpp"
#include "values/constants.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Circuit;
using circuit::Part;
using circuit::PartId;

bool has_lead_at(const Part& resistor, const std::optional<circuit::NodeId>& node) {
  return node && (circuit::lead(resistor, 0) == node || circuit::lead(resistor, 1) == node);
}

/// Which transistor stands at an emitter resistor, and whether the rule is made for it.
std::variant<PartId, std::string> follower_at(const Circuit& circuit, PartId resistor) {
  const Part& read = circuit.at(resistor);
  std::optional<PartId> follower;
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    const Part& part = circuit.parts[index];
    if (!circuit::is_transistor(part.kind) || part.damage.absent) continue;
    if (has_lead_at(read, circuit::lead(part, circuit::collector_or_drain)) &&
        !has_lead_at(read, circuit::lead(part, circuit::emitter_or_source)) &&
        circuit::lead(part, circuit::collector_or_drain) != circuit::output_node(circuit)) {
      return fmt::format(
          "it is made for emitter followers; here the collector of {} gives the load its current, "
          "and such pairs are flattest at far less",
          part.name);
    }
    if (has_lead_at(read, circuit::lead(part, circuit::emitter_or_source)) && !follower) {
      follower = PartId{index};
    }
  }
  if (!follower) return "no transistor stands at the resistor that is read";
  const Part& part = circuit.at(*follower);
  if (!circuit::is_bipolar(part.kind)) {
    return fmt::format("it is made for bipolar transistors; {} is a FET", part.name);
  }
  if (circuit::lead(part, circuit::collector_or_drain) == circuit::output_node(circuit)) {
    return fmt::format(
        "it is made for emitter followers; {} gives the load its current by its "
        "collector",
        part.name);
  }
  return *follower;
}

PublishedResistor at_resistor(const Circuit& circuit,
                              PartId resistor,
                              PartId transistor,
                              const solve::OperatingPoint& state) {
  const Part& part = circuit.at(transistor);
  const auto& law = std::get<devices::BipolarData>(circuit.at(*part.type).law);
  PublishedResistor one;
  one.resistor = resistor;
  one.transistor = transistor;
  one.thermal_v = values::thermal_voltage_v(state.part(transistor).junction_k);
  one.resistor_ohm = circuit.at(resistor).value;
  one.inside_ohm =
      law.emitter_resistance_ohm + law.base_resistance_ohm / part.damage.gain.value_or(law.gain);
  one.standing_a = one.thermal_v / (one.resistor_ohm + one.inside_ohm);
  one.across_v = one.standing_a * one.resistor_ohm;
  return one;
}

}  // namespace

std::variant<PublishedBias, std::string> published_bias(const Circuit& circuit,
                                                        const circuit::Probe& probe,
                                                        const solve::OperatingPoint& state) {
  const auto* points = std::get_if<circuit::VoltsBetween>(&probe);
  const auto read = points == nullptr ? std::nullopt : resistors_read(circuit, *points);
  if (!read || !read->is_emitter_resistor) {
    return "it is told as volts across an emitter resistor, and the reading is not one";
  }
  PublishedBias bias;
  std::vector<PartId> resistors{read->first};
  if (read->second) resistors.push_back(*read->second);
  for (const PartId resistor : resistors) {
    const auto follower = follower_at(circuit, resistor);
    if (const auto* reason = std::get_if<std::string>(&follower)) return *reason;
    bias.resistors.push_back(at_resistor(circuit, resistor, std::get<PartId>(follower), state));
    bias.reading_v += bias.resistors.back().across_v;
  }
  if (state.read(circuit, probe) < 0.0) bias.reading_v = -bias.reading_v;
  return bias;
}

}  // namespace idlepoint::answers
