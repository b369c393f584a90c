#include "solve/probe_gradient.hpp"

#include <algorithm>

#include "solve/terminal_sum.hpp"

namespace idlepoint::solve {
namespace {

using circuit::Circuit;
using circuit::PartId;
using circuit::RailId;

/// dI/d(travel) through a stretch, from its first point to its second, at fixed voltages. The
/// stretch's conductance g gives its own slope: d(1/R)/dt = -g^2 dR/dt.
double stretch_slope_a(const Circuit& circuit,
                       const System& system,
                       const Numbers& numbers,
                       const Work& work,
                       const Track& track,
                       std::size_t conductor) {
  const double g = numbers.conductance_s[conductor];
  const double ohm_per_travel =
      track.stretch_a == conductor ? circuit.at(track.part).value : -circuit.at(track.part).value;
  const TwoPoleStamp& stamp = system.conductors[conductor];
  return -g * g * ohm_per_travel * (work.point_v[at(stamp.a)] - work.point_v[at(stamp.b)]);
}

/// A reading in amperes or watts: a sum over terminals of coefficient times current, where the
/// coefficient of a terminal may depend on its owner and on its point.
class TerminalReading {
 public:
  TerminalReading(const Circuit& circuit,
                  const System& system,
                  const Numbers& numbers,
                  const IdealCurrents& ideals,
                  const Work& work,
                  std::span<const HeatSlopes> heat_slopes)
      : circuit_(circuit),
        system_(system),
        numbers_(numbers),
        ideals_(ideals),
        work_(work),
        heat_slopes_(heat_slopes) {
    result_.by_current.by_point.assign(at(system.wiring.points), 0.0);
    result_.by_point_v.assign(at(system.wiring.points), 0.0);
    result_.by_power.assign(heat_slopes.size(), 0.0);
    result_.by_unknown.assign(at(system.unknowns) + 1, 0.0);
    result_.by_travel.assign(system.wiring.tracks.size(), 0.0);
    result_.by_temperature.assign(heat_slopes.size(), 0.0);
  }

  /// Adds `factor` times the current into one lead of a part.
  void add_lead(PartId part, std::size_t lead, double factor) {
    solve::add_lead(system_, ideals_, {part, lead}, factor, result_.by_current);
  }

  /// Adds `factor` times the current from a to b through an ideal branch.
  void add_ideal(std::size_t ideal, double factor) {
    solve::add_ideal(ideals_, ideal, factor, result_.by_current);
  }

  /// No terminal counts.
  [[nodiscard]] ProbeGradient none() { return std::move(result_); }

  [[nodiscard]] ProbeGradient finish() {
    for_each_terminal(system_,
                      numbers_,
                      work_,
                      [&](const Owner& owner,
                          Index point,
                          double current_a,
                          const std::array<Index, 3>& points,
                          const std::array<double, 3>& slopes) {
                        const double c = result_.by_current.at(owner, point);
                        if (c == 0.0) return;
                        result_.value += c * current_a;
                        for (std::size_t i = 0; i < 3; ++i) {
                          result_.by_unknown[at(system_.unknown_of[at(points[i])])] +=
                              c * slopes[i];
                        }
                      });
    for (std::size_t k = 0; k < system_.wiring.tracks.size(); ++k) add_travel(k);
    for (std::size_t j = 0; j < heat_slopes_.size(); ++j) {
      for (const TerminalSlope& terminal : heat_slopes_[j].terminals) {
        result_.by_temperature[j] +=
            result_.by_current.at(terminal.owner, terminal.point) * terminal.a;
      }
    }
    return std::move(result_);
  }

 private:
  void add_travel(std::size_t index) {
    const Track& track = system_.wiring.tracks[index];
    for (const auto& stretch : {track.stretch_a, track.stretch_b}) {
      if (!stretch) continue;
      const TwoPole& pole = system_.wiring.conductors[*stretch];
      const TerminalWeights& weights = result_.by_current;
      const double c = weights.at(pole.owner_a, pole.a) - weights.at(pole.owner_b, pole.b);
      result_.by_travel[index] +=
          c * stretch_slope_a(circuit_, system_, numbers_, work_, track, *stretch);
    }
  }

  const Circuit& circuit_;
  const System& system_;
  const Numbers& numbers_;
  const IdealCurrents& ideals_;
  const Work& work_;
  std::span<const HeatSlopes> heat_slopes_;
  ProbeGradient result_;
};

/// One overload a kind of probe.
struct Differentiator {
  const Circuit& circuit;
  const System& system;
  const Numbers& numbers;
  const IdealCurrents& ideals;
  const Work& work;
  const HeatModel& heat;
  std::span<const HeatSlopes> heat_slopes;
  const Eigen::VectorXd& temperatures_k;

  [[nodiscard]] TerminalReading sum() const {
    return {circuit, system, numbers, ideals, work, heat_slopes};
  }

  ProbeGradient operator()(const circuit::VoltsBetween& volts) const {
    ProbeGradient result = sum().none();
    const auto a = volts.a.index;
    const auto b = volts.b.index;
    result.value = work.point_v[a] - work.point_v[b];
    result.by_unknown[at(system.unknown_of[a])] += 1.0;
    result.by_unknown[at(system.unknown_of[b])] -= 1.0;
    result.by_point_v[a] += 1.0;
    result.by_point_v[b] -= 1.0;
    return result;
  }

  ProbeGradient operator()(const circuit::AmpsThrough& amps) const {
    TerminalReading reading = sum();
    if (const auto* rail = std::get_if<RailId>(&amps.what)) {
      if (const auto source = system.wiring.rail_sources[rail->index]) {
        reading.add_ideal(*source, -1.0);
      }
      return reading.finish();
    }
    const PartId part = std::get<PartId>(amps.what);
    reading.add_lead(part, 0, circuit::is_p_kind(circuit.at(part).kind) ? -1.0 : 1.0);
    return reading.finish();
  }

  ProbeGradient operator()(const circuit::WattsIn& watts) const {
    TerminalReading reading = sum();
    if (const auto* rail = std::get_if<RailId>(&watts.what)) {
      if (const auto source = system.wiring.rail_sources[rail->index]) {
        reading.add_ideal(*source, -numbers.emf_v[*source]);
      }
      return reading.finish();
    }
    return part_watts(std::get<PartId>(watts.what), std::move(reading));
  }

  /// P = sum of v I: the current's share, and each lead's current times its own unknown.
  [[nodiscard]] ProbeGradient part_watts(PartId part, TerminalReading reading) const {
    const auto& points = system.wiring.lead_points[part.index];
    for (std::size_t lead = 0; lead < points.size(); ++lead) {
      reading.add_lead(part, lead, work.point_v[at(points[lead])]);
    }
    ProbeGradient result = reading.finish();
    for (std::size_t lead = 0; lead < points.size(); ++lead) {
      TerminalReading one = sum();
      one.add_lead(part, lead, 1.0);
      const double current_a = one.finish().value;
      result.by_unknown[at(system.unknown_of[at(points[lead])])] += current_a;
      result.by_point_v[at(points[lead])] += current_a;
    }
    return result;
  }

  ProbeGradient operator()(const circuit::CelsiusOf& celsius) const {
    ProbeGradient result = sum().none();
    result.value = circuit.ambient_k;
    if (heat_slopes.empty()) return result;
    if (const auto* sink = std::get_if<circuit::HeatsinkId>(&celsius.what)) {
      add_sink(sink->index, result);
      return result;
    }
    const std::size_t part = heat.part_of[std::get<PartId>(celsius.what).index];
    if (part == heat.parts.size()) return result;
    result.value = temperatures_k[static_cast<Eigen::Index>(part)];
    result.by_temperature[part] = 1.0;
    return result;
  }

  /// A sink's rise is its resistance times the powers of all that is mounted on it.
  void add_sink(std::size_t sink, ProbeGradient& result) const {
    const auto row = static_cast<Eigen::Index>(sink);
    const double k_per_w = heat.scale * heat.sink_k_per_w[row];
    result.value += heat.sink_base_k[row];
    for (std::size_t j = 0; j < heat.parts.size(); ++j) {
      if (heat.parts[j].sink != sink) continue;
      result.value += k_per_w * heat_slopes[j].power_w;
      result.by_power[j] += k_per_w;
      result.by_temperature[j] += k_per_w * heat_slopes[j].power_w_per_k;
      for (std::size_t k = 0; k < result.by_unknown.size(); ++k) {
        result.by_unknown[k] += k_per_w * heat_slopes[j].by_unknown[k];
      }
    }
  }
};

}  // namespace

ProbeGradient probe_gradient(const Circuit& circuit,
                             const circuit::Probe& probe,
                             const System& system,
                             const Numbers& numbers,
                             const IdealCurrents& ideals,
                             const Work& work,
                             const HeatModel& heat,
                             std::span<const HeatSlopes> heat_slopes,
                             const Eigen::VectorXd& temperatures_k) {
  return std::visit(
      Differentiator{circuit, system, numbers, ideals, work, heat, heat_slopes, temperatures_k},
      probe);
}

void balance_by_travel(const Circuit& circuit,
                       const System& system,
                       const Numbers& numbers,
                       std::size_t track,
                       const Work& work,
                       std::span<double> slopes) {
  std::fill(slopes.begin(), slopes.end(), 0.0);
  const Track& stretches = system.wiring.tracks[track];
  for (const auto& stretch : {stretches.stretch_a, stretches.stretch_b}) {
    if (!stretch) continue;
    const double slope = stretch_slope_a(circuit, system, numbers, work, stretches, *stretch);
    slopes[at(system.conductors[*stretch].row_a)] += slope;
    slopes[at(system.conductors[*stretch].row_b)] -= slope;
  }
}

}  // namespace idlepoint::solve
