#include "solve/make_lane_plan.hpp"

#include <algorithm>
#include <limits>

#include "solve/heated_poles.hpp"
#include "solve/lane_targets.hpp"
#include "solve/terminal_weights.hpp"

namespace idlepoint::solve {
namespace {

using circuit::Circuit;
using circuit::PartId;
using circuit::RailId;
using Entries = std::vector<std::pair<Index, Index>>;

std::size_t at(Index index) { return static_cast<std::size_t>(index); }

/// Makes the rows first, then the matrix, then the slots.
class Drawing {
 public:
  Drawing(const Circuit& circuit,
          const StageSolver& solver,
          const HeatModel& heat,
          std::span<const Wanted> wanted)
      : circuit_(circuit), heat_(heat), ideals_(solver.system()) {
    plan_.circuit = &circuit;
    plan_.system = solver.system();
    plan_.numbers = solver.numbers();
    plan_.ambient_k = heat.ambient_k;
    number_rows(wanted);
    note_heat();
  }

  void add_probe(const circuit::Probe& probe) { plan_.probes.push_back(lane_probe(probe)); }

  /// After the probes: compiles the matrix.
  LanePlan finish() && {
    mark_poles();
    mark_heat();
    mark_travels();
    plan_.elimination = Elimination(order(), entries_);
    find_slots();
    return std::move(plan_);
  }

 private:
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
      travel.probe = lane_probe(want.probe);
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

  // --- readings

  [[nodiscard]] CurrentSum sum_of(const TerminalWeights& weights) const {
    CurrentSum sum;
    const Wiring& wiring = plan_.system.wiring;
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
    for (std::size_t k = 0; k < plan_.system.insulation.size(); ++k) {
      add(Family::insulation, k, 0, weights.at({}, plan_.system.insulation[k].point));
    }
    return sum;
  }

  [[nodiscard]] CurrentSum lead_current(PartId part, std::size_t lead, double factor) const {
    TerminalWeights weights{std::vector<double>(at(plan_.system.wiring.points), 0.0), {}};
    add_lead(plan_.system, ideals_, {part, lead}, factor, weights);
    return sum_of(weights);
  }

  [[nodiscard]] std::optional<CurrentSum> rail_current(RailId rail) const {
    const auto source = plan_.system.wiring.rail_sources[rail.index];
    if (!source) return std::nullopt;
    TerminalWeights weights{std::vector<double>(at(plan_.system.wiring.points), 0.0), {}};
    add_ideal(ideals_, *source, -1.0, weights);
    return sum_of(weights);
  }

  [[nodiscard]] LaneProbe lane_probe(const circuit::Probe& probe) const {
    return std::visit([this](const auto& kind) { return made_of(kind); }, probe);
  }

  [[nodiscard]] LaneProbe made_of(const circuit::VoltsBetween& volts) const {
    LaneProbe probe;
    probe.volts = {static_cast<Index>(volts.a.index), static_cast<Index>(volts.b.index)};
    return probe;
  }

  [[nodiscard]] LaneProbe made_of(const circuit::AmpsThrough& amps) const {
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

  [[nodiscard]] LaneProbe made_of(const circuit::WattsIn& watts) const {
    LaneProbe probe;
    if (const auto* rail = std::get_if<RailId>(&watts.what)) {
      if (auto sum = rail_current(*rail)) {
        sum->times_ideal = plan_.system.wiring.rail_sources[rail->index];
        probe.currents.push_back(std::move(*sum));
      }
      return probe;
    }
    const PartId part = std::get<PartId>(watts.what);
    const auto& points = plan_.system.wiring.lead_points[part.index];
    for (std::size_t lead = 0; lead < points.size(); ++lead) {
      CurrentSum sum = lead_current(part, lead, 1.0);
      sum.times_point = points[lead];
      probe.currents.push_back(std::move(sum));
    }
    return probe;
  }

  [[nodiscard]] LaneProbe made_of(const circuit::CelsiusOf& celsius) const {
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

  // --- the matrix

  void mark(Index row, Index column) {
    if (row < plan_.rows && column < plan_.rows) entries_.emplace_back(row, column);
  }

  [[nodiscard]] std::array<Index, 3> rows_of(Index a, Index b) const {
    const auto row = [this](Index point) {
      const Index unknown = plan_.system.unknown_of[at(point)];
      return unknown < plan_.system.unknowns ? unknown : plan_.rows;
    };
    return {row(a), row(b), plan_.rows};
  }

  [[nodiscard]] std::array<Index, 3> rows_of(const std::array<Index, 3>& points) const {
    return {rows_of(points[0], 0)[0], rows_of(points[1], 0)[0], rows_of(points[2], 0)[0]};
  }

  /// Calls `visit(rows, heat)` for every pole, `heat` the slots it fills where its part is heated.
  template <class Visit>
  void for_each_pole(Visit visit) {
    Wiring& wiring = plan_.system.wiring;
    const auto two_poles = [&](std::vector<TwoPole>& poles, auto* heat) {
      for (std::size_t k = 0; k < poles.size(); ++k) {
        visit(rows_of(poles[k].a, poles[k].b), heat ? &(*heat)[k] : nullptr);
      }
    };
    using Heat = std::vector<std::optional<HeatSlots>>;
    two_poles(wiring.conductors, &plan_.conductor_heat);
    two_poles(wiring.diodes, &plan_.diode_heat);
    two_poles(wiring.lamps, static_cast<Heat*>(nullptr));
    two_poles(wiring.feeds, static_cast<Heat*>(nullptr));
    for (std::size_t k = 0; k < wiring.bipolars.size(); ++k) {
      visit(rows_of(wiring.bipolars[k].points), &plan_.bipolar_heat[k]);
    }
    for (std::size_t k = 0; k < wiring.fets.size(); ++k) {
      visit(rows_of(wiring.fets[k].points), &plan_.fet_heat[k]);
    }
  }

  void mark_poles() {
    for_each_pole([this](const std::array<Index, 3>& rows, std::optional<HeatSlots>* heat) {
      for (const Index row : rows) {
        for (const Index column : rows) mark(row, column);
      }
      if (heat == nullptr || !*heat) return;
      const LaneHeated& lane = plan_.heated[(*heat)->heated];
      for (const Index row : rows) {
        mark(row, lane.row);
        mark(row, lane.sink_row);
      }
    });
  }

  void mark_heat() {
    for (const LaneHeated& lane : plan_.heated) mark(lane.row, lane.sink_row);
    for (const LaneSink& sink : plan_.sinks) {
      for (const auto& [row, slot] : sink.parts) mark(sink.row, row);
    }
  }

  [[nodiscard]] std::array<Index, 3> rows_of(const CurrentTerm& term) const {
    const Wiring& wiring = plan_.system.wiring;
    const auto two = [&](const TwoPole& pole) { return rows_of(pole.a, pole.b); };
    switch (term.family) {
      case Family::conductor:
        return two(wiring.conductors[term.pole]);
      case Family::diode:
        return two(wiring.diodes[term.pole]);
      case Family::lamp:
        return two(wiring.lamps[term.pole]);
      case Family::feed:
        return two(wiring.feeds[term.pole]);
      case Family::bipolar:
        return rows_of(wiring.bipolars[term.pole].points);
      case Family::fet:
        return rows_of(wiring.fets[term.pole].points);
      case Family::insulation:
        break;
    }
    return {rows_of(plan_.system.insulation[term.pole].point, 0)[0], plan_.rows, plan_.rows};
  }

  void mark_travels() {
    for (const LaneTravel& travel : plan_.travels) {
      const Track& track = plan_.system.wiring.tracks[travel.track];
      for (const auto& stretch : {track.stretch_a, track.stretch_b}) {
        if (!stretch) continue;
        const TwoPole& pole = plan_.system.wiring.conductors[*stretch];
        for (const Index row : rows_of(pole.a, pole.b)) mark(row, travel.row);
      }
      if (travel.probe.volts) {
        for (const Index row : rows_of(travel.probe.volts->first, travel.probe.volts->second)) {
          mark(travel.row, row);
        }
      }
      for (const LaneTravel& other : plan_.travels) mark(travel.row, other.row);
      for (const CurrentTerm& term : terms_of(travel)) {
        for (const Index row : rows_of(term)) mark(travel.row, row);
        if (const HeatSlots* heat = plan_.heat_of(term)) {
          mark(travel.row, plan_.heated[heat->heated].row);
          mark(travel.row, plan_.heated[heat->heated].sink_row);
        }
      }
    }
  }

  /// The one sum of an amperes reading; empty for volts.
  [[nodiscard]] static std::span<const CurrentTerm> terms_of(const LaneTravel& travel) {
    if (travel.probe.currents.empty()) return {};
    return travel.probe.currents.front().terms;
  }

  /// The electrical order, each part's watts right after the last of its own points; then sinks and
  /// travels.
  [[nodiscard]] std::vector<Index> order() const {
    const auto electrical = plan_.system.elimination.steps().unknown;
    std::vector<std::size_t> place(electrical.size());
    for (std::size_t k = 0; k < electrical.size(); ++k) place[at(electrical[k])] = k;
    std::vector<std::size_t> after(plan_.heated.size(), 0);
    for (const auto& [row, column] : entries_) {
      for (std::size_t j = 0; j < plan_.heated.size(); ++j) {
        if (column != plan_.heated[j].row || row >= plan_.system.unknowns) continue;
        after[j] = std::max(after[j], place[at(row)]);
      }
    }
    std::vector<Index> order;
    for (std::size_t k = 0; k < electrical.size(); ++k) {
      order.push_back(electrical[k]);
      for (std::size_t j = 0; j < after.size(); ++j) {
        if (after[j] == k) order.push_back(plan_.heated[j].row);
      }
    }
    for (const LaneSink& sink : plan_.sinks) order.push_back(sink.row);
    for (const LaneTravel& travel : plan_.travels) order.push_back(travel.row);
    return order;
  }

  [[nodiscard]] Index slot(Index row, Index column) const {
    if (row >= plan_.rows || column >= plan_.rows) return plan_.elimination.spare_slot();
    return plan_.elimination.slot(row, column);
  }

  void find_slots() {
    const System& system = plan_.system;
    for (auto& [from, to] : {std::pair{&system.conductors, &plan_.conductors},
                             std::pair{&system.diodes, &plan_.diodes},
                             std::pair{&system.lamps, &plan_.lamps},
                             std::pair{&system.feeds, &plan_.feeds}}) {
      for (const TwoPoleStamp& old : *from) {
        const auto [a, b, none] = rows_of(old.a, old.b);
        to->push_back({old.a, old.b, a, b, slot(a, a), slot(a, b), slot(b, a), slot(b, b)});
      }
    }
    for (auto& [from, to] :
         {std::pair{&system.bipolars, &plan_.bipolars}, std::pair{&system.fets, &plan_.fets}}) {
      for (const ThreePoleStamp& old : *from) {
        ThreePoleStamp stamp{old.points, rows_of(old.points), {}};
        for (std::size_t i = 0; i < 9; ++i) {
          stamp.slots[i] = slot(stamp.rows[i / 3], stamp.rows[i % 3]);
        }
        to->push_back(stamp);
      }
    }
    for (const InsulationStamp& old : system.insulation) {
      const Index row = rows_of(old.point, 0)[0];
      plan_.insulation.push_back({old.point, row, slot(row, row)});
    }
    find_heat_slots();
    find_travel_slots();
  }

  void find_heat_slots() {
    for_each_pole([this](const std::array<Index, 3>& rows, std::optional<HeatSlots>* heat) {
      if (heat == nullptr || !*heat) return;
      const LaneHeated& lane = plan_.heated[(*heat)->heated];
      for (std::size_t i = 0; i < 3; ++i) {
        (*heat)->row_by_power[i] = slot(rows[i], lane.row);
        (*heat)->row_by_sink[i] = slot(rows[i], lane.sink_row);
        (*heat)->power_by_row[i] = slot(lane.row, rows[i]);
      }
    });
    for (LaneHeated& lane : plan_.heated) {
      lane.by_power = slot(lane.row, lane.row);
      lane.by_sink = slot(lane.row, lane.sink_row);
    }
    for (LaneSink& sink : plan_.sinks) {
      sink.diagonal = slot(sink.row, sink.row);
      for (auto& [row, place] : sink.parts) place = slot(sink.row, row);
    }
  }

  void find_travel_slots() {
    for (LaneTravel& travel : plan_.travels) {
      const Track& track = plan_.system.wiring.tracks[travel.track];
      const std::array stretches{track.stretch_a, track.stretch_b};
      for (std::size_t i = 0; i < 2; ++i) {
        travel.row_by_travel[i] = {plan_.elimination.spare_slot(), plan_.elimination.spare_slot()};
        if (!stretches[i]) continue;
        const TwoPole& pole = plan_.system.wiring.conductors[*stretches[i]];
        const auto rows = rows_of(pole.a, pole.b);
        travel.row_by_travel[i] = {slot(rows[0], travel.row), slot(rows[1], travel.row)};
      }
      travel.by_volts = {plan_.elimination.spare_slot(), plan_.elimination.spare_slot()};
      if (travel.probe.volts) {
        const auto rows = rows_of(travel.probe.volts->first, travel.probe.volts->second);
        travel.by_volts = {slot(travel.row, rows[0]), slot(travel.row, rows[1])};
      }
      for (const LaneTravel& other : plan_.travels) {
        travel.by_travel.push_back(slot(travel.row, other.row));
      }
      for (const CurrentTerm& term : terms_of(travel)) {
        const auto rows = rows_of(term);
        travel.by_unknown.push_back(
            {slot(travel.row, rows[0]), slot(travel.row, rows[1]), slot(travel.row, rows[2])});
        const HeatSlots* heat = plan_.heat_of(term);
        const Index power = heat ? plan_.heated[heat->heated].row : plan_.rows;
        const Index sink = heat ? plan_.heated[heat->heated].sink_row : plan_.rows;
        travel.by_heat.push_back({slot(travel.row, power), slot(travel.row, sink)});
      }
    }
  }

  const Circuit& circuit_;
  const HeatModel& heat_;
  IdealCurrents ideals_;
  LanePlan plan_;
  Entries entries_;
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
