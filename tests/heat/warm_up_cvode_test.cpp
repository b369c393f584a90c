// Oracle: SUNDIALS CVODE on the heat sink of the practice amplifier, in small steps. Its slope is
// worked out from whole stages solved afresh at the program's front door: a heat sink of no
// resistance in a room as warm as the sink is a sink held at that temperature, for every part of
// that amplifier that feels the temperature sits on it.
#include <cmath>

#include "heat/cvode.hpp"
#include "practice_stage.hpp"
#include "solve/warm_up.hpp"
#include "warm_text.hpp"

namespace idlepoint::tests {
namespace {

constexpr double room_k = 298.15;
constexpr double sink_k_per_w = 1.6;
constexpr double sink_j_per_k = 380.0;

/// The practice amplifier with its sink held at a rise.
circuit::CheckedCircuit held(const circuit::CheckedCircuit& stage, double rise_k) {
  return stage.edited([&](circuit::Circuit& circuit) {
    circuit.ambient_k = room_k + rise_k;
    circuit.heatsinks[0].resistance_k_per_w = 0.0;
  });
}

}  // namespace

TEST_CASE("CVODE warms the practice amplifier as we do", "[heat][cvode]") {
  const auto stage = drawn(practice_stage());
  const Slopes slopes = [&](const std::vector<double>& rise_k, std::vector<double>& k_per_s) {
    const auto point = warm(held(stage, rise_k[0]));
    const double entering_w = point.heatsink(circuit::HeatsinkId{0}).power_w;
    k_per_s[0] = (entering_w - rise_k[0] / sink_k_per_w) / sink_j_per_k;
  };
  const std::vector<double> times_s = {20.0, 120.0, 400.0, 1000.0, 2500.0};
  const auto theirs = integrate_by_cvode(slopes, {0.0}, times_s, 1e-7);
  REQUIRE(theirs.size() == times_s.size());

  solve::HeatingStage heating(stage, {});
  auto begin = heating.begin();
  REQUIRE(std::holds_alternative<solve::Rest>(begin));
  const auto warm_up =
      solve::follow(heating, std::get<solve::Rest>(begin), {.extra_w = Eigen::VectorXd::Zero(1)});
  REQUIRE(warm_up.end == solve::WarmUp::End::at_rest);
  for (std::size_t k = 0; k < times_s.size(); ++k) {
    CAPTURE(times_s[k]);
    const auto rest = solve::rest_at(heating, warm_up, times_s[k]);
    REQUIRE(rest.has_value());
    CHECK_THAT(rest->sink_rise_k[0], WithinRel(theirs[k][0], 1e-4));
    const double idle_v = read(stage, heating.moment(*rest), "volts e_hi e_lo");
    const auto again = held(stage, theirs[k][0]);
    CHECK_THAT(idle_v, WithinRel(read(again, warm(again), "volts e_hi e_lo"), 1e-4));
  }
}

}  // namespace idlepoint::tests
