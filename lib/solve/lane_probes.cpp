#include "solve/lane_probes.hpp"

#include "solve/terminal_weights.hpp"

namespace idlepoint::solve {
namespace {

using circuit::Circuit;
using circuit::PartId;
using circuit::RailId;

/// One overload a kind of probe.
class ProbeMaker {
 public:
  ProbeMaker(const Circuit& circuit, const System& system, const HeatModel& heat)
      : circuit_(circuit), system_(system), heat_(heat), ideals_(system) {}

  [[nodiscard]] LaneProbe operator()(const circuit::VoltsBetween& volts) const {
    LaneProbe probe;
    probe.volts = {static_cast<Index>(volts.a.index), static_cast<Index>(volts.b.index)};
    return probe;
  }

  [[nodiscard]] LaneProbe operator()(const circuit::AmpsThrough& amps) const {
    LaneProbe probe;
    if (const auto* rail = std::get_if<RailId>(&amps.what)) {
      if (auto sum = rail_current(*rail)) probe.currents.push_back(std::move(*sum));
      return probe;
    }
    const PartId part = std::get<PartId>(amps.what);
    const double sign = circuit::is_p_kind(circuit_.at(part).kind) ? -1.0 : 1.0;
    probe.currents.push_back(lead_current(part, 0, sign));
    return probe;
  }

  [[nodiscard]] LaneProbe operator()(const circuit::WattsIn& watts) const {
    LaneProbe probe;
    if (const auto* rail = std::get_if<RailId>(&watts.what)) {
      if (auto sum = rail_current(*rail)) {
        sum->times_ideal = system_.wiring.rail_sources[rail->index];
        probe.currents.push_back(std::move(*sum));
      }
      return probe;
    }
    const PartId part = std::get<PartId>(watts.what);
    const auto& points = system_.wiring.lead_points[part.index];
    for (std::size_t lead = 0; lead < points.size(); ++lead) {
      CurrentSum sum = lead_current(part, lead, 1.0);
      sum.times_point = points[lead];
      probe.currents.push_back(std::move(sum));
    }
    return probe;
  }

  [[nodiscard]] LaneProbe operator()(const circuit::CelsiusOf& celsius) const {
    LaneProbe probe;
    probe.constant = heat_.ambient_k;
    if (heat_.parts.empty()) return probe;
    if (const auto* sink = std::get_if<circuit::HeatsinkId>(&celsius.what)) {
      probe.sink = sink->index;
      return probe;
    }
    const std::size_t part = heat_.part_of[std::get<PartId>(celsius.what).index];
    if (part < heat_.parts.size()) probe.heated = part;
    return probe;
  }

 private:
  [[nodiscard]] CurrentSum sum_of(const TerminalWeights& weights) const {
    CurrentSum sum;
    const Wiring& wiring = system_.wiring;
    const auto add = [&](Family family, std::size_t pole, std::size_t terminal, double weight) {
      if (weight != 0.0) sum.terms.push_back({family, pole, terminal, weight});
    };
    const auto two_poles = [&](Family family, const std::vector<TwoPole>& poles) {
      for (std::size_t k = 0; k < poles.size(); ++k) {
        add(family, k, 0, weights.at(poles[k].owner_a, poles[k].a));
        add(family, k, 1, weights.at(poles[k].owner_b, poles[k].b));
      }
    };
    const auto three_poles = [&](Family family, const std::vector<ThreePole>& poles) {
      for (std::size_t k = 0; k < poles.size(); ++k) {
        for (std::size_t t = 0; t < 3; ++t) {
          add(family, k, t, weights.at({poles[k].part, poles[k].leads[t]}, poles[k].points[t]));
        }
      }
    };
    two_poles(Family::conductor, wiring.conductors);
    two_poles(Family::diode, wiring.diodes);
    two_poles(Family::lamp, wiring.lamps);
    two_poles(Family::feed, wiring.feeds);
    three_poles(Family::bipolar, wiring.bipolars);
    three_poles(Family::fet, wiring.fets);
    for (std::size_t k = 0; k < system_.insulation.size(); ++k) {
      add(Family::insulation, k, 0, weights.at({}, system_.insulation[k].point));
    }
    return sum;
  }

  [[nodiscard]] CurrentSum lead_current(PartId part, std::size_t lead, double factor) const {
    TerminalWeights weights{std::vector<double>(at(system_.wiring.points), 0.0), {}};
    add_lead(system_, ideals_, {part, lead}, factor, weights);
    return sum_of(weights);
  }

  [[nodiscard]] std::optional<CurrentSum> rail_current(RailId rail) const {
    const auto source = system_.wiring.rail_sources[rail.index];
    if (!source) return std::nullopt;
    TerminalWeights weights{std::vector<double>(at(system_.wiring.points), 0.0), {}};
    add_ideal(ideals_, *source, -1.0, weights);
    return sum_of(weights);
  }

  const Circuit& circuit_;
  const System& system_;
  const HeatModel& heat_;
  IdealCurrents ideals_;
};

}  // namespace

LaneProbe lane_probe(const Circuit& circuit,
                     const System& system,
                     const HeatModel& heat,
                     const circuit::Probe& probe) {
  return std::visit(ProbeMaker(circuit, system, heat), probe);
}

}  // namespace idlepoint::solve
