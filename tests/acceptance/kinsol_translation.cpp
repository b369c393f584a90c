#include "acceptance/kinsol_translation.hpp"

#include <catch2/catch.hpp>
#include <cmath>

namespace idlepoint::tests {

using circuit::Part;
using circuit::PartKind;

double resistance_ohm(const Part& part, double temperature_k) {
  switch (part.kind) {
    case PartKind::resistor: {
      const auto& details = std::get<circuit::ResistorDetails>(part.details);
      return part.value * (1.0 + details.tempco_per_k * (temperature_k - 298.15));
    }
    case PartKind::thermistor: {
      const auto& details = std::get<circuit::ThermistorDetails>(part.details);
      return part.value * std::exp(details.beta_k * (1.0 / temperature_k - 1.0 / 298.15));
    }
    default:
      return std::get<circuit::SeriesDetails>(part.details).resistance_ohm;
  }
}

namespace {

class Translator {
 public:
  explicit Translator(const circuit::Circuit& circuit) : circuit_(circuit) {
    result_.amplifier.nodes = circuit.nodes.size();
    for (const circuit::Rail& rail : circuit.rails) {
      result_.amplifier.rails.push_back(
          {rail.node.index, rail.measured_v.value_or(rail.nominal_v), rail.resistance_ohm});
    }
    for (std::size_t k = 0; k < circuit.parts.size(); ++k) add(circuit.parts[k], {k});
  }

  [[nodiscard]] Translation result() && { return std::move(result_); }

 private:
  static std::size_t node(const Part& part, std::size_t lead) {
    return part.leads.at(lead).value().index;
  }

  void add(const Part& part, circuit::PartId id) {
    switch (part.kind) {
      case PartKind::capacitor:
      case PartKind::load:
        return;
      case PartKind::resistor:
      case PartKind::thermistor:
      case PartKind::inductor:
      case PartKind::fuse:
        result_.resistors.push_back({&part, id, result_.amplifier.resistors.size()});
        return result_.amplifier.resistors.push_back(
            {node(part, 0), node(part, 1), resistance_ohm(part, circuit_.ambient_k)});
      case PartKind::trimmer:
        return add_trimmer(part, id);
      case PartKind::diode:
        return add_diode(part, id);
      case PartKind::npn:
      case PartKind::pnp:
        return add_transistor(part, id);
      default:
        FAIL(part.name << " is of a kind that this test does not know");
    }
  }

  void add_trimmer(const Part& part, circuit::PartId id) {
    const auto& details = std::get<circuit::TrimmerDetails>(part.details);
    REQUIRE(details.wiper_resistance_ohm == 0.0);
    result_.trimmers.push_back({&part, id, result_.amplifier.resistors.size()});
    const auto stretch = [&](std::size_t lead, double share) {
      if (!part.leads[lead]) return;
      result_.amplifier.resistors.push_back(
          {node(part, lead), node(part, 1), share * part.value + details.end_resistance_ohm});
    };
    stretch(0, details.travel);
    stretch(2, 1.0 - details.travel);
  }

  void add_diode(const Part& part, circuit::PartId id) {
    const auto& law = std::get<devices::DiodeData>(circuit_.at(part.type.value()).law);
    REQUIRE_FALSE(law.zener_voltage_v.has_value());
    result_.diodes.push_back({&part, id, result_.amplifier.diodes.size()});
    const auto& details = std::get<circuit::DiodeDetails>(part.details);
    result_.amplifier.diodes.push_back({node(part, 0),
                                        node(part, 1),
                                        law.saturation_current_a,
                                        law.ideality,
                                        law.series_resistance_ohm,
                                        static_cast<double>(details.junctions),
                                        law.temperature_power,
                                        law.band_gap_ev,
                                        law.measured_at_k,
                                        circuit_.ambient_k});
  }

  void add_transistor(const Part& part, circuit::PartId id) {
    const auto& law = std::get<devices::BipolarData>(circuit_.at(part.type.value()).law);
    result_.transistors.push_back({&part, id, result_.amplifier.transistors.size()});
    result_.amplifier.transistors.push_back({node(part, 0),
                                             node(part, 1),
                                             node(part, 2),
                                             part.kind == PartKind::pnp,
                                             law.saturation_current_a,
                                             law.gain,
                                             law.inverse_gain,
                                             law.ideality,
                                             law.inverse_ideality,
                                             law.early_voltage_v,
                                             law.inverse_early_voltage_v,
                                             law.knee_current_a,
                                             law.inverse_knee_current_a,
                                             law.recombination_current_a,
                                             law.recombination_ideality,
                                             law.collector_recombination_current_a,
                                             law.collector_recombination_ideality,
                                             law.cutoff_current_a,
                                             law.cutoff_doubles_every_k,
                                             law.base_resistance_ohm,
                                             law.collector_resistance_ohm,
                                             law.emitter_resistance_ohm,
                                             law.emitter_base_breakdown_voltage_v,
                                             law.gain_temperature_power,
                                             law.temperature_power,
                                             law.band_gap_ev,
                                             law.measured_at_k,
                                             circuit_.ambient_k});
  }

  const circuit::Circuit& circuit_;
  Translation result_;
};

}  // namespace

Translation translated(const circuit::Circuit& circuit) { return Translator(circuit).result(); }

}  // namespace idlepoint::tests
