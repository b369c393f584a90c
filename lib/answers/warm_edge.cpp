#include "answers/warm_edge.hpp"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <utility>

#include "solve/bordered_newton.hpp"
#include "solve/fold.hpp"
#include "solve/state_finder.hpp"

namespace idlepoint::answers {
namespace {

constexpr double lifted_maximum_k = 673.15;  // 400 C, docs/models.md, "Heat"

struct Stop {
  double at = 0.0;
  solve::Rest rest;
  double excess_k = 0.0;  ///< Of the hottest junction over its maximum; negative below it.
};

/// The warm state of a moved stage with the junctions' maxima lifted to 400 C; from a neighbouring
/// stop alone where one is given.
std::optional<Stop> look(const Mover& move, double at, const Stop* near) {
  const MovedStage moved = move(at);
  circuit::Circuit lifted = moved.circuit;
  for (auto& type : lifted.types) type.ratings.max_junction_temperature_k = lifted_maximum_k;
  solve::Conditions warm = moved.conditions;
  warm.heat = solve::HeatState::warm;
  solve::StateFinder finder(lifted, warm);
  auto rest = near == nullptr ? finder.find_quickly() : finder.find_near(near->rest);
  if (!rest) return std::nullopt;
  const auto hot = solve::hottest(moved.circuit, finder.heat(), rest->at.temperatures_k);
  return Stop{at, std::move(*rest), hot ? hot->excess_k : 0.0};
}

/// Between a stop that is cool enough and one that is not.
double hot_between(const Mover& move, const Stop& cool, const Stop& hot, double width) {
  std::uintmax_t evaluations = 20;
  const auto excess_k = [&](double at) {
    const auto found = look(move, at, &cool);
    return found ? found->excess_k : hot.excess_k;
  };
  const auto close = [&](double a, double b) { return std::abs(a - b) <= width; };
  const bool ascends = cool.at < hot.at;
  const Stop& low = ascends ? cool : hot;
  const Stop& high = ascends ? hot : cool;
  const auto [from, to] = boost::math::tools::toms748_solve(
      excess_k, low.at, high.at, low.excess_k, high.excess_k, close, evaluations);
  return ascends ? from : to;
}

class Walk {
 public:
  Walk(const Mover& move, const Range& range, Stop start)
      : move_(move), range_(range), here_(std::move(start)) {
    step_ = longest_step();
  }

  Edge run() {
    constexpr int most_looks = 100;
    for (int looks = 0; looks < most_looks && !is_done_; ++looks) take_step();
    return edge_;
  }

 private:
  [[nodiscard]] double longest_step() const { return 0.25 * (range_.to - range_.from); }

  void take_step() {
    const bool is_last = std::abs(step_) >= std::abs(range_.to - here_.at);
    auto next = look(move_, is_last ? range_.to : here_.at + step_, &here_);
    if (!next) {
      step_ *= 0.5;
      if (std::abs(step_) < range_.width) end_here();
      return;
    }
    if (!edge_.too_hot_at && here_.excess_k < 0.0 && next->excess_k >= 0.0) {
      edge_.too_hot_at = hot_between(move_, here_, *next, range_.width);
    }
    const auto fold =
        solve::fold_ahead({here_.at, here_.rest.loop_gain}, {next->at, next->rest.loop_gain});
    here_ = std::move(*next);
    is_done_ = is_last;
    if (!is_done_) choose_step(fold);
  }

  /// Most of the way to a fold that is foreseen, else twice the last step.
  void choose_step(const std::optional<double>& fold) {
    constexpr double share_of_the_way = 0.7;
    const double direction = range_.to < range_.from ? -1.0 : 1.0;
    double size = std::min(2.0 * std::abs(step_), std::abs(longest_step()));
    if (fold) {
      const double left = std::abs(*fold - here_.at);
      if (left < range_.width && here_.rest.loop_gain > solve::gain_near_a_fold) {
        end_here();
        return;
      }
      size = std::max(range_.width, std::min(size, share_of_the_way * left));
    }
    step_ = direction * size;
  }

  /// A state may also end because it is followed no further than 400 C; its gain is low then.
  void end_here() {
    constexpr double gain_towards_one = 0.7;
    is_done_ = true;
    if (here_.rest.loop_gain > gain_towards_one) edge_.reaches_one_at = here_.at;
  }

  const Mover& move_;
  const Range& range_;
  Stop here_;
  double step_ = 0.0;
  Edge edge_;
  bool is_done_ = false;
};

}  // namespace

Mover move_room(const circuit::Circuit& circuit, const solve::Conditions& conditions) {
  return [&](double ambient_k) {
    MovedStage moved{circuit, conditions};
    moved.circuit.ambient_k = ambient_k;
    return moved;
  };
}

Mover move_trimmer(const circuit::Circuit& circuit,
                   const solve::Conditions& conditions,
                   circuit::PartId trimmer) {
  return [&circuit, &conditions, trimmer](double travel) {
    MovedStage moved{circuit, conditions};
    auto& part = moved.circuit.at(trimmer);
    std::get<circuit::TrimmerDetails>(part.details).travel = solve::nearest_travel(part, travel);
    return moved;
  };
}

std::vector<circuit::PartId> trimmers_that_turn(const circuit::Circuit& circuit) {
  std::vector<circuit::PartId> trimmers;
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    const auto& part = circuit.parts[index];
    if (part.kind == circuit::PartKind::trimmer && !part.damage.absent && !part.damage.wiper_open) {
      trimmers.push_back(circuit::PartId{index});
    }
  }
  return trimmers;
}

double travel_of(const circuit::Circuit& circuit, circuit::PartId trimmer) {
  return std::get<circuit::TrimmerDetails>(circuit.at(trimmer).details).travel;
}

Edge find_edge(const Mover& move, const Range& range) {
  if (std::abs(range.to - range.from) <= range.width) return {};
  auto start = look(move, range.from, nullptr);
  if (!start) return {};
  return Walk(move, range, std::move(*start)).run();
}

bool holds_warm(const MovedStage& moved) {
  const auto found = look([&](double) { return moved; }, 0.0, nullptr);
  return found && found->excess_k <= 0.0;
}

}  // namespace idlepoint::answers
