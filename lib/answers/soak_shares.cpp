#include "answers/soak_shares.hpp"

#include <algorithm>
#include <numeric>

#include "answers/at_rail.hpp"
#include "answers/played_loud.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::answers {
namespace {

std::vector<double> sink_watts(const circuit::Circuit& circuit,
                               const solve::OperatingPoint& state) {
  std::vector<double> watts;
  for (std::size_t index = 0; index < circuit.heatsinks.size(); ++index) {
    watts.push_back(state.heatsink(circuit::HeatsinkId{index}).power_w);
  }
  return watts;
}

// Zero for a sink that takes less than at rest.
void add_extra_watts(const circuit::CheckedCircuit& stage,
                     const solve::OperatingPoint& cold,
                     const circuit::CheckedCircuit& playing,
                     std::vector<double>& extra_w) {
  const auto outcome = solve::solve_cold(playing, cold.conditions());
  const auto* state = std::get_if<solve::OperatingPoint>(&outcome);
  if (state == nullptr) return;
  const auto at_rest = sink_watts(*stage, cold);
  const auto loud = sink_watts(*stage, *state);
  for (std::size_t index = 0; index < extra_w.size(); ++index) {
    extra_w[index] += std::max(0.0, loud[index] - at_rest[index]);
  }
}

}  // namespace

std::optional<std::vector<double>> soak_shares(const circuit::CheckedCircuit& stage,
                                               const solve::OperatingPoint& cold,
                                               double extra_w) {
  constexpr circuit::NodeId ground{0};
  std::vector<double> shares(stage->heatsinks.size(), 0.0);
  const auto sum = [&] { return std::accumulate(shares.begin(), shares.end(), 0.0); };
  const auto rails = outermost_rails(*stage, cold.conditions());
  const auto output = circuit::output_node(*stage);
  if (output && *output != ground && rails.high_v > rails.low_v) {
    const double current_a = 2.0 * extra_w / (rails.high_v - rails.low_v);
    add_extra_watts(stage, cold, drawing_current(stage, *output, ground, current_a), shares);
    add_extra_watts(stage, cold, drawing_current(stage, ground, *output, current_a), shares);
  }
  if (!(sum() > 0.0)) shares = sink_watts(*stage, cold);
  for (double& share : shares) share = std::max(0.0, share);
  const double whole = sum();
  if (!(whole > 0.0)) return std::nullopt;
  for (double& share : shares) share /= whole;
  return shares;
}

}  // namespace idlepoint::answers
