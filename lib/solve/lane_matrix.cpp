#include "solve/lane_matrix.hpp"

#include <algorithm>
#include <span>

namespace idlepoint::solve {
namespace {

using Entries = std::vector<std::pair<Index, Index>>;

/// Marks every entry first, then orders, then finds the slots.
class Matrix {
 public:
  explicit Matrix(LanePlan& plan) : plan_(plan) {}

  void run() {
    mark_poles();
    mark_heat();
    mark_travels();
    plan_.elimination = Elimination(order(), entries_);
    find_slots();
  }

 private:
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

  LanePlan& plan_;
  Entries entries_;
};

}  // namespace

void lay_out_matrix(LanePlan& plan) { Matrix(plan).run(); }

}  // namespace idlepoint::solve
