#include "solve/balance_check.hpp"

#include <algorithm>
#include <cmath>

namespace idlepoint::solve {
namespace {

/// The largest single current that meets each unknown.
class LargestCurrents {
 public:
  explicit LargestCurrents(std::size_t rows) : current_a_(rows, 0.0) {}

  void meet(Index row, double current_a) {
    current_a_[at(row)] = std::max(current_a_[at(row)], std::abs(current_a));
  }

  void meet(const TwoPoleStamp& stamp, double current_a) {
    meet(stamp.row_a, current_a);
    meet(stamp.row_b, current_a);
  }

  void meet(const std::vector<TwoPoleStamp>& stamps, const std::vector<TwoPoleTangent>& tangents) {
    for (std::size_t k = 0; k < stamps.size(); ++k) meet(stamps[k], tangents[k].current_a);
  }

  void meet(const std::vector<ThreePoleStamp>& stamps,
            const std::vector<ThreePoleTangent>& tangents) {
    for (std::size_t k = 0; k < stamps.size(); ++k) {
      meet(stamps[k].rows[0], tangents[k].current_0_a);
      meet(stamps[k].rows[1], tangents[k].current_1_a);
      meet(stamps[k].rows[2], tangents[k].current_0_a + tangents[k].current_1_a);
    }
  }

  [[nodiscard]] double operator[](std::size_t row) const { return current_a_[row]; }

 private:
  std::vector<double> current_a_;
};

LargestCurrents largest_currents(const System& system, const Numbers& numbers, const Work& work) {
  LargestCurrents largest(at(system.unknowns) + 1);
  for (std::size_t k = 0; k < system.conductors.size(); ++k) {
    const TwoPoleStamp& stamp = system.conductors[k];
    largest.meet(
        stamp, numbers.conductance_s[k] * (work.point_v[at(stamp.a)] - work.point_v[at(stamp.b)]));
  }
  largest.meet(system.diodes, work.diodes);
  largest.meet(system.lamps, work.lamps);
  largest.meet(system.feeds, work.feeds);
  largest.meet(system.bipolars, work.bipolars);
  largest.meet(system.fets, work.fets);
  return largest;
}

}  // namespace

BalanceCheck check_balance(const System& system, const Numbers& numbers, State& state, Work& work) {
  constexpr double least_a = 0.5e-12;
  constexpr double share = 1e-9;
  assemble(system, numbers, {}, Limiting::off, state, work);
  const LargestCurrents largest = largest_currents(system, numbers, work);
  BalanceCheck check{true, 0.0, 0};
  for (std::size_t k = 0; k < at(system.unknowns); ++k) {
    const double balance_a = std::abs(work.balance_a[k]);
    if (!(balance_a <= least_a + share * largest[k])) check.holds = false;
    if (!(balance_a <= check.worst_a)) {
      check.worst_a = balance_a;
      check.unknown = static_cast<Index>(k);
    }
  }
  return check;
}

}  // namespace idlepoint::solve
