#include "answers/idle_setting.hpp"

#include <algorithm>

namespace idlepoint::answers {
std::size_t first_minimum(const std::vector<IdleSetting>& settings) {
  constexpr double deep = 1.0 / 3.0;
  std::size_t best = 0;
  double least = settings.front().curve.ripple();
  double most = least;
  for (std::size_t index = 0; index < settings.size(); ++index) {
    const double ripple = settings[index].curve.ripple();
    most = std::max(most, ripple);
    if (ripple < least) {
      least = ripple;
      best = index;
    }
    if (least < deep * most && ripple > risen_again * least) break;
  }
  return best;
}

bool is_cool(const IdleSetting& setting) {
  const auto& circuit = *setting.stage;
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    if (setting.state.part(circuit::PartId{index}).over_stressed) return false;
  }
  const auto sink = hottest_sink(setting);
  const double rise_k =
      sink ? setting.state.heatsink(*sink).temperature_k - circuit.ambient_k : 0.0;
  return rise_k <= cool_sink_rise_k && setting.state.loop_gain() < cool_loop_gain;
}

std::optional<circuit::HeatsinkId> hottest_sink(const IdleSetting& setting) {
  std::optional<circuit::HeatsinkId> hottest;
  for (std::size_t index = 0; index < setting.stage->heatsinks.size(); ++index) {
    const circuit::HeatsinkId id{index};
    if (!hottest ||
        setting.state.heatsink(id).temperature_k > setting.state.heatsink(*hottest).temperature_k) {
      hottest = id;
    }
  }
  return hottest;
}

}  // namespace idlepoint::answers
