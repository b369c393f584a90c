#include "solve/make_lane_plan.hpp"

#include <algorithm>
#include <limits>

#include "solve/heated_poles.hpp"
#include "solve/lane_matrix.hpp"
#include "solve/lane_probes.hpp"
#include "solve/lane_targets.hpp"

namespace idlepoint::solve {
namespace {

using circuit::Circuit;
using circuit::PartId;

/// Makes the rows first, then the matrix, then the slots.
class Drawing {
 public:
  Drawing(const Circuit& circuit,
          const StageSolver& solver,
          const HeatModel& heat,
          std::span<const Wanted> wanted)
      : circuit_(circuit), heat_(heat) {
    plan_.circuit = &circuit;
    plan_.system = solver.system();
    plan_.numbers = solver.numbers();
    plan_.ambient_k = heat.ambient_k;
    number_rows(wanted);
    note_heat();
  }

  /// After the probes: lays out the matrix.
  LanePlan finish() && {
    lay_out_matrix(plan_);
    return std::move(plan_);
  }

  void add_probe(const circuit::Probe& probe) { plan_.probes.push_back(made_of(probe)); }

 private:
  [[nodiscard]] LaneProbe made_of(const circuit::Probe& probe) const {
    return lane_probe(circuit_, plan_.system, heat_, probe);
  }

  void number_rows(std::span<const Wanted> wanted) {
    Index row = plan_.system.unknowns;
    for (const HeatedPart& part : heat_.parts) {
      LaneHeated lane;
      lane.own_k_per_w = part.own_k_per_w;
      lane.coupling = part.coupling;
      const auto& type = circuit_.at(part.part).type;
      lane.max_k = type ? circuit_.at(*type).ratings.max_junction_temperature_k
                        : std::numeric_limits<double>::infinity();
      lane.row = row++;
      plan_.heated.push_back(lane);
    }
    for (Eigen::Index k = 0; k < heat_.sink_k_per_w.size() && !heat_.parts.empty(); ++k) {
      plan_.sinks.push_back({heat_.sink_k_per_w[k], row++, 0, {}});
    }
    for (const Wanted& want : wanted) {
      LaneTravel travel;
      travel.track = want.track;
      travel.target = want.target;
      travel.tolerance = 1e-9 * std::max(std::abs(want.target), 1e-3);
      travel.row = row++;
      travel.probe = made_of(want.probe);
      plan_.travels.push_back(std::move(travel));
    }
    plan_.rows = row;
  }

  void note_heat() {
    const std::vector<HeatedPoles> poles = heated_poles(heat_, plan_.system.wiring);
    const System& system = plan_.system;
    plan_.conductor_heat.resize(system.conductors.size());
    plan_.diode_heat.resize(system.diodes.size());
    plan_.bipolar_heat.resize(system.bipolars.size());
    plan_.fet_heat.resize(system.fets.size());
    plan_.thermistors.resize(system.conductors.size());
    plan_.moves.assign(system.conductors.size(), false);
    for (std::size_t j = 0; j < heat_.parts.size(); ++j) {
      LaneHeated& lane = plan_.heated[j];
      const auto& sink = heat_.parts[j].sink;
      lane.sink_row = sink ? plan_.sinks[*sink].row : plan_.rows;
      if (sink) plan_.sinks[*sink].parts.emplace_back(lane.row, 0);
      for (const std::size_t k : poles[j].conductors)
        plan_.conductor_heat[k] = HeatSlots{j, {}, {}, {}};
      for (const std::size_t k : poles[j].diodes) plan_.diode_heat[k] = HeatSlots{j, {}, {}, {}};
      for (const std::size_t k : poles[j].bipolars)
        plan_.bipolar_heat[k] = HeatSlots{j, {}, {}, {}};
      for (const std::size_t k : poles[j].fets) plan_.fet_heat[k] = HeatSlots{j, {}, {}, {}};
      note_thermistor(heat_.parts[j].part, poles[j]);
    }
    note_data();
    for (const LaneTravel& travel : plan_.travels) {
      const Track& track = system.wiring.tracks[travel.track];
      for (const auto& stretch : {track.stretch_a, track.stretch_b}) {
        if (stretch) plan_.moves[*stretch] = true;
      }
    }
  }

  template <class Data>
  [[nodiscard]] const Data& data_of(PartId id) const {
    return std::get<Data>(circuit_.at(*circuit_.at(id).type).law);
  }

  void note_data() {
    const Wiring& wiring = plan_.system.wiring;
    for (const ThreePole& pole : wiring.bipolars) {
      devices::BipolarData data = data_of<devices::BipolarData>(pole.part);
      if (const auto& gain = circuit_.at(pole.part).damage.gain) data.gain = *gain;
      plan_.bipolar_data.push_back(data);
    }
    for (const ThreePole& pole : wiring.fets) {
      plan_.fet_data.push_back(data_of<devices::FetData>(pole.part));
    }
    for (const TwoPole& pole : wiring.diodes) {
      const PartId part = *pole.owner_b.part;
      if (circuit::is_fet(circuit_.at(part).kind)) {
        plan_.diode_data.emplace_back(data_of<devices::FetData>(part));
      } else {
        plan_.diode_data.emplace_back(data_of<devices::DiodeData>(part));
      }
    }
  }

  void note_thermistor(PartId id, const HeatedPoles& poles) {
    const circuit::Part& part = circuit_.at(id);
    if (part.kind != circuit::PartKind::thermistor) return;
    const double beta_k = std::get<circuit::ThermistorDetails>(part.details).beta_k;
    for (const std::size_t k : poles.conductors) {
      plan_.thermistors[k] = {part.value, beta_k};
      plan_.moves[k] = true;
    }
  }

  const Circuit& circuit_;
  const HeatModel& heat_;
  LanePlan plan_;
};

/// Lanes follow targets in volts and amperes; others are rare and left to the scalar solver.
bool can_follow(const Wanted& want) {
  return std::holds_alternative<circuit::VoltsBetween>(want.probe) ||
         std::holds_alternative<circuit::AmpsThrough>(want.probe);
}

std::vector<double> nominal_unknowns(const LanePlan& plan, const LaneStart& start) {
  std::vector<double> x(start.at.state.x.begin(), start.at.state.x.begin() + plan.system.unknowns);
  for (Eigen::Index j = 0; j < start.power_w.size(); ++j) x.push_back(start.power_w[j]);
  for (std::size_t k = 0; k < plan.sinks.size(); ++k) {
    x.push_back(start.sink_rise_k[static_cast<Eigen::Index>(k)]);
  }
  x.insert(x.end(), start.at.travels.begin(), start.at.travels.end());
  return x;
}

}  // namespace

const HeatSlots* LanePlan::heat_of(const CurrentTerm& term) const noexcept {
  const auto in = [&](const std::vector<std::optional<HeatSlots>>& list) {
    return list[term.pole] ? &*list[term.pole] : nullptr;
  };
  switch (term.family) {
    case Family::conductor:
      return in(conductor_heat);
    case Family::diode:
      return in(diode_heat);
    case Family::bipolar:
      return in(bipolar_heat);
    case Family::fet:
      return in(fet_heat);
    default:
      return nullptr;
  }
}

std::optional<LanePlan> make_lane_plan(const Circuit& circuit,
                                       const StageSolver& solver,
                                       const HeatModel& heat,
                                       const LaneStart& start,
                                       const circuit::Uncertainty& uncertainty,
                                       std::span<const circuit::Probe> probes,
                                       std::span<const Wanted> wanted) {
  if (!std::all_of(wanted.begin(), wanted.end(), can_follow)) return std::nullopt;
  auto targets = lane_targets(circuit, solver.system(), uncertainty);
  if (!targets) return std::nullopt;
  Drawing drawing(circuit, solver, heat, wanted);
  for (const circuit::Probe& probe : probes) drawing.add_probe(probe);
  LanePlan plan = std::move(drawing).finish();
  plan.targets = std::move(*targets);
  plan.uncertainty = uncertainty;
  for (const circuit::Parameter& parameter : uncertainty.parameters) {
    plan.parameters.push_back(circuit::nominal(circuit, parameter));
  }
  plan.start = start.at.state;
  for (std::size_t k = 0; k < plan.travels.size(); ++k) {
    plan.travels[k].rises = start.slope_per_travel[k] > 0.0;
  }
  plan.x = nominal_unknowns(plan, start);
  return plan;
}

}  // namespace idlepoint::solve
