#include "answers/series_lamp.hpp"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>

#include "devices/passive.hpp"

namespace idlepoint::answers {
namespace {

constexpr int steps_up = 20;
constexpr double lowest_rails = 0.001;

double lamp_current_a(const SeriesLamp& lamp, double volts) {
  return devices::evaluate_lamp(lamp.mains_v, lamp.rated_w, volts).current_a;
}

Glow glow_at(double share_of_volts) {
  if (share_of_volts < dull_from) return Glow::dark;
  return share_of_volts < bright_from ? Glow::dull : Glow::bright;
}

LampState state_at(const SeriesLamp& lamp, double rails) {
  LampState state;
  state.rails = rails;
  state.lamp_v = lamp.mains_v * (1.0 - rails);
  state.lamp_a = lamp_current_a(lamp, state.lamp_v);
  state.share_of_volts = 1.0 - rails;
  state.share_of_current = state.lamp_a * lamp.mains_v / lamp.rated_w;
  state.glow = glow_at(state.share_of_volts);
  state.stage_w = state.lamp_a * rails * lamp.mains_v;
  state.mains_w = state.lamp_a * lamp.mains_v;
  return state;
}

}  // namespace

std::string_view word(Glow glow) noexcept {
  switch (glow) {
    case Glow::dark:
      return "dark";
    case Glow::dull:
      return "dull";
    case Glow::bright:
      break;
  }
  return "bright";
}

std::optional<LampState> settle_lamp(
    const SeriesLamp& lamp, const std::function<std::optional<double>(double rails)>& drawn_w) {
  bool finds_state = true;
  // Watts that the lamp passes on beyond what the stage takes: the rails rise while it is positive.
  const auto to_spare_w = [&](double rails) {
    const auto taken_w = drawn_w(rails);
    finds_state = finds_state && taken_w.has_value();
    const double passed_w =
        lamp_current_a(lamp, lamp.mains_v * (1.0 - rails)) * rails * lamp.mains_v;
    return passed_w - taken_w.value_or(0.0);
  };
  double low = lowest_rails;
  double low_w = to_spare_w(low);
  if (!finds_state) return std::nullopt;
  if (low_w <= 0.0) return state_at(lamp, low);
  for (int step = 1; step <= steps_up; ++step) {
    const double high = std::min(1.0, lowest_rails + (1.0 - lowest_rails) * step / steps_up);
    const double high_w = to_spare_w(high);
    if (!finds_state) return std::nullopt;
    if (high_w <= 0.0) {
      std::uintmax_t calls = 50;
      const auto [a, b] =
          boost::math::tools::toms748_solve(to_spare_w,
                                            low,
                                            high,
                                            low_w,
                                            high_w,
                                            boost::math::tools::eps_tolerance<double>(40),
                                            calls);
      if (!finds_state) return std::nullopt;
      return state_at(lamp, 0.5 * (a + b));
    }
    low = high;
    low_w = high_w;
  }
  return state_at(lamp, 1.0);
}

}  // namespace idlepoint::answers
