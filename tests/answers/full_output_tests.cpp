// Oracle: textbook problems on the class-B pair, each named; the mean over a cycle by Boost.Math's
// quadrature; Kirchhoff on rails written by hand.
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <cmath>
#include <numbers>

#include "answers/asked.hpp"
#include "answers/full_output.hpp"

namespace idlepoint::tests {
namespace {

using answers::FullOutput;
using answers::mean_dissipation_w;
using answers::worst_level;

constexpr double resistive = 0.0;
const double sixty_degrees = std::numbers::pi / 3.0;

FullOutput supply_into(double supply_v, double load_ohm) {
  return {supply_v, supply_v / load_ohm, load_ohm, {}};
}

double by_quadrature_w(const FullOutput& full, double level, double phase_rad) {
  const auto watts = [&](double t) {
    return (full.peak_v - level * full.peak_v * std::sin(t + phase_rad)) * level * full.peak_a *
           std::sin(t);
  };
  using boost::math::quadrature::gauss_kronrod;
  return gauss_kronrod<double, 31>::integrate(watts, 0.0, std::numbers::pi) /
         (2.0 * std::numbers::pi);
}

/// Nothing but what full output asks of: rails, an output, a load.
std::string rails_and_load(const std::string& rails) {
  return rails + "resistor R1 out gnd 1k\nsignal output=out\nload LS1 out gnd 8R\n";
}

FullOutput full_of(const std::string& rails, const solve::Conditions& conditions = {}) {
  const auto full = answers::full_output(*drawn(rails_and_load(rails)).stage, conditions);
  REQUIRE(full.has_value());
  return *full;
}

}  // namespace

// [SedraSmith2015], example 14.1: 20 W into 8 ohms from 23 V; 17.9 V peak; 32.74 W from the
// supplies.
TEST_CASE("A class-B pair on 23 V dissipates 6.7 W in each transistor at worst, into 8 ohms",
          "[answers][published]") {
  const FullOutput full = supply_into(23.0, 8.0);
  CHECK_THAT(mean_dissipation_w(full, worst_level(resistive), resistive), WithinAbs(6.70, 0.005));
  CHECK_THAT(mean_dissipation_w(full, 17.9 / 23.0, resistive),
             WithinAbs((32.74 - 20.0) / 2.0, 0.05));
}

// [Boylestad2013], examples 12.10 and 12.12: 25 V, 4 ohms, 12 V rms at the output.
TEST_CASE("A class-B pair on 25 V keeps 15.75 W in each transistor at 36 W into 4 ohms",
          "[answers][published]") {
  const FullOutput full = supply_into(25.0, 4.0);
  CHECK_THAT(mean_dissipation_w(full, 12.0 * std::numbers::sqrt2 / 25.0, resistive),
             WithinAbs(15.75, 0.02));
  CHECK_THAT(2.0 * mean_dissipation_w(full, worst_level(resistive), resistive),
             WithinAbs(31.66, 0.02));
  CHECK_THAT(worst_level(resistive) * full.peak_v, WithinAbs(15.9, 0.05));
}

// [Boylestad2013], example 12.7: 30 V, 20 V peak, 16 ohms: 23.9 W in, 12.5 W out.
TEST_CASE("A class-B pair on 30 V keeps 5.7 W in each transistor at 20 V peak into 16 ohms",
          "[answers][published]") {
  CHECK_THAT(mean_dissipation_w(supply_into(30.0, 16.0), 20.0 / 30.0, resistive),
             WithinAbs((23.9 - 12.5) / 2.0, 0.05));
}

// [MalvinoBates2007], example 12-8: one supply of 20 V, 8 ohms behind a capacitor: 6.25 W out, 1.25
// W in each transistor by the book's rounded peak-to-peak^2/(40 R), 40 for 4 pi^2.
TEST_CASE("On one supply of 20 V full output is 10 V peak: 6.25 W into 8 ohms",
          "[answers][published]") {
  const FullOutput full = full_of("rail vp 20V\n");
  CHECK_THAT(full.peak_v * full.peak_a / 2.0, WithinRel(6.25, 1e-12));
  CHECK_THAT(mean_dissipation_w(full, worst_level(resistive), resistive), WithinRel(1.25, 0.02));
}

TEST_CASE("The mean dissipation of a half is what quadrature over its half cycle gives",
          "[answers][analytic]") {
  const FullOutput full = supply_into(31.0, 6.0);
  const double level = GENERATE(0.1, 0.5, 2.0 / std::numbers::pi, 1.0);
  const double phase_rad = GENERATE(0.0, 0.5, std::numbers::pi / 3.0, 1.5);
  CHECK_THAT(mean_dissipation_w(full, level, phase_rad),
             WithinRel(by_quadrature_w(full, level, phase_rad), 1e-12));
  CHECK_THAT(mean_dissipation_w(full, level, -phase_rad),
             WithinRel(by_quadrature_w(full, level, -phase_rad), 1e-12));
}

TEST_CASE("Into a resistance a half is hottest at two pi-ths of full output, at 60 degrees at full",
          "[answers][analytic]") {
  const FullOutput full = supply_into(40.0, 8.0);
  const double square_w = full.peak_v * full.peak_v / full.load_ohm;
  double worst_resistive_w = 0.0;
  double worst_reactive_w = 0.0;
  for (int step = 0; step <= 1000; ++step) {
    const double level = step / 1000.0;
    worst_resistive_w = std::max(worst_resistive_w, by_quadrature_w(full, level, resistive));
    worst_reactive_w = std::max(worst_reactive_w, by_quadrature_w(full, level, sixty_degrees));
  }
  const double pi = std::numbers::pi;
  CHECK_THAT(mean_dissipation_w(full, worst_level(resistive), resistive),
             WithinRel(square_w / (pi * pi), 1e-12));
  CHECK_THAT(worst_resistive_w, WithinRel(square_w / (pi * pi), 1e-6));
  CHECK(worst_level(sixty_degrees) == 1.0);
  CHECK_THAT(mean_dissipation_w(full, 1.0, sixty_degrees), WithinRel(0.193 * square_w, 2e-3));
  CHECK_THAT(worst_reactive_w, WithinRel(square_w * (1.0 / pi - 0.125), 1e-9));
}

TEST_CASE("Full output is the smaller of two rails, and follows today's mains",
          "[answers][analytic]") {
  CHECK_THAT(full_of("rail vp 36V\nrail vn -30V\n").peak_v, WithinRel(30.0, 1e-12));
  CHECK_THAT(full_of("rail vp 36V measured=38V\nrail vn -36V measured=-37V\n").peak_a,
             WithinRel(37.0 / 8.0, 1e-12));
  CHECK_THAT(full_of("rail vn -24V\n").peak_v, WithinRel(12.0, 1e-12));
  CHECK_THAT(full_of("rail vp 36V\nrail vn -36V\n", {.rails = 0.5}).peak_v, WithinRel(18.0, 1e-12));
}

TEST_CASE("Small rails beside the large ones do not count for full output", "[answers][analytic]") {
  const FullOutput full = full_of("rail vp 36V\nrail vn -36V\nrail logic 5V\nrail bias -12V\n");
  CHECK_THAT(full.peak_v, WithinRel(36.0, 1e-12));
}

TEST_CASE("Without a loudspeaker there is no full output", "[answers][analytic]") {
  const auto setup = drawn("rail vp 20V\nresistor R1 vp out 1k\nresistor R2 out gnd 1k\n");
  CHECK_FALSE(answers::full_output(*setup.stage, {}).has_value());
}

}  // namespace idlepoint::tests
