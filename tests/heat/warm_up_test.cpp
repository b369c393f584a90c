// Oracle: a constant power on a heat sink warms it as P R (1 - exp(-t/RC)); energy: what enters the
// sinks is what they store and what they pass to the room; the equilibrium of solve/solve_stage.
#include "solve/warm_up.hpp"

#include <Eigen/LU>
#include <cmath>

#include "warm_text.hpp"

namespace idlepoint::tests {
namespace {

using solve::HeatingStage;
using solve::Rest;
using solve::WarmUp;

/// 40 V at 0.5 A at any temperature: a breakdown diode at its test current.
const char* const heater_on_sink =
    "stage \"Constant power\"\n"
    "diode D1 anode=gnd cathode=k type=steady on=HS1 washer=1K/W\n"
    "feed I1 0.5A from=gnd into=k compliance=none\n"
    "resistor R1 k gnd 1000M\n"
    "heatsink HS1 resistance=2K/W capacity=400J/K\n"
    "type diode steady saturation_current=1e-20A zener_voltage=40V zener_test_current=0.5A\n"
    "  max_junction_temperature=200C\n";
constexpr double heater_w = 20.0;
constexpr double heater_k_per_w = 2.0;
constexpr double heater_s = 2.0 * 400.0;

const char* const two_sinks =
    "stage \"Two sinks\"\n"
    "rail vpos 30V resistance=0R1\n"
    "rail vneg -30V resistance=0R1\n"
    "resistor R1 vpos hi 2k7\n"
    "npn Q1 c=hi b=x e=lo type=small on=HS2 coupling=90%\n"
    "resistor R2 hi x 680R\n"
    "resistor R3 x lo 680R\n"
    "resistor R4 lo vneg 2k7\n"
    "npn Q2 c=vpos b=hi e=eh type=power on=HS1 washer=0.5K/W\n"
    "pnp Q3 c=vneg b=lo e=el type=power-p on=HS2 washer=0.5K/W\n"
    "resistor R5 eh out 1R\n"
    "resistor R6 out el 1R\n"
    "resistor R7 out gnd 100R\n"
    "heatsink HS1 resistance=3K/W capacity=300J/K\n"
    "heatsink HS2 resistance=8K/W capacity=40J/K\n"
    "type npn small saturation_current=10fA gain=200\n"
    "type npn power saturation_current=1pA gain=80 junction_to_case=1.5K/W\n"
    "type pnp power-p saturation_current=1pA gain=80 junction_to_case=1.5K/W\n";

Rest begun(HeatingStage& stage) {
  auto begin = stage.begin();
  REQUIRE(std::holds_alternative<Rest>(begin));
  return std::get<Rest>(std::move(begin));
}

solve::Heating with_extra(const HeatingStage& stage, double watts) {
  solve::Heating heating;
  heating.extra_w = Eigen::VectorXd::Constant(stage.sinks(), watts);
  return heating;
}

WarmUp warmed_up(HeatingStage& stage) {
  WarmUp warm_up = solve::follow(stage, begun(stage), with_extra(stage, 0.0));
  REQUIRE(warm_up.end == WarmUp::End::at_rest);
  return warm_up;
}

Eigen::VectorXd sink_watts(const HeatingStage& stage, const Rest& rest) {
  Eigen::VectorXd watts = Eigen::VectorXd::Zero(stage.sinks());
  for (std::size_t j = 0; j < stage.heat().parts.size(); ++j) {
    const auto& sink = stage.heat().parts[j].sink;
    if (sink) watts[static_cast<Eigen::Index>(*sink)] += rest.power_w[static_cast<int>(j)];
  }
  return watts;
}

}  // namespace

TEST_CASE("A constant power warms its heat sink along one minus the exponential",
          "[heat][analytic]") {
  HeatingStage stage(drawn(heater_on_sink), {});
  const WarmUp warm_up = warmed_up(stage);
  CHECK(warm_up.points.size() < 200);
  for (const double seconds : {1.0, 30.0, 120.0, 555.0, 1600.0, 3000.0}) {
    const double rise_k = heater_k_per_w * heater_w * (1.0 - std::exp(-seconds / heater_s));
    CHECK_THAT(solve::value_at(warm_up.points, seconds)[0], WithinRel(rise_k, 1e-4));
  }
  CHECK_THAT(warm_up.rest.sink_rise_k[0], WithinRel(40.0, 1e-6));
  const auto returns = solve::return_to_rest(stage, warm_up.rest);
  CHECK(returns.is_stable);
  CHECK_FALSE(returns.swing_s.has_value());
  REQUIRE(returns.time_constants_s.size() == 1);
  CHECK_THAT(returns.time_constants_s[0], WithinRel(heater_s, 1e-6));
}

TEST_CASE("Extra power for a time, then none, is one exponential after the other",
          "[heat][analytic]") {
  HeatingStage stage(drawn(heater_on_sink), {});
  const WarmUp warm_up = warmed_up(stage);
  solve::Heating soak = with_extra(stage, 30.0);
  soak.lasts_s = 600.0;
  const WarmUp soaked = solve::follow(stage, warm_up.rest, soak);
  CHECK(soaked.end == WarmUp::End::time_up);
  const double soaked_k = 40.0 + 60.0 * (1.0 - std::exp(-600.0 / heater_s));
  CHECK_THAT(soaked.rest.sink_rise_k[0], WithinRel(soaked_k, 1e-4));
  const WarmUp cooled = solve::follow(stage, soaked.rest, with_extra(stage, 0.0));
  CHECK(cooled.end == WarmUp::End::at_rest);
  CHECK_THAT(solve::value_at(cooled.points, 700.0)[0],
             WithinRel(40.0 + (soaked_k - 40.0) * std::exp(-700.0 / heater_s), 1e-4));
}

TEST_CASE("A limit passed on the way is passed when the exponential passes it",
          "[heat][analytic]") {
  // The junction stands 20 W times 1 K/W above its sink, the limit of 70 C is 25 K above the room's
  // 25 C there.
  std::string text = heater_on_sink;
  text.replace(text.find("200C"), 4, "70C");
  HeatingStage stage(drawn(text), {});
  const WarmUp warm_up = warmed_up(stage);
  REQUIRE(warm_up.passed.has_value());
  CHECK_THAT(warm_up.passed->seconds, WithinRel(heater_s * std::log(40.0 / 15.0), 1e-3));
  CHECK_THAT(warm_up.passed->trouble.junction_k, WithinAbs(343.15, 0.05));
}

TEST_CASE("The warm-up ends in the equilibrium, whatever the capacities", "[heat][identity]") {
  const auto checked = drawn(two_sinks);
  HeatingStage stage(checked, {});
  const WarmUp warm_up = warmed_up(stage);
  const auto end = stage.equilibrium(warm_up.rest);
  REQUIRE(end.has_value());
  const auto ours = stage.moment(*end);
  const auto theirs = warm(checked);
  for (const char* probe : {"celsius HS1", "celsius HS2", "celsius Q2", "volts eh el"}) {
    CHECK_THAT(read(checked, ours, probe), WithinRel(read(checked, theirs, probe), 1e-9));
  }
}

TEST_CASE("What enters the heat sinks is stored in them or passed to the room",
          "[heat][identity]") {
  HeatingStage stage(drawn(two_sinks), {});
  const WarmUp warm_up = warmed_up(stage);
  // Simpson's rule over the first 20 minutes, in pieces of 15 s.
  constexpr int pieces = 80;
  constexpr double until_s = 1200.0;
  Eigen::VectorXd entered_j = Eigen::VectorXd::Zero(2);
  Eigen::VectorXd rise_k_s = Eigen::VectorXd::Zero(2);
  for (int k = 0; k <= pieces; ++k) {
    const double seconds = until_s * k / pieces;
    const double weight =
        until_s / pieces / 3.0 * (k == 0 || k == pieces ? 1.0 : (k % 2 == 1 ? 4.0 : 2.0));
    const auto rest = solve::rest_at(stage, warm_up, seconds);
    REQUIRE(rest.has_value());
    entered_j += weight * sink_watts(stage, *rest);
    rise_k_s += weight * rest->sink_rise_k;
  }
  const Eigen::VectorXd end_k = solve::value_at(warm_up.points, until_s);
  const Eigen::Vector2d capacity_j_per_k(300.0, 40.0);
  const Eigen::Vector2d k_per_w(3.0, 8.0);
  for (const int sink : {0, 1}) {
    CAPTURE(sink, entered_j[sink]);
    REQUIRE(entered_j[sink] > 100.0);
    const double stored_j = capacity_j_per_k[sink] * end_k[sink];
    CHECK_THAT(stored_j + rise_k_s[sink] / k_per_w[sink], WithinRel(entered_j[sink], 2e-4));
  }
}

TEST_CASE("Departures from rest die away with the time constants of the sinks' own slopes",
          "[heat][identity]") {
  HeatingStage stage(drawn(two_sinks), {});
  const WarmUp warm_up = warmed_up(stage);
  const Eigen::VectorXd at_k = warm_up.rest.sink_rise_k;
  const Eigen::VectorXd none = Eigen::VectorXd::Zero(2);
  Eigen::Matrix2d by_rise;
  for (const int column : {0, 1}) {
    Eigen::VectorXd moved_k = at_k;
    moved_k[column] += 0.01;
    const auto up = stage.hold(moved_k, warm_up.rest);
    moved_k[column] -= 0.02;
    const auto down = stage.hold(moved_k, warm_up.rest);
    REQUIRE((up && down));
    by_rise.col(column) = (stage.warming(*up, none) - stage.warming(*down, none)) / 0.02;
  }
  const auto end = stage.equilibrium(warm_up.rest);
  REQUIRE(end.has_value());
  const Eigen::MatrixXd ours = stage.warming_by_rise(*end);
  CHECK((ours - by_rise).cwiseAbs().maxCoeff() < 1e-6 * by_rise.cwiseAbs().maxCoeff());
  // Two real modes: their product is the determinant, their sum the trace.
  const auto returns = solve::return_to_rest(stage, *end);
  REQUIRE(returns.time_constants_s.size() == 2);
  const double slow = -1.0 / returns.time_constants_s[0];
  const double fast = -1.0 / returns.time_constants_s[1];
  CHECK_THAT(slow * fast, WithinRel(by_rise.determinant(), 1e-5));
  CHECK_THAT(slow + fast, WithinRel(by_rise.trace(), 1e-5));
}

}  // namespace idlepoint::tests
