// Two ideal exponential followers with emitter resistors: the drawing as text, and its law worked
// out here, for the tests to hold the program against.
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <string>
#include <utility>

#include "answers/asked.hpp"
#include "answers/crossover.hpp"

namespace idlepoint::tests {

/// Both halves obey V = U ln(I / Is) + R I between base and output; the load takes I1 - I2.
struct IdealPair {
  double saturation_a = 1e-12;
  double emitter_ohm = 0.47;
  double load_ohm = 8.0;
  double rail_v = 20.0;

  [[nodiscard]] double half_v(double current_a) const {
    return room_thermal_v * std::log(current_a / saturation_a) + emitter_ohm * current_a;
  }

  /// What the two bases stand apart at that standing current.
  [[nodiscard]] double spread_v(double standing_a) const { return 2.0 * half_v(standing_a); }

  /// d(output)/d(drive) where the output stands at `output_v`: the load against both halves' own
  /// resistances R + U / I in parallel, the currents from I1 - I2 = output / load.
  [[nodiscard]] double gain(double standing_a, double output_v) const {
    const double difference_a = std::abs(output_v) / load_ohm;
    const auto miss = [&](double log_small) {
      const double small_a = std::exp(log_small);
      return half_v(small_a) + half_v(small_a + difference_a) - spread_v(standing_a);
    };
    const auto bracket = boost::math::tools::bisect(
        miss, -200.0, std::log(standing_a) + 1e-9, boost::math::tools::eps_tolerance<double>(50));
    const double small_a = std::exp(0.5 * (bracket.first + bracket.second));
    const double large_a = small_a + difference_a;
    const double conductance_s = 1.0 / (emitter_ohm + room_thermal_v / small_a) +
                                 1.0 / (emitter_ohm + room_thermal_v / large_a);
    return load_ohm * conductance_s / (1.0 + load_ohm * conductance_s);
  }

  /// Drive that far from where the output is 0 V.
  [[nodiscard]] double output_at(double standing_a, double drive_v) const {
    const auto miss = [&](double output_v) {
      const double difference_a = output_v / load_ohm;
      const auto off = [&](double log_small) {
        const double small_a = std::exp(log_small);
        return half_v(small_a) + half_v(small_a + difference_a) - spread_v(standing_a);
      };
      const auto bracket = boost::math::tools::bisect(
          off, -200.0, std::log(standing_a) + 1e-9, boost::math::tools::eps_tolerance<double>(50));
      const double large_a = std::exp(0.5 * (bracket.first + bracket.second)) + difference_a;
      return output_v + half_v(large_a) - 0.5 * spread_v(standing_a) - drive_v;
    };
    const auto found = boost::math::tools::bisect(
        miss, 0.0, drive_v + 1.0, boost::math::tools::eps_tolerance<double>(45));
    return 0.5 * (found.first + found.second);
  }

  /// (largest - smallest) / mean over a quarter of the rail, on one side of a symmetric curve.
  [[nodiscard]] double ripple(double standing_a) const {
    constexpr int steps = 100;
    double smallest = HUGE_VAL;
    double largest = 0.0;
    double sum = 0.0;
    for (int k = 0; k <= steps; ++k) {
      const double drive_v = 0.25 * rail_v * k / steps;
      const double here = gain(standing_a, k == 0 ? 0.0 : output_at(standing_a, drive_v));
      smallest = std::min(smallest, here);
      largest = std::max(largest, here);
      sum += k == 0 ? here : 2.0 * here;
    }
    return (largest - smallest) / (sum / (2 * steps + 1));
  }

  /// The drawing, its bases fed so that the output stands at 0 V at that standing current; `both`
  /// is asked to read what it then reads.
  [[nodiscard]] std::string drawing(double standing_a, const std::string& adjust = "adjust") const {
    return fmt::format(
        "stage \"Ideal pair\"\n"
        "ambient 25C\n"
        "rail vp {0}V resistance=0R\n"
        "rail vn -{0}V resistance=0R\n"
        "signal output=out drive=lo\n"
        "feed I1 10mA from=vp into=hi compliance=none\n"
        "trimmer VR1 hi lo 300R at=50% spare=tied end_resistance=0.001R\n"
        "hold V1 lo gnd {1:.17g}V\n"
        "npn Q1 c=vp b=hi e=e1 type=n\n"
        "pnp Q2 c=vn b=lo e=e2 type=p\n"
        "resistor R1 e1 out {2}R\n"
        "resistor R2 out e2 {2}R\n"
        "load LS1 out gnd {3}R\n"
        "reading both volts e1 e2\n"
        "{5}\n"
        "type npn n saturation_current={4}A gain=1e12\n"
        "type pnp p saturation_current={4}A gain=1e12\n",
        rail_v,
        -0.5 * spread_v(standing_a),
        emitter_ohm,
        load_ohm,
        saturation_a,
        adjust == "adjust"
            ? fmt::format("adjust VR1 until both reads {:.17g}V", 2.0 * emitter_ohm * standing_a)
            : adjust);
  }
};

/// Without the band and the margins: they take most of the time.
inline answers::Crossover crossover_of(const answers::Setup& setup) {
  return settled(answers::ask_crossover(setup, answers::CrossoverDepth::aim_alone));
}

inline const answers::IdleSetting& flattest(const answers::Crossover& answer) {
  return answer.settings.at(answer.flattest);
}

}  // namespace idlepoint::tests
