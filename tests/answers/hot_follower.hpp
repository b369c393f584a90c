// One transistor with a fixed base voltage and an emitter resistor in free air, and its warm state
// in closed form: without base current and Early effect I obeys V = I R + U ln(I / Is(T) + 1), its
// heat is I (Vcc - I R), and it rests where T = room + K/W times that.
#pragma once

#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <string>
#include <utility>

namespace idlepoint::tests {

struct HotFollower {
  double k_per_w = 20.0;
  double base_v = 0.55;
  double emitter_ohm = 0.22;
  double supply_v = 35.0;
  double maximum_k = 573.15;

  [[nodiscard]] std::string stage() const {
    return "stage \"One transistor\"\nrail vc " + std::to_string(supply_v) +
           "V resistance=0R\nrail vb " + std::to_string(base_v) +
           "V resistance=0R\nnpn Q1 c=vc b=vb e=e type=hot\nresistor R1 e gnd " +
           std::to_string(emitter_ohm) +
           "R\nreading idle amps R1\n"
           "type npn hot saturation_current=10pA gain=1000000000 gain_temperature_power=0\n"
           "  max_junction_temperature=" +
           std::to_string(maximum_k - 273.15) + "C junction_to_ambient=" + std::to_string(k_per_w) +
           "K/W\n";
  }

  /// Amperes at a junction temperature. docs/models.md: Is doubles as (T/T0)^3 and a gap of 1.206
  /// eV say.
  [[nodiscard]] double current_a(double junction_k) const {
    const double boltzmann_ev = 1.380649e-23 / 1.602176634e-19;
    const double thermal_v = boltzmann_ev * junction_k;
    const double leak_a = 10e-12 * std::pow(junction_k / 298.15, 3.0) *
                          std::exp(1.206 / boltzmann_ev * (1.0 / 298.15 - 1.0 / junction_k));
    const auto miss = [&](double amps) {
      return amps * emitter_ohm + thermal_v * std::log1p(amps / leak_a) - base_v;
    };
    std::uintmax_t evaluations = 200;
    const auto [low, high] =
        boost::math::tools::toms748_solve(miss,
                                          0.0,
                                          base_v / emitter_ohm,
                                          boost::math::tools::eps_tolerance<double>(50),
                                          evaluations);
    return 0.5 * (low + high);
  }

  [[nodiscard]] double power_w(double junction_k) const {
    const double amps = current_a(junction_k);
    return amps * (supply_v - amps * emitter_ohm);
  }

  /// The hottest room with a rest, and the junction in it: where room = T - K/W P(T) turns.
  [[nodiscard]] std::pair<double, double> hottest_room_k() const {
    const auto less_room = [&](double junction_k) {
      return k_per_w * power_w(junction_k) - junction_k;
    };
    const auto [junction_k, less_k] =
        boost::math::tools::brent_find_minima(less_room, 250.0, 500.0, 40);
    return {-less_k, junction_k};
  }

  /// The largest junction-to-air resistance with a rest in a room: (T - room) / P(T) at its most.
  [[nodiscard]] double largest_k_per_w(double room_k) const {
    const auto less = [&](double junction_k) {
      return -(junction_k - room_k) / power_w(junction_k);
    };
    return -boost::math::tools::brent_find_minima(less, room_k, 500.0, 40).second;
  }
};

}  // namespace idlepoint::tests
