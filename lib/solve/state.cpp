#include "solve/state.hpp"

namespace idlepoint::solve {

State cold_start(const System& system, const Numbers& numbers) {
  constexpr double scales_below = 4.0;
  constexpr double reversed_v = -1.0;
  constexpr double light_drive_v = 0.5;
  State state;
  state.x.assign(static_cast<std::size_t>(system.unknowns) + 1, 0.0);
  for (const DiodeNumbers& diode : numbers.diodes) {
    state.diode_v.push_back(diode.critical_v - scales_below * diode.at.forward.scale_v);
  }
  for (const FeedNumbers& feed : numbers.feeds) {
    state.feed_v.push_back(feed.compliance_v.value_or(0.0) + 1.0);
  }
  for (const BipolarNumbers& bipolar : numbers.bipolars) {
    const double scale_v = bipolar.at.ideality * bipolar.at.thermal_v.value;
    state.bipolar_v.push_back({bipolar.emitter_critical_v - scales_below * scale_v, reversed_v});
  }
  for (const FetNumbers& fet : numbers.fets) {
    const double ugs_v = fet.at.threshold_v + light_drive_v;
    state.fet_v.push_back({ugs_v, ugs_v - 2.0});
  }
  state.holds_junctions = true;
  return state;
}

State dead_start(const System& system, const Numbers& numbers) {
  State state;
  state.x.assign(static_cast<std::size_t>(system.unknowns) + 1, 0.0);
  state.diode_v.assign(numbers.diodes.size(), 0.0);
  state.feed_v.assign(numbers.feeds.size(), 0.0);
  state.bipolar_v.assign(numbers.bipolars.size(), {0.0, 0.0});
  state.fet_v.assign(numbers.fets.size(), {0.0, 0.0});
  return state;
}

}  // namespace idlepoint::solve
