#include "solve/sensitivity.hpp"

#include "solve/adjoint.hpp"
#include "solve/parameter_slopes.hpp"

namespace idlepoint::solve {
namespace {

using circuit::Circuit;
using circuit::Parameter;
using circuit::PartId;

/// The state and what of it every quantity shares.
class Stage {
 public:
  Stage(const Circuit& circuit, StateFinder& finder, const Rest& rest, const Sought& sought)
      : circuit_(circuit),
        finder_(finder),
        rest_(rest),
        sought_(sought),
        slopes_(circuit,
                finder.solver().system(),
                finder.solver().numbers(),
                rest.at.state,
                finder.solver().work()) {
    by_parameter_.reserve(sought.parameters.size());
    ideal_of_.reserve(sought.parameters.size());
    for (const Parameter& parameter : sought.parameters) {
      const auto* part = std::get_if<PartId>(&parameter.owner);
      by_parameter_.push_back(
          slopes_.by_parameter(parameter, part ? temperature_k(part->index) : circuit.ambient_k));
      ideal_of_.push_back(slopes_.ideal_of(parameter));
      moves_points_ = moves_points_ || ideal_of_.back();
    }
    for (std::size_t k = 0; sought.with_heat && k < circuit.parts.size(); ++k) {
      by_temperature_.push_back(slopes_.by_temperature(PartId{k}, temperature_k(k)));
    }
  }

  [[nodiscard]] std::optional<Sensitivity> of(const Border& border,
                                              const Quantity& quantity,
                                              const circuit::Probe* probe) const {
    const Adjoint adjoint(finder_.solver(), finder_.newton(), border, quantity);
    if (!adjoint.is_sound()) return std::nullopt;
    Sensitivity result;
    result.by_parameter.reserve(sought_.parameters.size());
    std::vector<double> by_point_v;
    if (moves_points_) by_point_v = adjoint.by_point_v();
    for (std::size_t k = 0; k < sought_.parameters.size(); ++k) {
      double slope = adjoint.sum(by_parameter_[k]);
      if (const auto ideal = ideal_of_[k]) {
        slope = by_emf(adjoint, *ideal, by_point_v, probe) * emf_per_unit(k, *ideal);
      }
      result.by_parameter.push_back(slope);
    }
    if (probe != nullptr) result.source_ohm = source_ohm(adjoint, *probe);
    if (!sought_.with_heat) return result;
    add_temperatures(adjoint, probe, result);
    add_mounts(adjoint, probe, result);
    return result;
  }

 private:
  [[nodiscard]] const HeatModel& heat() const { return finder_.heat(); }

  [[nodiscard]] std::optional<std::size_t> heated(std::size_t part) const {
    const std::size_t index = heat().part_of[part];
    if (index >= heat().parts.size()) return std::nullopt;
    return index;
  }

  [[nodiscard]] double temperature_k(std::size_t part) const {
    const auto index = heated(part);
    return index ? rest_.at.temperatures_k[static_cast<Eigen::Index>(*index)] : circuit_.ambient_k;
  }

  /// What a current out of the first point and into the second takes off the volts.
  [[nodiscard]] static double source_ohm(const Adjoint& adjoint, const circuit::Probe& probe) {
    const auto* volts = std::get_if<circuit::VoltsBetween>(&probe);
    if (volts == nullptr) return 0.0;
    return -adjoint.sum({{{}, static_cast<Index>(volts->a.index), 1.0},
                         {{}, static_cast<Index>(volts->b.index), -1.0}});
  }

  /// A source lifts every point that hangs on it away from its group's root.
  [[nodiscard]] double by_emf(const Adjoint& adjoint,
                              std::size_t ideal,
                              const std::vector<double>& by_point_v,
                              const circuit::Probe* probe) const {
    const System& system = finder_.solver().system();
    std::vector<double> lift(at(system.wiring.points), 0.0);
    double slope = 0.0;
    for (const OffsetStep& step : system.offsets) {
      lift[at(step.point)] = lift[at(step.from)] + (step.ideal == ideal ? step.sign : 0.0);
      slope += by_point_v[at(step.point)] * lift[at(step.point)];
    }
    for_each_probe(adjoint, probe, [&](const circuit::Probe& one, double factor, double value) {
      slope += factor * by_own_emf(one, ideal, value);
    });
    return slope;
  }

  /// A rail's watts are its source's volts times its current.
  [[nodiscard]] double by_own_emf(const circuit::Probe& probe,
                                  std::size_t ideal,
                                  double value) const {
    const auto* watts = std::get_if<circuit::WattsIn>(&probe);
    const auto* rail = watts ? std::get_if<circuit::RailId>(&watts->what) : nullptr;
    if (rail == nullptr) return 0.0;
    if (finder_.solver().system().wiring.rail_sources[rail->index] != ideal) return 0.0;
    const double emf_v = finder_.solver().numbers().emf_v[ideal];
    return emf_v == 0.0 ? 0.0 : value / emf_v;
  }

  /// `--rails` scales the source.
  [[nodiscard]] double emf_per_unit(std::size_t parameter, std::size_t ideal) const {
    const double written_v = circuit::nominal(circuit_, sought_.parameters[parameter]);
    return written_v == 0.0 ? 1.0 : finder_.solver().numbers().emf_v[ideal] / written_v;
  }

  /// Calls `visit(probe, factor, value)` for the quantity's own reading and the wanted ones.
  template <class Visit>
  void for_each_probe(const Adjoint& adjoint, const circuit::Probe* own, Visit visit) const {
    std::size_t index = 0;
    adjoint.for_each_reading([&](const ProbeGradient* reading, double factor) {
      const circuit::Probe* probe = index == 0 ? own : &sought_.wanted[index - 1].probe;
      ++index;
      if (probe != nullptr) visit(*probe, factor, reading->value);
    });
  }

  void add_temperatures(const Adjoint& adjoint,
                        const circuit::Probe* own,
                        Sensitivity& result) const {
    for (std::size_t k = 0; k < circuit_.parts.size(); ++k) {
      const auto index = heated(k);
      result.by_temperature.push_back(index ? adjoint.by_heat(*index)
                                            : adjoint.sum(by_temperature_[k]));
    }
    double by_room = 0.0;
    for_each_probe(adjoint, own, [&](const circuit::Probe& probe, double factor, double) {
      const auto* celsius = std::get_if<circuit::CelsiusOf>(&probe);
      if (celsius == nullptr) return;
      const auto* part = std::get_if<PartId>(&celsius->what);
      if (part == nullptr) {
        by_room += factor;
      } else if (!heated(part->index)) {
        result.by_temperature[part->index] += factor;
      }
    });
    result.by_ambient = by_room;
    for (const double slope : result.by_temperature) result.by_ambient += slope;
  }

  void add_mounts(const Adjoint& adjoint, const circuit::Probe* own, Sensitivity& result) const {
    std::vector<double> on_sink_w(circuit_.heatsinks.size(), 0.0);
    result.by_sink_k_per_w.assign(circuit_.heatsinks.size(), 0.0);
    result.by_mount_k_per_w.assign(circuit_.parts.size(), 0.0);
    for (std::size_t j = 0; j < heat().parts.size(); ++j) {
      const HeatedPart& part = heat().parts[j];
      const double power_w = rest_.power_w[static_cast<Eigen::Index>(j)];
      result.by_mount_k_per_w[part.part.index] = adjoint.by_heat(j) * power_w;
      if (part.sink) on_sink_w[*part.sink] += power_w;
    }
    for (std::size_t j = 0; j < heat().parts.size(); ++j) {
      const HeatedPart& part = heat().parts[j];
      if (!part.sink) continue;
      result.by_sink_k_per_w[*part.sink] +=
          adjoint.by_heat(j) * part.coupling * on_sink_w[*part.sink];
    }
    for_each_probe(adjoint, own, [&](const circuit::Probe& probe, double factor, double) {
      const auto* celsius = std::get_if<circuit::CelsiusOf>(&probe);
      const auto* sink = celsius ? std::get_if<circuit::HeatsinkId>(&celsius->what) : nullptr;
      if (sink != nullptr) result.by_sink_k_per_w[sink->index] += factor * on_sink_w[sink->index];
    });
  }

  const Circuit& circuit_;
  StateFinder& finder_;
  const Rest& rest_;
  const Sought& sought_;
  ParameterSlopes slopes_;
  std::vector<std::vector<TerminalSlope>> by_parameter_;    ///< [parameters]
  std::vector<std::optional<std::size_t>> ideal_of_;        ///< [parameters]
  bool moves_points_ = false;                               ///< Some parameter is a source's volts.
  std::vector<std::vector<TerminalSlope>> by_temperature_;  ///< [parts]
};

}  // namespace

std::optional<Sensitivities> sensitivities(const Circuit& circuit,
                                           StateFinder& finder,
                                           const Rest& rest,
                                           const Sought& sought) {
  BorderedNewton& newton = finder.newton();
  const auto border = newton.border(sought.wanted, rest.at);
  if (!border) return std::nullopt;
  const Stage stage(circuit, finder, rest, sought);
  const std::size_t heated = border->heat.size();
  Sensitivities result;
  for (const circuit::Probe& probe : sought.probes) {
    const ProbeGradient reading = probe_gradient(circuit,
                                                 probe,
                                                 finder.solver().system(),
                                                 finder.solver().numbers(),
                                                 newton.ideals(),
                                                 finder.solver().work(),
                                                 finder.heat(),
                                                 border->heat,
                                                 rest.at.temperatures_k);
    auto one = stage.of(*border, {&reading, 0, heated}, &probe);
    if (!one) return std::nullopt;
    result.readings.push_back(std::move(*one));
  }
  for (std::size_t k = 0; k < sought.wanted.size(); ++k) {
    auto one = stage.of(*border, {nullptr, k, border->answers.size()}, nullptr);
    if (!one) return std::nullopt;
    result.positions.push_back(std::move(*one));
  }
  return result;
}

}  // namespace idlepoint::solve
