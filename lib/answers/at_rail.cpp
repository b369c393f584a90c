#include "answers/at_rail.hpp"

#include <algorithm>

namespace idlepoint::answers {
namespace {

constexpr double share_that_is_at_a_rail = 0.10;

}  // namespace

OutermostRails outermost_rails(const circuit::Circuit& circuit,
                               const solve::Conditions& conditions) noexcept {
  OutermostRails outermost;
  for (const auto& rail : circuit.rails) {
    const double volts = rail.nominal_v * conditions.rails;
    outermost.low_v = std::min(outermost.low_v, volts);
    outermost.high_v = std::max(outermost.high_v, volts);
  }
  return outermost;
}

OutputPlace output_place(const circuit::Circuit& circuit, const solve::OperatingPoint& state) {
  const auto output = circuit::output_node(circuit);
  const auto rails = outermost_rails(circuit, state.conditions());
  if (!output || rails.high_v <= rails.low_v) return OutputPlace::unknown;
  const double margin_v = share_that_is_at_a_rail * (rails.high_v - rails.low_v);
  const double output_v = state.voltage_v(*output);
  if (output_v >= rails.high_v - margin_v) return OutputPlace::at_high_rail;
  if (output_v <= rails.low_v + margin_v) return OutputPlace::at_low_rail;
  return OutputPlace::between;
}

bool is_output_at_rail(const circuit::Circuit& circuit, const solve::OperatingPoint& state) {
  const auto place = output_place(circuit, state);
  return place == OutputPlace::at_low_rail || place == OutputPlace::at_high_rail;
}

}  // namespace idlepoint::answers
