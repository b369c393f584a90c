#include "solve/story.hpp"

#include <algorithm>
#include <cmath>

#include "solve/newton.hpp"

namespace idlepoint::solve {
namespace {

LoopMember member(const System& system, std::size_t ideal) {
  const TwoPole& branch = system.wiring.ideals[ideal];
  if (branch.owner_a.part) return *branch.owner_a.part;
  const auto& sources = system.wiring.rail_sources;
  const auto found = std::find(sources.begin(), sources.end(), std::optional(ideal));
  return circuit::RailId{static_cast<std::size_t>(found - sources.begin())};
}

/// The part with the largest current among those that meet an unknown.
class Holder {
 public:
  explicit Holder(Index row) : row_(row) {}

  void see(const std::vector<TwoPoleStamp>& stamps,
           const std::vector<TwoPole>& poles,
           const std::vector<TwoPoleTangent>& tangents) {
    for (std::size_t k = 0; k < stamps.size(); ++k) {
      if (stamps[k].row_a != row_ && stamps[k].row_b != row_) continue;
      see(poles[k].owner_a.part, tangents[k].current_a);
    }
  }

  void see(const std::vector<ThreePoleStamp>& stamps,
           const std::vector<ThreePole>& poles,
           const std::vector<ThreePoleTangent>& tangents) {
    for (std::size_t k = 0; k < stamps.size(); ++k) {
      const auto& rows = stamps[k].rows;
      if (std::find(rows.begin(), rows.end(), row_) == rows.end()) continue;
      see(poles[k].part, tangents[k].current_0_a);
    }
  }

  [[nodiscard]] std::optional<circuit::PartId> part() const { return part_; }

 private:
  void see(std::optional<circuit::PartId> part, double current_a) {
    if (!part || !(std::abs(current_a) > largest_a_)) return;
    largest_a_ = std::abs(current_a);
    part_ = part;
  }

  Index row_;
  double largest_a_ = -1.0;
  std::optional<circuit::PartId> part_;
};

}  // namespace

std::optional<NotSettled> contradictory_loop(const System& system, const Numbers& numbers) {
  constexpr double largest_rounding_v = 1e-9;
  std::vector<double> offset_v(at(system.wiring.points), 0.0);
  for (const OffsetStep& step : system.offsets) {
    offset_v[at(step.point)] = offset_v[at(step.from)] + step.sign * numbers.emf_v[step.ideal];
  }
  for (const LoopCloser& loop : system.loops) {
    const TwoPole& branch = system.wiring.ideals[loop.ideal];
    const double left_v =
        offset_v[at(branch.a)] - offset_v[at(branch.b)] - numbers.emf_v[loop.ideal];
    if (std::abs(left_v) <= largest_rounding_v) continue;
    NotSettled story;
    story.reason = NotSettled::Reason::no_finite_solution;
    story.loop.push_back(member(system, loop.ideal));
    for (const std::size_t other : loop.others) story.loop.push_back(member(system, other));
    story.likely = "these hold one point at two different voltages, with no resistance between";
    return story;
  }
  return std::nullopt;
}

void note_outside(const System& system, const OutsideLaw& outside, NotSettled& story) {
  if (outside.part) {
    story.reason = NotSettled::Reason::outside_law;
    story.part = outside.part;
    story.tried.back().stopped_at = "a state outside a device's law";
    story.likely =
        "a type's data ask for more than its law can give: look at its early voltage, "
        "knee current and saturation current";
    return;
  }
  story.reason = NotSettled::Reason::no_finite_solution;
  if (outside.point && *outside.point < system.wiring.nodes) {
    story.node = circuit::NodeId{at(*outside.point)};
  }
  story.tried.back().stopped_at = "a point beyond a million volts";
  story.likely = "a current is driven into a point that has lost its path to ground";
}

NotSettled tell(const System& system, const Work& work, NotSettled story) {
  if (story.reason != NotSettled::Reason::did_not_settle || system.unknowns == 0) return story;
  const Index row = worst_balance(system, work);
  story.worst_balance_a = work.balance_a[at(row)];
  const Index point = system.point_of[at(row)];
  if (point < system.wiring.nodes) story.node = circuit::NodeId{at(point)};
  Holder holder(row);
  holder.see(system.diodes, system.wiring.diodes, work.diodes);
  holder.see(system.lamps, system.wiring.lamps, work.lamps);
  holder.see(system.feeds, system.wiring.feeds, work.feeds);
  holder.see(system.bipolars, system.wiring.bipolars, work.bipolars);
  holder.see(system.fets, system.wiring.fets, work.fets);
  story.part = holder.part();
  story.likely = "a value a decade off, or two leads exchanged, near this point";
  return story;
}

}  // namespace idlepoint::solve
