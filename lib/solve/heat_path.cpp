#include "solve/heat_path.hpp"

namespace idlepoint::solve {

Eigen::VectorXd sink_capacities(const circuit::Circuit& circuit) {
  Eigen::VectorXd capacity(static_cast<Eigen::Index>(circuit.heatsinks.size()));
  for (Eigen::Index k = 0; k < capacity.size(); ++k) {
    capacity[k] = circuit.heatsinks[static_cast<std::size_t>(k)].capacity_j_per_k.value_or(
        assumed_capacity_j_per_k);
  }
  return capacity;
}

HeatModel implicit_step(const HeatModel& heat,
                        const Eigen::VectorXd& capacity_j_per_k,
                        const Eigen::VectorXd& from_k,
                        double seconds) {
  HeatModel step = heat;
  for (Eigen::Index k = 0; k < from_k.size(); ++k) {
    // s (1 + dt/(R C)) = from + dt/C P
    const double per_w = seconds / capacity_j_per_k[k];
    const double resistance = heat.sink_k_per_w[k];
    const double share = resistance > 0.0 ? 1.0 / (1.0 + per_w / resistance) : 0.0;
    step.sink_k_per_w[k] = per_w * share;
    step.sink_base_k[k] = from_k[k] * share;
  }
  return step;
}

}  // namespace idlepoint::solve
