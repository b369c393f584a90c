#include "solve/lane_targets.hpp"

#include <string_view>

namespace idlepoint::solve {
namespace {

using circuit::Parameter;
using circuit::PartId;
using circuit::PartKind;

struct FieldTarget {
  std::string_view field;
  Scaled what;
};

constexpr FieldTarget bipolar_fields[] = {
    {"saturation_current", Scaled::saturation},
    {"gain", Scaled::gain},
    {"inverse_gain", Scaled::inverse_gain},
    {"early_voltage", Scaled::early_voltage},
    {"inverse_early_voltage", Scaled::inverse_early_voltage},
    {"knee_current", Scaled::knee_current},
    {"inverse_knee_current", Scaled::inverse_knee_current},
    {"recombination_current", Scaled::recombination},
    {"collector_recombination_current", Scaled::collector_recombination},
    {"cutoff_current", Scaled::cutoff},
};
constexpr FieldTarget fet_fields[] = {
    {"threshold_voltage", Scaled::threshold},
    {"current_factor", Scaled::current_factor},
    {"drain_slope", Scaled::drain_slope},
};
constexpr FieldTarget diode_fields[] = {
    {"saturation_current", Scaled::diode_saturation},
    {"zener_voltage", Scaled::diode_zener},
    {"zener_test_current", Scaled::diode_test_current},
};

class Finder {
 public:
  Finder(const circuit::Circuit& circuit, const System& system)
      : circuit_(circuit), system_(system) {}

  [[nodiscard]] bool add(std::size_t index, const Parameter& parameter) {
    if (const auto* rail = std::get_if<circuit::RailId>(&parameter.owner)) {
      targets.push_back({index, Scaled::emf, *system_.wiring.rail_sources[rail->index]});
      return true;
    }
    const PartId id = std::get<PartId>(parameter.owner);
    return parameter.field == "value" ? add_value(index, id) : add_field(index, id, parameter);
  }

  std::vector<LaneTarget> targets;

 private:
  [[nodiscard]] bool add_value(std::size_t index, PartId id) {
    const PartKind kind = circuit_.at(id).kind;
    if (kind == PartKind::trimmer) {
      for (std::size_t k = 0; k < system_.wiring.tracks.size(); ++k) {
        if (system_.wiring.tracks[k].part == id) targets.push_back({index, Scaled::track, k});
      }
      return true;
    }
    if (kind != PartKind::resistor && kind != PartKind::load) return false;
    for (std::size_t k = 0; k < system_.wiring.conductors.size(); ++k) {
      if (system_.wiring.conductors[k].owner_a.part == id) {
        targets.push_back({index, Scaled::conductance, k});
      }
    }
    return true;
  }

  [[nodiscard]] bool add_field(std::size_t index, PartId id, const Parameter& parameter) {
    const PartKind kind = circuit_.at(id).kind;
    if (circuit::is_bipolar(kind)) {
      return add(index, id, parameter, bipolar_fields, system_.wiring.bipolars);
    }
    if (circuit::is_fet(kind)) return add(index, id, parameter, fet_fields, system_.wiring.fets);
    for (const FieldTarget& known : diode_fields) {
      if (known.field != parameter.field) continue;
      for (std::size_t k = 0; k < system_.wiring.diodes.size(); ++k) {
        if (system_.wiring.diodes[k].owner_b.part == id) targets.push_back({index, known.what, k});
      }
      return true;
    }
    return false;
  }

  template <std::size_t size>
  [[nodiscard]] bool add(std::size_t index,
                         PartId id,
                         const Parameter& parameter,
                         const FieldTarget (&fields)[size],
                         const std::vector<ThreePole>& poles) {
    for (const FieldTarget& known : fields) {
      if (known.field != parameter.field) continue;
      for (std::size_t k = 0; k < poles.size(); ++k) {
        if (poles[k].part == id) targets.push_back({index, known.what, k});
      }
      return true;
    }
    return false;
  }

  const circuit::Circuit& circuit_;
  const System& system_;
};

}  // namespace

std::optional<std::vector<LaneTarget>> lane_targets(const circuit::Circuit& circuit,
                                                    const System& system,
                                                    const circuit::Uncertainty& uncertainty) {
  Finder finder(circuit, system);
  for (std::size_t k = 0; k < uncertainty.parameters.size(); ++k) {
    if (!finder.add(k, uncertainty.parameters[k])) return std::nullopt;
  }
  return std::move(finder.targets);
}

}  // namespace idlepoint::solve
