#include "solve/terminal_weights.hpp"

namespace idlepoint::solve {

double TerminalWeights::at(const Owner& owner, Index point) const {
  double sum = by_point[static_cast<std::size_t>(point)];
  for (const auto& [lead, factor] : leads) {
    if (lead == owner) sum += factor;
  }
  return sum;
}

void add_ideal(const IdealCurrents& ideals,
               std::size_t ideal,
               double factor,
               TerminalWeights& weights) {
  const std::vector<double> by_point = ideals.weights(ideal);
  for (std::size_t k = 0; k < by_point.size(); ++k) weights.by_point[k] += factor * by_point[k];
}

void add_lead(const System& system,
              const IdealCurrents& ideals,
              const Owner& owner,
              double factor,
              TerminalWeights& weights) {
  weights.leads.emplace_back(owner, factor);
  for (std::size_t k = 0; k < system.wiring.ideals.size(); ++k) {
    const TwoPole& branch = system.wiring.ideals[k];
    const double sign =
        (branch.owner_a == owner ? 1.0 : 0.0) - (branch.owner_b == owner ? 1.0 : 0.0);
    if (sign != 0.0) add_ideal(ideals, k, sign * factor, weights);
  }
}

}  // namespace idlepoint::solve
