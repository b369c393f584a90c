// Weighted sums of the currents at poles' terminals, with their gradient by the unknowns.
//
// Everything that is read in amperes or watts is such a sum: a lead's current, a link's share of
// the currents around it, a part's power. Used by solve/probe_gradient and solve/operating_point.
#pragma once

#include <vector>

#include "solve/assembly.hpp"

namespace idlepoint::solve {

/// How the current from a point into a pole moves with something, at fixed voltages of the points:
/// a temperature (a = A/K), a parameter (A a unit of it).
struct TerminalSlope {
  Owner owner;
  Index point;
  double a;
};

/// Calls `visit(owner, point, current_a, points, slopes)` for every terminal of every pole and
/// every insulated point: the current that leaves the point into the pole, and its slopes by the
/// volts of `points` (three of each, unused ones ground and zero). `work` holds an assembled state.
template <class Visit>
void for_each_terminal(const System& system,
                       const Numbers& numbers,
                       const Work& work,
                       Visit visit) {
  const auto at = [](Index index) { return static_cast<std::size_t>(index); };
  const auto two_pole = [&](const TwoPole& pole, double i, double g) {
    const std::array<Index, 3> points{pole.a, pole.b, 0};
    visit(pole.owner_a, pole.a, i, points, std::array<double, 3>{g, -g, 0.0});
    visit(pole.owner_b, pole.b, -i, points, std::array<double, 3>{-g, g, 0.0});
  };
  const auto two_poles = [&](const auto& poles, const auto& tangents) {
    for (std::size_t k = 0; k < poles.size(); ++k) {
      two_pole(poles[k], tangents[k].current_a, tangents[k].conductance_s);
    }
  };
  const auto three_poles = [&](const auto& poles, const auto& tangents) {
    for (std::size_t k = 0; k < poles.size(); ++k) {
      const ThreePoleTangent& t = tangents[k];
      const std::array<double, 3> first{t.s00, t.s01, -(t.s00 + t.s01)};
      const std::array<double, 3> second{t.s10, t.s11, -(t.s10 + t.s11)};
      const std::array<double, 3> third{
          -(first[0] + second[0]), -(first[1] + second[1]), -(first[2] + second[2])};
      const ThreePole& pole = poles[k];
      const auto owner = [&](std::size_t terminal) {
        return Owner{pole.part, pole.leads[terminal]};
      };
      visit(owner(0), pole.points[0], t.current_0_a, pole.points, first);
      visit(owner(1), pole.points[1], t.current_1_a, pole.points, second);
      visit(owner(2), pole.points[2], -(t.current_0_a + t.current_1_a), pole.points, third);
    }
  };
  for (std::size_t k = 0; k < system.wiring.conductors.size(); ++k) {
    const TwoPole& pole = system.wiring.conductors[k];
    const double g = numbers.conductance_s[k];
    two_pole(pole, g * (work.point_v[at(pole.a)] - work.point_v[at(pole.b)]), g);
  }
  two_poles(system.wiring.diodes, work.diodes);
  two_poles(system.wiring.lamps, work.lamps);
  two_poles(system.wiring.feeds, work.feeds);
  three_poles(system.wiring.bipolars, work.bipolars);
  three_poles(system.wiring.fets, work.fets);
  for (const InsulationStamp& stamp : system.insulation) {
    visit(Owner{},
          stamp.point,
          insulation_s * work.point_v[at(stamp.point)],
          std::array<Index, 3>{stamp.point, 0, 0},
          std::array<double, 3>{insulation_s, 0.0, 0.0});
  }
}

}  // namespace idlepoint::solve
