#include "solve/make_operating_point.hpp"

#include <algorithm>
#include <cmath>

#include "solve/conduction.hpp"
#include "solve/ideal_currents.hpp"
#include "solve/stress.hpp"
#include "solve/terminal_sum.hpp"

namespace idlepoint::solve {

namespace {

using LeadCurrents = std::vector<std::vector<double>>;

void add(const Owner& owner, double current_a, LeadCurrents& currents) {
  if (owner.part && owner.lead) currents[owner.part->index][*owner.lead] += current_a;
}

}  // namespace

/// The only maker of operating points.
class OperatingPointMaker {
 public:
  OperatingPointMaker(const circuit::Circuit& circuit,
                      const Conditions& conditions,
                      StateFinder& finder,
                      const Rest& rest)
      : circuit_(circuit),
        conditions_(conditions),
        solver_(finder.solver()),
        work_(solver_.work()),
        heat_(finder.heat()),
        rest_(rest) {}

  OperatingPoint make() {
    point_.conditions_ = conditions_;
    point_.solver_ = rest_.report;
    point_.has_other_states_ = rest_.has_other_states;
    point_.loop_gain_ = rest_.loop_gain;
    point_.node_v_.assign(work_.point_v.begin(),
                          work_.point_v.begin() + solver_.system().wiring.nodes);
    find_currents();
    fill_parts(rest_.at.state);
    fill_rails();
    fill_heatsinks();
    for (std::size_t k = 0; k < circuit_.parts.size(); ++k) {
      const bool exceeds = exceeds_rating(circuit_, circuit::PartId{k}, point_);
      point_.parts_[k].over_stressed = exceeds || regions_[k].is_broken_down;
    }
    return std::move(point_);
  }

 private:
  void find_currents() {
    const Wiring& wiring = solver_.system().wiring;
    for (const auto& leads : wiring.lead_points) lead_current_a_.emplace_back(leads.size(), 0.0);
    std::vector<double> leaving_a(at(wiring.points), 0.0);
    for_each_terminal(
        solver_.system(),
        solver_.numbers(),
        work_,
        [&](const Owner& owner, Index point, double current_a, const auto&, const auto&) {
          leaving_a[at(point)] += current_a;
          add(owner, current_a, lead_current_a_);
        });
    ideal_current_a_ = IdealCurrents(solver_.system()).currents(leaving_a);
    for (std::size_t k = 0; k < wiring.ideals.size(); ++k) {
      add(wiring.ideals[k].owner_a, ideal_current_a_[k], lead_current_a_);
      add(wiring.ideals[k].owner_b, -ideal_current_a_[k], lead_current_a_);
    }
  }

  void fill_parts(const State& state) {
    regions_ = find_regions(circuit_, solver_.system(), solver_.numbers(), state, work_);
    for (std::size_t k = 0; k < circuit_.parts.size(); ++k) {
      PartState part;
      part.lead_current_a = lead_current_a_[k];
      const auto& points = solver_.system().wiring.lead_points[k];
      for (std::size_t lead = 0; lead < points.size(); ++lead) {
        part.power_w += work_.point_v[at(points[lead])] * part.lead_current_a[lead];
      }
      part.junction_k = junction_k(k);
      part.conduction = regions_[k].conduction;
      point_.parts_.push_back(std::move(part));
    }
  }

  [[nodiscard]] double junction_k(std::size_t part) const {
    const std::size_t heated = heat_.part_of[part];
    if (heated >= heat_.parts.size()) return circuit_.ambient_k;
    return rest_.at.temperatures_k[static_cast<Eigen::Index>(heated)];
  }

  void fill_rails() {
    for (std::size_t k = 0; k < circuit_.rails.size(); ++k) {
      const circuit::Rail& rail = circuit_.rails[k];
      RailState state;
      state.voltage_v = point_.node_v_[rail.node.index];
      if (const auto source = solver_.system().wiring.rail_sources[k]) {
        state.delivered_a = -ideal_current_a_[*source];
        state.power_w = solver_.numbers().emf_v[*source] * state.delivered_a;
      }
      point_.rails_.push_back(state);
    }
  }

  void fill_heatsinks() {
    for (std::size_t k = 0; k < circuit_.heatsinks.size(); ++k) {
      HeatsinkState sink{circuit_.ambient_k, 0.0};
      if (!heat_.parts.empty()) {
        sink.temperature_k += rest_.sink_rise_k[static_cast<Eigen::Index>(k)];
      }
      for (std::size_t p = 0; p < circuit_.parts.size(); ++p) {
        const circuit::Part& part = circuit_.parts[p];
        if (part.mounting.heatsink != circuit::HeatsinkId{k} || part.damage.loose) continue;
        sink.power_w += point_.parts_[p].power_w;
      }
      point_.heatsinks_.push_back(sink);
    }
  }

  const circuit::Circuit& circuit_;
  const Conditions& conditions_;
  StageSolver& solver_;
  const Work& work_;
  const HeatModel& heat_;
  const Rest& rest_;
  OperatingPoint point_;
  LeadCurrents lead_current_a_;
  std::vector<Region> regions_;
  std::vector<double> ideal_current_a_;
};

OperatingPoint make_operating_point(const circuit::Circuit& circuit,
                                    const Conditions& conditions,
                                    StateFinder& finder,
                                    const Rest& rest) {
  return OperatingPointMaker(circuit, conditions, finder, rest).make();
}

}  // namespace idlepoint::solve
