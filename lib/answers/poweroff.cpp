#include "answers/poweroff.hpp"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <utility>

#include "answers/set_trimmers.hpp"
#include "circuit/power_off.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Circuit;
using circuit::NodeId;
using circuit::Part;
using circuit::PartId;
using circuit::PartKind;
using circuit::VoltsBetween;

bool has_leads_on(const Part& part, const VoltsBetween& points) {
  const auto meets = [&](NodeId node) {
    return std::any_of(
        part.leads.begin(), part.leads.end(), [node](const auto& lead) { return lead == node; });
  };
  return !part.damage.absent && meets(points.a) && meets(points.b);
}

class Listing {
 public:
  Listing(const Circuit& circuit, bool load_connected)
      : circuit_(circuit), load_connected_(load_connected) {}

  void add(OffPoint::Group group, const VoltsBetween& points, std::string name = {}) {
    if (points.a == points.b || is_listed(points)) return;
    OffPoint point;
    point.group = group;
    point.name = std::move(name);
    point.points = points;
    for (std::size_t index = 0; index < circuit_.parts.size(); ++index) {
      const Part& part = circuit_.parts[index];
      if (part.kind == PartKind::load && !load_connected_) continue;
      if (has_leads_on(part, points)) point.parts.push_back(PartId{index});
    }
    list_.push_back(std::move(point));
  }

  void add_readings() {
    for (const auto& reading : circuit_.readings) {
      const auto* points = std::get_if<VoltsBetween>(&reading.probe);
      if (points != nullptr) add(OffPoint::Group::asked, *points, reading.name);
    }
  }

  void add_junctions() {
    for (const auto& part : circuit_.parts) {
      if (!circuit::has_type(part.kind) || part.damage.absent) continue;
      if (part.kind == PartKind::diode) {
        add_leads(part, 0, 1);
        continue;
      }
      // c b e or d g s: an n kind conducts from its base; a p kind the other way round
      const std::array<std::pair<std::size_t, std::size_t>, 3> pairs = {{{1, 2}, {1, 0}, {0, 2}}};
      for (const auto& [red, black] : pairs) {
        const bool is_p = circuit::is_p_kind(part.kind);
        add_leads(part, is_p ? black : red, is_p ? red : black);
      }
    }
  }

  void add_resistors() {
    for (const auto& part : circuit_.parts) {
      const bool has_ohms = part.kind == PartKind::resistor || part.kind == PartKind::thermistor ||
                            part.kind == PartKind::inductor || part.kind == PartKind::fuse ||
                            part.kind == PartKind::lamp;
      if (!has_ohms || part.damage.absent || part.damage.is_link) continue;
      const auto a = circuit::lead(part, 0);
      const auto b = circuit::lead(part, 1);
      if (a && b) add(OffPoint::Group::resistor, {*a, *b});
    }
  }

  [[nodiscard]] std::vector<OffPoint> take() && { return std::move(list_); }

 private:
  void add_leads(const Part& part, std::size_t red, std::size_t black) {
    const auto a = circuit::lead(part, red);
    const auto b = circuit::lead(part, black);
    if (!a || !b || circuit_.at(*a).lifted || circuit_.at(*b).lifted) return;
    add(OffPoint::Group::junction, {*a, *b});
  }

  [[nodiscard]] bool is_listed(const VoltsBetween& points) const {
    return std::any_of(list_.begin(), list_.end(), [&](const OffPoint& one) {
      const auto& [a, b] = one.points;
      return (a == points.a && b == points.b) || (a == points.b && b == points.a);
    });
  }

  const Circuit& circuit_;
  bool load_connected_;
  std::vector<OffPoint> list_;
};

std::vector<OffPoint> points_of(const Circuit& circuit,
                                const std::vector<VoltsBetween>& asked,
                                bool load_connected) {
  Listing listing(circuit, load_connected);
  for (const auto& points : asked) listing.add(OffPoint::Group::asked, points);
  if (asked.empty()) {
    listing.add_readings();
    listing.add_junctions();
    listing.add_resistors();
  }
  return std::move(listing).take();
}

void add_trimmers(PowerOff& answer, const Setup& setup) {
  if (setup.stage->adjustments.empty()) return;
  answer.no_preset = why_no_preset(setup);
  if (answer.no_preset) return;
  const auto set = set_trimmers(setup);
  const auto* found = std::get_if<SetTrimmers>(&set);
  if (found == nullptr) {
    answer.no_preset = "With the stage as it stands no preset is found.";
    return;
  }
  const auto& adjusted = found->adjusted;
  for (std::size_t index = 0; index < adjusted.settings.size(); ++index) {
    const auto& setting = adjusted.settings[index];
    OffTrimmer trimmer;
    trimmer.trimmer = setting.trimmer;
    trimmer.travel = setting.travel;
    trimmer.reached = setting.reached;
    trimmer.safe_end = found->states[index].safe_end;
    trimmer.ohms =
        trimmer_in_circuit(adjusted.circuit, setting.trimmer, trimmer.safe_end, setup.conditions);
    answer.trimmers.push_back(std::move(trimmer));
  }
}

enum class Filled : char { not_asked, yes, no_state };

Filled fill(OffPoint& point,
            const circuit::CheckedCircuit& off,
            const circuit::CheckedCircuit& stage,
            const std::vector<circuit::Edit>& faults,
            const solve::Conditions& conditions) {
  for (std::size_t k = 0; k < every_off_range.size(); ++k) {
    const auto figure = off_figure(off, point.points, every_off_range[k], conditions);
    if (!figure) return Filled::no_state;
    point.figures[k] = *figure;
  }
  point.suspects = off_suspects(stage, faults, point.points, point.figures, conditions);
  return Filled::yes;
}

/// [points]; those that were left out when `go_on` ended it are not asked.
std::vector<Filled> fill_all(std::vector<OffPoint>& points,
                             const circuit::CheckedCircuit& off,
                             const circuit::CheckedCircuit& stage,
                             const std::vector<circuit::Edit>& faults,
                             const solve::Conditions& conditions,
                             const std::function<bool(double share_done)>& go_on) {
  std::vector<Filled> filled(points.size(), Filled::not_asked);
  std::atomic<std::size_t> done = 0;
  std::atomic<bool> stopped = false;
  tbb::parallel_for(std::size_t{0}, points.size(), [&](std::size_t k) {
    if (stopped) return;
    filled[k] = fill(points[k], off, stage, faults, conditions);
    const auto share = static_cast<double>(++done) / static_cast<double>(points.size());
    if (!go_on(share)) stopped = true;
  });
  return filled;
}

}  // namespace

std::variant<PowerOff, solve::NotSettled> ask_poweroff(
    const Setup& setup,
    const std::vector<VoltsBetween>& asked,
    const std::function<bool(double share_done)>& go_on) {
  solve::Conditions dead = setup.conditions;
  dead.heat = solve::HeatState::cold;
  const auto off = circuit::power_off(setup.stage);
  auto alone = solve::solve_cold(off, dead);
  if (auto* story = std::get_if<solve::NotSettled>(&alone)) return std::move(*story);
  PowerOff answer{setup.stage, dead, {}, {}, {}, 0, setup.changes, standing_warnings(setup)};
  const auto faults = off_faults(*setup.stage);
  answer.tried = faults.size();
  auto points = points_of(*setup.stage, asked, dead.load_connected);
  const auto filled = fill_all(points, off, setup.stage, faults, dead, go_on);
  for (std::size_t index = 0; index < points.size(); ++index) {
    if (filled[index] == Filled::yes) answer.points.push_back(std::move(points[index]));
    if (filled[index] == Filled::no_state) {
      answer.warnings.push_back("No state was found with the meter from " +
                                circuit::node_in_words(*setup.stage, points[index].points.a) +
                                " to " +
                                circuit::node_in_words(*setup.stage, points[index].points.b) + ".");
    }
  }
  if (asked.empty()) add_trimmers(answer, setup);
  return answer;
}

}  // namespace idlepoint::answers
