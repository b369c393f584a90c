#include "solve/system.hpp"

#include <algorithm>
#include <queue>

namespace idlepoint::solve {
namespace {

/// Ideal branches as a graph over points, walked breadth first from the lowest point of each group.
class Grouping {
 public:
  explicit Grouping(System& system)
      : system_(system),
        meets_(at(system.wiring.points)),
        reached_by_(at(system.wiring.points)),
        seen_(at(system.wiring.points)),
        used_(system.wiring.ideals.size()) {
    const auto& ideals = system.wiring.ideals;
    for (std::size_t k = 0; k < ideals.size(); ++k) {
      meets_[at(ideals[k].a)].push_back(k);
      if (ideals[k].a != ideals[k].b) meets_[at(ideals[k].b)].push_back(k);
    }
    system_.unknown_of.assign(at(system.wiring.points), 0);
  }

  /// Gives the ground group (point 0) the index `unknowns`, every other group one of its own.
  void run() {
    for (Index root = 0; root < system_.wiring.points; ++root) {
      if (!seen_[at(root)]) walk(root);
    }
    system_.unknowns = groups_ - 1;
    for (Index& unknown : system_.unknown_of) {
      unknown = unknown == 0 ? system_.unknowns : unknown - 1;
    }
  }

 private:
  void walk(Index root) {
    if (root != 0) system_.point_of.push_back(root);
    const Index group = groups_++;
    std::queue<Index> front({root});
    seen_[at(root)] = true;
    while (!front.empty()) {
      const Index from = front.front();
      front.pop();
      system_.unknown_of[at(from)] = group;
      for (const std::size_t ideal : meets_[at(from)]) step(ideal, from, front);
    }
  }

  void step(std::size_t ideal, Index from, std::queue<Index>& front) {
    if (used_[ideal]) return;
    used_[ideal] = true;
    const TwoPole& branch = system_.wiring.ideals[ideal];
    const bool upward = branch.b == from;
    const Index to = upward ? branch.a : branch.b;
    if (seen_[at(to)]) {
      system_.loops.push_back({ideal, path_between(branch.a, branch.b)});
      return;
    }
    seen_[at(to)] = true;
    reached_by_[at(to)] = system_.offsets.size();
    system_.offsets.push_back({to, from, ideal, upward ? 1.0 : -1.0});
    front.push(to);
  }

  [[nodiscard]] std::vector<std::size_t> path_to_root(Index point) const {
    std::vector<std::size_t> path;
    while (reached_by_[at(point)]) {
      const OffsetStep& step = system_.offsets[*reached_by_[at(point)]];
      path.push_back(step.ideal);
      point = step.from;
    }
    return path;
  }

  [[nodiscard]] std::vector<std::size_t> path_between(Index a, Index b) const {
    std::vector<std::size_t> one = path_to_root(a);
    std::vector<std::size_t> other = path_to_root(b);
    while (!one.empty() && !other.empty() && one.back() == other.back()) {
      one.pop_back();
      other.pop_back();
    }
    one.insert(one.end(), other.begin(), other.end());
    return one;
  }

  System& system_;
  std::vector<std::vector<std::size_t>> meets_;
  std::vector<std::optional<std::size_t>> reached_by_;
  std::vector<bool> seen_;
  std::vector<bool> used_;
  Index groups_ = 0;
};

using Entries = std::vector<std::pair<Index, Index>>;

void add_entries(const System& system, const std::vector<TwoPole>& poles, Entries& entries) {
  for (const TwoPole& pole : poles) {
    const Index a = system.unknown_of[at(pole.a)];
    const Index b = system.unknown_of[at(pole.b)];
    if (a < system.unknowns && b < system.unknowns) entries.emplace_back(a, b);
  }
}

void add_entries(const System& system, const std::vector<ThreePole>& poles, Entries& entries) {
  for (const ThreePole& pole : poles) {
    for (std::size_t i = 0; i < 3; ++i) {
      const Index a = system.unknown_of[at(pole.points[i])];
      const Index b = system.unknown_of[at(pole.points[(i + 1) % 3])];
      if (a < system.unknowns && b < system.unknowns) entries.emplace_back(a, b);
    }
  }
}

Index slot_or_spare(const System& system, Index row, Index column) {
  if (row >= system.unknowns || column >= system.unknowns) return system.elimination.spare_slot();
  return system.elimination.slot(row, column);
}

std::vector<TwoPoleStamp> stamps(const System& system, const std::vector<TwoPole>& poles) {
  std::vector<TwoPoleStamp> list;
  list.reserve(poles.size());
  for (const TwoPole& pole : poles) {
    const Index a = system.unknown_of[at(pole.a)];
    const Index b = system.unknown_of[at(pole.b)];
    list.push_back({pole.a,
                    pole.b,
                    a,
                    b,
                    slot_or_spare(system, a, a),
                    slot_or_spare(system, a, b),
                    slot_or_spare(system, b, a),
                    slot_or_spare(system, b, b)});
  }
  return list;
}

std::vector<ThreePoleStamp> stamps(const System& system, const std::vector<ThreePole>& poles) {
  std::vector<ThreePoleStamp> list;
  list.reserve(poles.size());
  for (const ThreePole& pole : poles) {
    ThreePoleStamp stamp{pole.points, {}, {}};
    for (std::size_t i = 0; i < 3; ++i) stamp.rows[i] = system.unknown_of[at(pole.points[i])];
    for (std::size_t i = 0; i < 9; ++i) {
      stamp.slots[i] = slot_or_spare(system, stamp.rows[i / 3], stamp.rows[i % 3]);
    }
    list.push_back(stamp);
  }
  return list;
}

void insulate(System& system) {
  const auto add = [&](Index point) {
    const Index row = system.unknown_of[at(point)];
    system.insulation.push_back({point, row, slot_or_spare(system, row, row)});
  };
  for (Index node = 1; node < system.wiring.nodes; ++node) add(node);
  for (const Index point : system.wiring.left_off) add(point);
}

}  // namespace

System compile(Wiring wiring) {
  System system;
  system.wiring = std::move(wiring);
  Grouping(system).run();

  Entries entries;
  for (const auto* poles : {&system.wiring.conductors,
                            &system.wiring.diodes,
                            &system.wiring.lamps,
                            &system.wiring.feeds}) {
    add_entries(system, *poles, entries);
  }
  add_entries(system, system.wiring.bipolars, entries);
  add_entries(system, system.wiring.fets, entries);
  system.elimination = Elimination(system.unknowns, entries);

  system.conductors = stamps(system, system.wiring.conductors);
  system.diodes = stamps(system, system.wiring.diodes);
  system.lamps = stamps(system, system.wiring.lamps);
  system.feeds = stamps(system, system.wiring.feeds);
  system.bipolars = stamps(system, system.wiring.bipolars);
  system.fets = stamps(system, system.wiring.fets);
  insulate(system);
  return system;
}

}  // namespace idlepoint::solve
