// Whole amplifiers solved by SUNDIALS KINSOL from equations typed anew, beside our own answer.
//
// Only the values of the drawing are taken from the reader; laws and Kirchhoff's equations stand in
// kinsol_amplifier.cpp, in another formulation.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "acceptance/kinsol_amplifier.hpp"
#include "acceptance/stages_demo.hpp"

namespace idlepoint::tests {
namespace {

using circuit::Part;
using circuit::PartKind;

/// Where a part of the drawing went in the plain amplifier.
struct Counterpart {
  const Part* part;
  circuit::PartId id;
  std::size_t index;  ///< In its list; of a trimmer's first stretch.
};

struct Translation {
  PlainAmplifier amplifier;
  std::vector<Counterpart> resistors, trimmers, diodes, transistors;
};

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

class Translator {
 public:
  explicit Translator(const circuit::Circuit& circuit) : circuit_(circuit) {
    result_.amplifier.nodes = circuit.nodes.size();
    result_.amplifier.temperature_k = circuit.ambient_k;
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
                                        law.measured_at_k});
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
                                             law.measured_at_k});
  }

  const circuit::Circuit& circuit_;
  Translation result_;
};

/// A billionth of the value, and of a volt or a milliampere where the value is nothing.
void check_volts(double ours, double theirs) {
  CHECK(std::abs(ours - theirs) <= 1e-9 * std::max(1.0, std::abs(theirs)));
}
void check_amps(double ours, double theirs) {
  CHECK(std::abs(ours - theirs) <= 1e-9 * std::max(1e-3, std::abs(theirs)));
}

void check_currents(const Translation& drawn,
                    const PlainState& theirs,
                    const solve::OperatingPoint& ours) {
  const auto lead_a = [&](const Counterpart& each, std::size_t lead) {
    return ours.part(each.id).lead_current_a.at(lead);
  };
  for (const Counterpart& each : drawn.resistors) {
    CAPTURE(each.part->name);
    check_amps(lead_a(each, 0), theirs.resistor_a[each.index]);
  }
  for (const Counterpart& each : drawn.trimmers) {
    CAPTURE(each.part->name);
    std::size_t index = each.index;
    for (const std::size_t lead : {0U, 2U}) {
      if (each.part->leads[lead]) check_amps(lead_a(each, lead), theirs.resistor_a[index++]);
    }
  }
  for (const Counterpart& each : drawn.diodes) {
    CAPTURE(each.part->name);
    check_amps(lead_a(each, 0), theirs.diode_a[each.index]);
  }
  for (const Counterpart& each : drawn.transistors) {
    CAPTURE(each.part->name);
    const double collector_a = theirs.collector_a[each.index];
    const double base_a = theirs.base_a[each.index];
    check_amps(lead_a(each, 0), collector_a);
    check_amps(lead_a(each, 1), base_a);
    check_amps(lead_a(each, 2), -(collector_a + base_a));
  }
}

}  // namespace

// Oracle: SUNDIALS KINSOL, from zero volts and zero amperes, on equations typed anew from
// docs/models.md as a sparse tableau, its slopes by differences.
TEST_CASE("KINSOL finds every voltage and every current of a whole amplifier where we find them",
          "[acceptance][kinsol]") {
  const std::string file = GENERATE(as<std::string>{},
                                    "bramble-8w.stage",
                                    "corrie-70w.stage",
                                    "drystone-40w.stage",
                                    "quarry-30w.stage",
                                    "spinney-45w.stage",
                                    "teasel-8w.stage",
                                    "wherry-25w.stage");
  const double ambient_c = GENERATE(25.0, 41.0);
  CAPTURE(file, ambient_c);
  const auto stage = demo_stage(file).edited(
      [&](circuit::Circuit& circuit) { circuit.ambient_k = ambient_c + 273.15; });
  const auto ours = settled(stage);

  const Translation drawn = Translator(*stage).result();
  const auto theirs = solve_by_kinsol(drawn.amplifier);
  REQUIRE(theirs.has_value());
  CHECK(theirs->largest_missing <= 1e-12);
  for (std::size_t k = 0; k < stage->nodes.size(); ++k) {
    CAPTURE(stage->nodes[k].name);
    check_volts(ours.voltage_v({k}), theirs->node_v[k]);
  }
  for (std::size_t k = 0; k < stage->rails.size(); ++k) {
    CAPTURE(stage->at(stage->rails[k].node).name);
    check_amps(ours.rail({k}).delivered_a, theirs->rail_a[k]);
  }
  check_currents(drawn, *theirs, ours);
}

}  // namespace idlepoint::tests
