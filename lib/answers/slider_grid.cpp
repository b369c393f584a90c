#include "answers/slider_grid.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "answers/copies.hpp"
#include "answers/linear_sum.hpp"
#include "answers/reading_values.hpp"
#include "solve/make_operating_point.hpp"
#include "solve/state_finder.hpp"

namespace idlepoint::answers {
namespace {

using circuit::CheckedCircuit;
using solve::HeatState;

constexpr double share_of_the_band = 1.0 / 20.0;
constexpr double finest_step = 1.0 / 256.0;
/// Of the places without a state; two trimmers together can only be fenced in coarsely, as the
/// fence runs across the grid.
constexpr double nearest_edge = 1.0 / 64.0;
constexpr double nearest_edge_of_two = 1.0 / 8.0;
constexpr double node_within_v = 0.5e-3;
constexpr double node_within = 1e-3;
constexpr std::size_t most_places = 65;         ///< An axis: the page must stay light.
constexpr std::size_t most_places_of_two = 24;  ///< On the mean of two axes: 12 by 48 at most.

std::vector<circuit::PartId> whole_trimmers(const circuit::Circuit& circuit) {
  std::vector<circuit::PartId> found;
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    const auto& part = circuit.parts[index];
    const bool is_whole = !part.damage.absent && !part.damage.is_link && !part.damage.wiper_open;
    if (part.kind == circuit::PartKind::trimmer && is_whole) found.push_back({index});
  }
  return found;
}

double least_that_counts(ReadingUnit unit) { return unit == ReadingUnit::celsius ? 0.05 : 20e-6; }

std::vector<double> half_widths(const CheckedCircuit& stage, const solve::Conditions& conditions) {
  Looked looked;
  for (const auto& reading : stage->readings) looked.probes.push_back(reading.probe);
  Copies copies(stage, conditions, looked);
  std::vector<double> widths(looked.probes.size(), 0.0);
  const auto slopes = copies.is_sound() ? copies.slopes() : std::nullopt;
  for (std::size_t k = 0; slopes && k < widths.size(); ++k) widths[k] = half_width((*slopes)[k]);
  return widths;
}

std::vector<double> values_of(const circuit::Circuit& circuit, const solve::OperatingPoint& state) {
  std::vector<double> values;
  for (std::size_t k = 0; k < circuit.nodes.size(); ++k) {
    values.push_back(state.voltage_v(circuit::NodeId{k}));
  }
  for (std::size_t k = 0; k < circuit.parts.size(); ++k) {
    const auto& currents_a = state.part(circuit::PartId{k}).lead_current_a;
    values.push_back(slider_current_a(circuit.parts[k], currents_a));
  }
  for (const auto& reading : circuit.readings) {
    values.push_back(in_own_unit(state.read(circuit, reading.probe), unit_of(reading.probe)));
  }
  return values;
}

// A share of the band, which is wider by the plain sum than it is where a reading cannot fall below
// zero: no more than of twice the reading then, nor less than a tenth of the sum.
std::vector<double> allowed(const CheckedCircuit& stage,
                            const solve::Conditions& conditions,
                            const std::vector<double>& values) {
  std::vector<double> within;
  const auto widths = half_widths(stage, conditions);
  for (std::size_t k = 0; k < widths.size(); ++k) {
    const double band = 2.0 * widths[k];
    const double reading = std::abs(values[values.size() - widths.size() + k]);
    within.push_back(std::max(share_of_the_band * std::clamp(2.0 * reading, 0.1 * band, band),
                              least_that_counts(unit_of(stage->readings[k].probe))));
  }
  return within;
}

SliderPoint solve_point(const CheckedCircuit& stage, const solve::Conditions& conditions) {
  solve::StateFinder finder(*stage, conditions);
  const auto rest = finder.find_quickly();
  if (!rest) {
    return {conditions.heat == HeatState::warm ? NoState::no_rest : NoState::not_settled};
  }
  SliderPoint point;
  point.values = values_of(*stage, solve::make_operating_point(*stage, conditions, finder, *rest));
  point.within = allowed(stage, conditions, point.values);
  return point;
}

/// The solutions of one stage at places of some of its trimmers, each found once.
class Places {
 public:
  Places(const Setup& setup, std::vector<circuit::PartId> trimmers)
      : setup_(setup), trimmers_(std::move(trimmers)) {}

  struct Both {
    SliderPoint cold;
    SliderPoint warm;
  };

  const Both& at(const std::vector<double>& travels) {
    const auto known = known_.find(travels);
    if (known != known_.end()) return known->second;
    const auto moved = setup_.stage.edited([&](circuit::Circuit& circuit) {
      for (std::size_t k = 0; k < trimmers_.size(); ++k) {
        std::get<circuit::TrimmerDetails>(circuit.at(trimmers_[k]).details).travel = travels[k];
      }
    });
    Both found;
    solve::Conditions conditions = setup_.conditions;
    conditions.heat = HeatState::cold;
    found.cold = solve_point(moved, conditions);
    if (is_warm()) {
      conditions.heat = HeatState::warm;
      found.warm = solve_point(moved, conditions);
    }
    return known_.emplace(travels, std::move(found)).first->second;
  }

  [[nodiscard]] bool is_warm() const { return setup_.conditions.heat == HeatState::warm; }
  [[nodiscard]] const circuit::Circuit& circuit() const { return *setup_.stage; }
  [[nodiscard]] const std::vector<circuit::PartId>& trimmers() const { return trimmers_; }
  [[nodiscard]] std::size_t solved() const { return known_.size(); }

 private:
  const Setup& setup_;
  std::vector<circuit::PartId> trimmers_;
  std::map<std::vector<double>, Both> known_;
};

bool is_near(const circuit::Circuit& circuit, const SliderPoint& drawn, const SliderPoint& exact) {
  const std::size_t readings = circuit.nodes.size() + circuit.parts.size();
  for (std::size_t k = 0; k < circuit.nodes.size(); ++k) {
    const double within = std::max(node_within_v, node_within * std::abs(exact.values[k]));
    if (!(std::abs(drawn.values[k] - exact.values[k]) <= within)) return false;
  }
  for (std::size_t k = 0; k < circuit.readings.size(); ++k) {
    const double off = std::abs(drawn.values[readings + k] - exact.values[readings + k]);
    if (!(off <= exact.within[k])) return false;
  }
  return true;
}

/// Makes a grid finer where the curve between its points is too far from the truth.
class Refinement {
 public:
  Refinement(Places& places, const std::function<bool(double)>& go_on)
      : places_(places), go_on_(go_on) {
    grid_.trimmers = places.trimmers();
    for (const auto trimmer : grid_.trimmers) grid_.axes.push_back(first_axis(trimmer));
  }

  SliderGrid run() {
    bool has_grown = true;
    while (has_grown && goes_on_) {
      has_grown = false;
      for (std::size_t k = 0; k < grid_.axes.size() && goes_on_; ++k) has_grown |= refine(k);
    }
    fill();
    return std::move(grid_);
  }

 private:
  std::vector<double> first_axis(circuit::PartId trimmer) const {
    const auto& part = places_.circuit().at(trimmer);
    std::vector<double> axis = {0.0, 0.25, 0.5, 0.75, 1.0};
    const double now = std::get<circuit::TrimmerDetails>(part.details).travel;
    const bool is_apart = std::all_of(axis.begin(), axis.end(), [&](double place) {
      return std::abs(place - now) > 4.0 * finest_step;
    });
    if (is_apart) axis.insert(std::upper_bound(axis.begin(), axis.end(), now), now);
    return axis;
  }

  /// True where the axis has got new places.
  bool refine(std::size_t axis) {
    fill();
    std::vector<double> finer = grid_.axes[axis];
    for (std::size_t index = 0; index + 1 < grid_.axes[axis].size() && goes_on_; ++index) {
      if (finer.size() >= most_of(axis) || !wants_middle(axis, index)) continue;
      const double middle = 0.5 * (grid_.axes[axis][index] + grid_.axes[axis][index + 1]);
      finer.insert(std::upper_bound(finer.begin(), finer.end(), middle), middle);
    }
    const bool has_grown = finer.size() > grid_.axes[axis].size();
    grid_.axes[axis] = std::move(finer);
    return has_grown;
  }

  // The axis of the two that wants more gets it: the bias is steep where the offset is not.
  [[nodiscard]] std::size_t most_of(std::size_t axis) const {
    if (grid_.axes.size() < 2) return most_places;
    const bool is_longer = grid_.axes[axis].size() >= grid_.axes[1 - axis].size();
    return is_longer ? most_places_of_two * 2 : most_places_of_two / 2;
  }

  /// Looks half way along every line of the grid that crosses this interval.
  bool wants_middle(std::size_t axis, std::size_t index) {
    const double width = grid_.axes[axis][index + 1] - grid_.axes[axis][index];
    if (0.5 * width < finest_step) return false;
    std::vector<double> travels(grid_.axes.size(), 0.0);
    travels[axis] = 0.5 * (grid_.axes[axis][index] + grid_.axes[axis][index + 1]);
    if (grid_.axes.size() == 1) return is_far(travels, width);
    const std::size_t other = 1 - axis;
    return std::any_of(grid_.axes[other].begin(), grid_.axes[other].end(), [&](double place) {
      travels[other] = place;
      return is_far(travels, width);
    });
  }

  bool is_far(const std::vector<double>& travels, double width) {
    const auto& exact = places_.at(travels);
    tell();
    const auto judge = [&](const std::vector<SliderPoint>& points, const SliderPoint& truth) {
      if (points.empty()) return false;
      const SliderPoint drawn = drawn_at(grid_, points, travels);
      if (drawn.values.empty() != truth.values.empty())
        return width > (grid_.axes.size() == 2 ? nearest_edge_of_two : nearest_edge);
      return !truth.values.empty() && !is_near(places_.circuit(), drawn, truth);
    };
    return judge(grid_.cold, exact.cold) || judge(grid_.warm, exact.warm);
  }

  void fill() {
    grid_.cold.clear();
    grid_.warm.clear();
    std::vector<double> travels(grid_.axes.size());
    fill_from(0, travels);
  }

  void fill_from(std::size_t axis, std::vector<double>& travels) {
    if (axis == grid_.axes.size()) {
      const auto& found = places_.at(travels);
      grid_.cold.push_back(found.cold);
      if (places_.is_warm()) grid_.warm.push_back(found.warm);
      return;
    }
    for (const double place : grid_.axes[axis]) {
      travels[axis] = place;
      fill_from(axis + 1, travels);
    }
  }

  // No one knows how many there will be: towards 1, never there.
  void tell() {
    constexpr double half_way = 150.0;
    const auto solved = static_cast<double>(places_.solved());
    goes_on_ = goes_on_ && go_on_(solved / (solved + half_way));
  }

  Places& places_;
  const std::function<bool(double)>& go_on_;
  SliderGrid grid_;
  bool goes_on_ = true;
};

}  // namespace

std::string_view word(NoState why) noexcept {
  switch (why) {
    case NoState::no_rest:
      return "finds no rest";
    case NoState::not_settled:
      return "does not settle";
    case NoState::none:
      break;
  }
  return "";
}

double slider_current_a(const circuit::Part& part, const std::vector<double>& lead_current_a) {
  if (part.kind != circuit::PartKind::trimmer) return lead_current_a.front();
  double largest_a = 0.0;
  for (const double current_a : lead_current_a) {
    largest_a = std::max(largest_a, std::abs(current_a));
  }
  return largest_a;
}

Sliders find_sliders(const Setup& setup, const std::function<bool(double)>& go_on) {
  const auto trimmers = whole_trimmers(*setup.stage);
  Sliders sliders{setup.stage, {}};
  std::vector<std::vector<circuit::PartId>> together;
  if (trimmers.size() <= 2) {
    together.push_back(trimmers);
  } else {
    for (const auto trimmer : trimmers) together.push_back({trimmer});
  }
  for (auto& group : together) {
    Places places(setup, std::move(group));
    sliders.grids.push_back(Refinement(places, go_on).run());
  }
  return sliders;
}

}  // namespace idlepoint::answers
