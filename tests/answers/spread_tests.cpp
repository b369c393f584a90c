// Oracle: rectangular variables in closed form (a rail's tolerance alone), the law of large
// numbers, and the trade's pattern of how far standing currents lie apart.
#include <cmath>

#include "answers/asked.hpp"
#include "answers/spread.hpp"

namespace idlepoint::tests {
namespace {

answers::Spread spread_of(const answers::Setup& setup, const answers::SpreadAsked& asked) {
  auto outcome = answers::ask_spread(setup, asked);
  REQUIRE(std::holds_alternative<answers::Spread>(outcome));
  return std::get<answers::Spread>(std::move(outcome));
}

/// 10 V within 5 %, halved by two exact resistors: 5 V, even over 4.75 V to 5.25 V.
answers::Setup even_half() {
  return drawn(
      "stage \"Half\"\n"
      "rail vc 10V resistance=0R tolerance=5%\n"
      "resistor R1 vc out 1k tolerance=0%\n"
      "resistor R2 out gnd 1k tolerance=0%\n"
      "reading half volts out gnd\n"
      "limit half 4.9V to 5.2V\n");
}

double ratio_of_19_in_20(const std::string& file, const std::string& reading) {
  const auto spread = spread_of(demo(file), {.samples = 3000, .seed = 1});
  for (const auto& one : spread.readings) {
    if (one.nominal.name != reading) continue;
    REQUIRE(one.as_it_stands.values);
    return one.as_it_stands.values->p97_5 / one.as_it_stands.values->p2_5;
  }
  FAIL("no such reading");
  return 0.0;
}

}  // namespace

TEST_CASE("A rectangular rail spreads a divider as the rectangle says", "[answers][analytic]") {
  const auto spread = spread_of(even_half(), {.samples = 20000, .seed = 3});
  const auto& reading = spread.readings.at(0);
  const auto& values = reading.as_it_stands.values;
  REQUIRE(values);
  const double error = 4.0 * 0.25 / std::sqrt(3.0 * 20000.0);
  CHECK_THAT(values->mean, WithinAbs(5.0, error));
  CHECK_THAT(values->deviation, WithinRel(0.25 / std::sqrt(3.0), 0.02));
  // Points of a rectangle: 4.75 V + 0.5 V p, each good to four of its standard errors.
  CHECK_THAT(values->p2_5, WithinAbs(4.7625, 4.0 * 0.5 * std::sqrt(0.025 * 0.975 / 20000.0)));
  CHECK_THAT(values->p97_5, WithinAbs(5.2375, 4.0 * 0.5 * std::sqrt(0.025 * 0.975 / 20000.0)));
  // Outside 4.9 V to 5.2 V: 0.15 V and 0.05 V of 0.5 V.
  REQUIRE(reading.as_it_stands.outside_limit);
  CHECK_THAT(*reading.as_it_stands.outside_limit,
             WithinAbs(0.4, 4.0 * std::sqrt(0.4 * 0.6 / 20000.0)));
  CHECK(spread.as_it_stands.failed == 0);
}

TEST_CASE("The error of a sampled mean falls with the root of the number of samples",
          "[answers][order]") {
  const auto setup = even_half();
  const auto error_of_mean = [&](std::size_t samples) {
    constexpr std::uint64_t runs = 200;
    double squares = 0.0;
    for (std::uint64_t seed = 1; seed <= runs; ++seed) {
      const auto spread = spread_of(setup, {.samples = samples, .seed = seed});
      const double off = spread.readings.at(0).as_it_stands.values->mean - 5.0;
      squares += off * off;
    }
    return std::sqrt(squares / static_cast<double>(runs));
  };
  const double few = error_of_mean(25);
  const double many = error_of_mean(400);
  // The true values: 0.25 V / sqrt(3 N); 200 runs tell each to 5 %, so three times that.
  CHECK_THAT(few, WithinRel(0.25 / std::sqrt(3.0 * 25.0), 0.15));
  CHECK_THAT(many, WithinRel(0.25 / std::sqrt(3.0 * 400.0), 0.15));
}

TEST_CASE("The same seed draws the same stages on any number of threads", "[answers][identity]") {
  const auto setup = demo("sedge-28w.stage");
  const auto one = spread_of(setup, {.samples = 2000, .seed = 5, .threads = 1});
  const auto four = spread_of(setup, {.samples = 2000, .seed = 5, .threads = 4});
  const auto other = spread_of(setup, {.samples = 2000, .seed = 6, .threads = 4});
  for (std::size_t k = 0; k < one.readings.size(); ++k) {
    CHECK(one.readings[k].as_it_stands.values->mean == four.readings[k].as_it_stands.values->mean);
    CHECK(one.readings[k].as_it_stands.values->p97_5 ==
          four.readings[k].as_it_stands.values->p97_5);
  }
  CHECK(one.readings[0].as_it_stands.values->mean != other.readings[0].as_it_stands.values->mean);
}

TEST_CASE("Unadjusted, a standing current is good to a factor of several, worst with a spreader",
          "[answers][trade]") {
  // Common practice, no source: a calculated preset fixes the current only to a factor of several;
  // a transistor spreader multiplies what its own junction is off, a string of junctions does not.
  const double string = ratio_of_19_in_20("sedge-28w.stage", "both");
  const double spreader = ratio_of_19_in_20("spinney-45w.stage", "both");
  CAPTURE(string, spreader);
  CHECK(string > 3.0);
  CHECK(spreader > 3.0);
  CHECK(spreader > string);
}

TEST_CASE("Once every trimmer has been set, the adjusted reading no longer spreads",
          "[answers][identity]") {
  const auto spread = spread_of(demo("quarry-30w.stage"), {.samples = 2000, .seed = 1});
  REQUIRE(spread.when_set);
  for (const auto& position : spread.positions) {
    CHECK(position.reached > 0.9);
    REQUIRE(position.travel);
    CHECK(position.travel->p2_5 < position.nominal_travel);
    CHECK(position.travel->p97_5 > position.nominal_travel);
  }
}

}  // namespace idlepoint::tests
