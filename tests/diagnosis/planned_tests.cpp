// Oracle: Ohm's law, and the Gaussian density of two readings that move together, in closed form.
#include <Eigen/LU>
#include <cmath>
#include <numbers>
#include <regex>

#include "answers/planned.hpp"
#include "answers/tolerance_fit.hpp"
#include "circuit/hand_meter.hpp"
#include "diagnosis/diagnosed.hpp"

namespace idlepoint::tests {
namespace {

using answers::Observed;
using answers::Planned;
using answers::Standing;

/// A triangle of resistors that no rail feeds, and a divider of 10 V.
const std::string triangle =
    "stage \"A triangle and a divider\"\n"
    "rail vp +10V resistance=0R\n"
    "resistor R1 x y 1k tolerance=1%\n"
    "resistor R2 y gnd 2k tolerance=1%\n"
    "resistor R3 gnd x 3k tolerance=1%\n"
    "resistor R4 vp top 1k tolerance=1%\n"
    "resistor R5 top mid 1k tolerance=1%\n"
    "resistor R6 mid gnd 2k tolerance=1%\n"
    "meter error=0.1% floor=1mV input=10G\n"
    "reading mid volts mid gnd\n";

circuit::NodeId node(const circuit::CheckedCircuit& stage, const char* name) {
  return *circuit::find_node(*stage, name);
}

std::vector<circuit::Measurement> ohms_of_x(const circuit::CheckedCircuit& stage) {
  return {circuit::OhmsBetween{node(stage, "x"), circuit::ground}};
}

circuit::Measurement volts_of(const circuit::CheckedCircuit& stage, const char* name) {
  return circuit::Probe{circuit::VoltsBetween{node(stage, name), circuit::ground}};
}

double ohms_shown(const circuit::Measurement& measurement, double shown) {
  return answers::read_off(measurement, shown).value;
}

double parallel(double a_ohm, double b_ohm) { return a_ohm * b_ohm / (a_ohm + b_ohm); }

TEST_CASE("Ohms are planned as the parallel of the resistors, a drifted one at any size") {
  const auto stage = drawn(triangle).stage;
  const auto r2 = *circuit::find_part(*stage, "R2");
  answers::SuspectedFault drift{circuit::SetValue{r2, 4e3}, answers::FaultKind::drifted, 1.0};
  drift.size = answers::SizeRange{2.5e3, 20e3};
  drift.part = r2;
  const solve::Conditions conditions;
  const std::vector<answers::SuspectedFault> sized = {drift};
  const auto ohms = ohms_of_x(stage);
  const answers::BenchStage bench(stage, conditions, sized, ohms);
  const std::vector<double> middle(bench.draws(), 0.0);
  const auto sound = GENERATE_COPY(std::shared_ptr<answers::SoundWhenOff>{},
                                   std::make_shared<answers::SoundWhenOff>(stage, conditions));
  Planned planned;
  for (const double size : {-0.93, -0.4, 0.02, 0.477, 0.98}) {
    const std::vector<double> t = {size};
    const auto shown = planned.show_off(
        {stage, conditions, sized, sound}, ohms, {middle, t}, answers::Slopes::of_sizes);
    REQUIRE(shown);
    const double r2_ohm = std::get<circuit::SetValue>(answers::edit_at(drift, size)).value;
    CHECK_THAT(ohms_shown(ohms[0], shown->values[0]),
               WithinRel(parallel(3e3, 1e3 + r2_ohm), 0.003));
  }
}

TEST_CASE("With slopes, planned ohms follow the parts through their tolerances") {
  const auto stage = drawn(triangle).stage;
  const solve::Conditions conditions;
  const std::vector<answers::SuspectedFault> none;
  const auto ohms = ohms_of_x(stage);
  const answers::BenchStage bench(stage, conditions, none, ohms);
  const std::vector<double> low(bench.draws(), -1.0);
  Planned planned;
  const auto shown =
      planned.show_off({stage, conditions, none}, ohms, {low, {}}, answers::Slopes::of_all);
  REQUIRE(shown);
  CHECK_THAT(ohms_shown(ohms[0], shown->values[0]), WithinRel(0.99 * 1500.0, 5e-4));
}

TEST_CASE("Volts planned from nearby are those of the divider") {
  const auto stage = drawn(triangle).stage;
  const solve::Conditions conditions;
  const std::vector<answers::SuspectedFault> none;
  const std::vector<circuit::Measurement> volts = {volts_of(stage, "mid")};
  answers::BenchStage bench(stage, conditions, none, {});
  const auto draws = circuit::uncertainty(*stage).draws;
  const auto all = circuit::uncertainty(*stage).parameters;
  std::vector<double> at(bench.draws(), 0.0);
  Planned planned;
  const std::vector<double> middle = at;
  // R6 a fifth of its 1 % up: 2004 ohms of 4004.
  const auto r6 = *circuit::find_part(*stage, "R6");
  for (std::size_t k = 0; k < draws.size(); ++k) {
    const auto* part = std::get_if<circuit::PartId>(&all[draws[k].effects.front().parameter].owner);
    if (part != nullptr && *part == r6) at[k] = 0.2;
  }
  const auto shown = planned.show_on(bench, volts, {middle, {}}, {at, {}});
  REQUIRE(shown);
  CHECK_THAT(shown->values[0], WithinRel(10.0 * 2004.0 / 4004.0, 1e-5));
}

TEST_CASE("Volts are foreseen as a meter of 10 kilohm leaves them") {
  // Behind mid 2k beside 2k; behind top and mid 1k beside 3k.
  const auto stage = drawn(std::regex_replace(triangle, std::regex("10G"), "10k")).stage;
  answers::BenchStage bench(stage, {}, {}, {});
  const std::vector<double> middle(bench.draws(), 0.0);
  const auto shown = bench.foresee({circuit::VoltsBetween{node(stage, "mid"), circuit::ground},
                                    circuit::VoltsBetween{node(stage, "top"), node(stage, "mid")}},
                                   middle,
                                   {});
  REQUIRE(shown);
  CHECK_THAT(shown->values[0], WithinRel(5.0 * 10e3 / 11e3, 1e-6));
  CHECK_THAT(shown->values[1], WithinRel(2.5 * 10e3 / 10.75e3, 1e-6));
}

TEST_CASE("What was looked at with the power off is the same after volts have been foreseen") {
  const auto stage = drawn(triangle).stage;
  const auto ohms = ohms_of_x(stage);
  answers::BenchStage bench(stage, {}, {}, ohms);
  const std::vector<double> middle(bench.draws(), 0.0);
  for (int time = 0; time < 2; ++time) {
    const auto& shown = bench.first_look({});
    REQUIRE(shown);
    CHECK_THAT(ohms_shown(ohms[0], shown->values[0]), WithinRel(parallel(3e3, 3e3), 1e-6));
    const auto mid =
        bench.foresee({circuit::VoltsBetween{node(stage, "mid"), circuit::ground}}, middle, {});
    REQUIRE(mid);
    CHECK_THAT(mid->values[0], WithinRel(5.0, 1e-6));
  }
}

TEST_CASE("A second reading that is brought in straight gives the evidence of both") {
  const auto stage = drawn(triangle).stage;
  const solve::Conditions conditions;
  const std::vector<answers::SuspectedFault> none;
  answers::BenchStage bench(stage, conditions, none, {volts_of(stage, "mid")});
  const Observed mid{5.01, 2e-3};
  const Observed top{7.49, 2e-3};
  const auto first = answers::fit_tolerances({{&bench, {mid}}}, {{}, nullptr, nullptr}, -1e300);
  REQUIRE(first);
  Planned planned;
  const auto shown = planned.show_on(
      bench, {volts_of(stage, "top")}, {first->slopes_u, first->slopes_t}, {first->u, first->t});
  REQUIRE(shown);
  const auto both = answers::fit_tolerances({{&bench, {mid, top}}}, {{}, &*first, &*shown}, -1e300);
  REQUIRE(both);
  CHECK(both->is_straight);

  // Of 10 V and of 1 %/sqrt(3): R4, R5 and R6 are 1, 1 and 2 parts of 4.
  Eigen::Matrix<double, 2, 3> slopes;
  slopes << -0.125, -0.125, 0.25, -0.1875, 0.0625, 0.125;
  slopes *= 10.0 * 0.01 / std::numbers::sqrt3;
  const Eigen::Matrix2d covariance =
      slopes * slopes.transpose() + mid.deviation * mid.deviation * Eigen::Matrix2d::Identity();
  const Eigen::Vector2d off(mid.value - 5.0, top.value - 7.5);
  const double chi_square = off.dot(covariance.inverse() * off);
  CHECK_THAT(both->chi_square, WithinAbs(chi_square, 0.02));
  CHECK_THAT(both->log_evidence,
             WithinAbs(-0.5 * chi_square - 0.5 * std::log(covariance.determinant()) -
                           std::log(2.0 * std::numbers::pi),
                       0.02));
}

}  // namespace
}  // namespace idlepoint::tests
