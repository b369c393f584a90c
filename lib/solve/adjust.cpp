#include "solve/adjust.hpp"

#include <algorithm>
#include <cmath>

#include "solve/make_operating_point.hpp"
#include "solve/travel_scan.hpp"

namespace idlepoint::solve {
namespace {

using circuit::CheckedCircuit;
using circuit::Circuit;
using circuit::TrackEnd;

/// Travels do not depend on where the file has the trimmers: the search starts half way.
CheckedCircuit half_way(const CheckedCircuit& circuit) {
  return circuit.edited([](Circuit& copy) {
    for (const circuit::Adjustment& adjustment : copy.adjustments) {
      std::get<circuit::TrimmerDetails>(copy.at(adjustment.trimmer).details).travel = 0.5;
    }
  });
}

/// The joint search: each trimmer alone by scanning, all together by bordered Newton, until the
/// positions no longer change and each is the first one met from its safe end.
class AdjustSearch {
 public:
  AdjustSearch(const CheckedCircuit& circuit,
               const Conditions& conditions,
               const SafeEnds& safe_ends)
      : start_(half_way(circuit)),
        circuit_(*start_),
        conditions_(conditions),
        safe_ends_(safe_ends),
        finder_(circuit_, conditions),
        solver_(finder_.solver()) {
    for (const circuit::Adjustment& adjustment : circuit_.adjustments) {
      wanted_.push_back(
          {track_of(adjustment.trimmer), circuit_.at(adjustment.reading).probe, adjustment.target});
      travels_.push_back(0.5);
    }
    at_end_.assign(wanted_.size(), false);
    others_.resize(wanted_.size());
    scanned_with_.resize(wanted_.size());
  }

  AdjustedOrStory run() {
    constexpr int most_rounds = 12;
    for (int round = 0; round < most_rounds; ++round) {
      const std::vector<double> before = travels_;
      const Placed placed = place_all();
      if (placed.failed > 0 && placed.moved == 0) return tell();
      is_polished_ = placed.failed == 0 && polish();
      if (placed.failed == 0 && has_come_to_rest(before)) break;
    }
    return finish();
  }

 private:
  [[nodiscard]] std::size_t track_of(circuit::PartId trimmer) const {
    return solve::track_of(solver_.system().wiring, trimmer).value();
  }

  struct Placed {
    std::size_t moved = 0;
    std::size_t failed = 0;
  };

  /// One round. A trimmer that finds no state on its whole track may only wait for another: half
  /// way along its own track that one may keep the stage too hot.
  Placed place_all() {
    Placed placed;
    for (std::size_t k = 0; k < wanted_.size(); ++k) {
      if (is_placed(k)) continue;
      place(k) ? ++placed.moved : ++placed.failed;
    }
    return placed;
  }

  void set_all() {
    for (std::size_t k = 0; k < wanted_.size(); ++k) {
      solver_.set_travel(circuit_, wanted_[k].track, travels_[k]);
    }
  }

  /// True where the joint solve has taken the trimmer over: its crossing is the only one, and the
  /// others have hardly moved since it was scanned for.
  [[nodiscard]] bool is_placed(std::size_t k) const {
    constexpr double hardly = 0.01;
    if (!is_polished_ || at_end_[k] || !others_[k].empty()) return false;
    for (std::size_t j = 0; j < travels_.size(); ++j) {
      if (j != k && std::abs(travels_[j] - scanned_with_[k][j]) > hardly) return false;
    }
    return true;
  }

  /// Places one trimmer with the others where they are; false where nothing solves.
  bool place(std::size_t k) {
    set_all();
    scanned_with_[k] = travels_;
    ScanResult scan = scan_travel(circuit_, finder_, wanted_[k]);
    if (!scan.any_solved) return false;
    at_end_[k] = scan.crossings.empty();
    if (at_end_[k]) {
      travels_[k] = scan.nearest_end_travel;
      others_[k].clear();
      return true;
    }
    if (safe_ends_.size() > k && safe_ends_[k] == TrackEnd::b) {
      std::reverse(scan.crossings.begin(), scan.crossings.end());
    }
    travels_[k] = scan.crossings.front();
    others_[k].assign(scan.crossings.begin() + 1, scan.crossings.end());
    return true;
  }

  /// All trimmers that are not at an end, together; false where that does not settle, or strays.
  bool polish() {
    std::vector<Wanted> wanted;
    std::vector<double> travels;
    for (std::size_t k = 0; k < wanted_.size(); ++k) {
      if (at_end_[k]) continue;
      wanted.push_back(wanted_[k]);
      travels.push_back(travels_[k]);
    }
    set_all();
    RestOrStory found = finder_.find();
    if (wanted.empty() || !std::holds_alternative<Rest>(found)) return false;
    BorderedState at = std::move(std::get<Rest>(found).at);
    at.travels = travels;
    const BorderedResult result = finder_.newton().iterate(wanted, at);
    travels = at.travels;
    steps_ = result.steps;
    if (!result.settled || strays(travels)) return false;
    for (std::size_t k = 0, moved = 0; k < wanted_.size(); ++k) {
      if (!at_end_[k]) travels_[k] = travels[moved++];
    }
    return true;
  }

  /// True where the joint solution is another one than those the scans found.
  [[nodiscard]] bool strays(const std::vector<double>& travels) const {
    constexpr double farthest = 0.25;
    for (std::size_t k = 0, moved = 0; k < wanted_.size(); ++k) {
      if (at_end_[k]) continue;
      if (std::abs(travels[moved++] - travels_[k]) > farthest) return true;
    }
    return false;
  }

  [[nodiscard]] bool has_come_to_rest(const std::vector<double>& before) const {
    for (std::size_t k = 0; k < before.size(); ++k) {
      if (std::abs(before[k] - travels_[k]) > 1e-7) return false;
    }
    return true;
  }

  AdjustedOrStory tell() {
    RestOrStory found = finder_.find();
    if (auto* story = std::get_if<NotSettled>(&found)) return std::move(*story);
    if (const auto* trouble = std::get_if<ThermalTrouble>(&found)) return *trouble;
    return NotSettled{};
  }

  AdjustedOrStory finish() {
    const CheckedCircuit set = start_.edited([&](Circuit& copy) {
      for (std::size_t k = 0; k < wanted_.size(); ++k) {
        auto& part = copy.at(copy.adjustments[k].trimmer);
        std::get<circuit::TrimmerDetails>(part.details).travel = travels_[k];
      }
    });
    set_all();
    RestOrStory found = finder_.find();
    if (auto* story = std::get_if<NotSettled>(&found)) return std::move(*story);
    if (const auto* trouble = std::get_if<ThermalTrouble>(&found)) return *trouble;
    Rest& rest = std::get<Rest>(found);
    const OperatingPoint state = make_operating_point(circuit_, conditions_, finder_, rest);
    rest.at.travels = travels_;
    const auto border = finder_.newton().border(wanted_, rest.at);
    const std::vector<double> slopes = border ? finder_.newton().slopes_by_travel(*border)
                                              : std::vector<double>(wanted_.size(), 0.0);
    Adjusted adjusted{{}, set, state, steps_};
    for (std::size_t k = 0; k < wanted_.size(); ++k) {
      const circuit::Adjustment& adjustment = circuit_.adjustments[k];
      const double value = state.read(circuit_, wanted_[k].probe);
      const bool reached = std::abs(value - adjustment.target) <= adjustment.within;
      adjusted.settings.push_back({adjustment.trimmer,
                                   adjustment.reading,
                                   travels_[k],
                                   reached,
                                   at_end_[k],
                                   value,
                                   slopes[k],
                                   others_[k]});
    }
    return adjusted;
  }

  CheckedCircuit start_;
  const Circuit& circuit_;
  const Conditions& conditions_;
  const SafeEnds& safe_ends_;
  StateFinder finder_;
  StageSolver& solver_;
  std::vector<Wanted> wanted_;
  std::vector<double> travels_;
  std::vector<bool> at_end_;
  std::vector<std::vector<double>> others_;
  std::vector<std::vector<double>> scanned_with_;  ///< [wanted] travels at its last scan.
  bool is_polished_ = false;
  int steps_ = 0;
};

}  // namespace

AdjustedOrStory solve_adjustments(const CheckedCircuit& circuit,
                                  const Conditions& conditions,
                                  const SafeEnds& safe_ends) {
  return AdjustSearch(circuit, conditions, safe_ends).run();
}

}  // namespace idlepoint::solve
