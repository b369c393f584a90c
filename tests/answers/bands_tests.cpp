// Oracle: closed forms by hand after [JCGM100] (a divider, a current even in its logarithm, a
// track), and sampled copies of whole stages.
#include <cmath>

#include "answers/asked.hpp"
#include "answers/bands.hpp"
#include "answers/copies.hpp"
#include "solve/draws.hpp"

namespace idlepoint::tests {
namespace {

answers::Bands bands_of(const answers::Setup& setup,
                        const std::vector<circuit::Adjustment>& following = {}) {
  std::vector<circuit::Probe> probes;
  for (const auto& reading : setup.stage->readings) probes.push_back(reading.probe);
  return answers::find_bands(setup.stage, setup.conditions, probes, following);
}

const std::string two_resistors =
    "stage \"Divider\"\nrail vpos 12V resistance=0R tolerance=0%\n"
    "resistor R1 vpos m 10k\nresistor R2 m gnd 10k\nreading m volts m gnd\n";

/// Two halves of a differential pair whose bases stand alike.
std::string pair_with(const std::string& matched) {
  return "stage \"Pair\"\nrail vpos 15V resistance=0R\nrail vneg -15V resistance=0R\n"
         "resistor R1 vpos c1 10k tolerance=0%\nresistor R2 vpos c2 10k tolerance=0%\n"
         "resistor R3 b1 gnd 1k tolerance=0%\nresistor R4 b2 gnd 1k tolerance=0%\n"
         "resistor R5 tail vneg 14k tolerance=0%\n"
         "npn Q1 c=c1 b=b1 e=tail type=t\nnpn Q2 c=c2 b=b2 e=tail type=t\n" +
         matched +
         "reading offset volts c1 c2\n"
         "type npn t vbe=0.6V vbe_at=1mA vbe.min=0.58V vbe.max=0.62V gain=200\n";
}

}  // namespace

TEST_CASE("The band of a divider is that of its two resistors in quadrature",
          "[answers][analytic]") {
  const auto bands = bands_of(drawn(two_resistors));
  // dv = V/4 (u2 - u1) 5 %, each u with a variance of 1/3; coverage factor 2.
  const double half_v = 2.0 * 12.0 / 4.0 * 0.05 * std::sqrt(2.0 / 3.0);
  REQUIRE(bands.readings.at(0));
  CHECK_FALSE(bands.readings[0]->bends);
  CHECK_THAT(bands.readings[0]->low, WithinAbs(6.0 - half_v, 1e-6));
  CHECK_THAT(bands.readings[0]->high, WithinAbs(6.0 + half_v, 1e-6));
}

TEST_CASE("The meter's own error widens what it shows", "[answers][analytic]") {
  const auto bands = bands_of(drawn(two_resistors));
  // 10 megohms on 5 k of source; 0.5 % and 0.2 mV as one more rectangular distribution.
  const double shown_v = 6.0 * 10e6 / (10e6 + 5e3);
  const double error_v = 2.0 / std::sqrt(3.0) * (0.005 * shown_v + 0.2e-3);
  const double parts_v = 2.0 * 12.0 / 4.0 * 0.05 * std::sqrt(2.0 / 3.0);
  REQUIRE(bands.as_metered.at(0));
  const double half_v = 0.5 * (bands.as_metered[0]->high - bands.as_metered[0]->low);
  CHECK_THAT(half_v, WithinRel(std::hypot(parts_v, error_v), 1e-3));
}

TEST_CASE("A current that goes with a spread saturation current is the middle of its copies",
          "[answers][analytic]") {
  const auto bands = bands_of(
      drawn("stage \"One transistor\"\nrail vc 5V resistance=0R\nrail vb 0.6V resistance=0R\n"
            "npn Q1 c=vc b=vb e=gnd type=t\nreading i amps Q1\n"
            "type npn t saturation_current=10fA saturation_current.min=5fA\n"
            "  saturation_current.max=20fA gain=100\n"));
  const double nominal_a = 1e-14 * std::exp(0.6 / 0.0256926);
  REQUIRE(bands.readings.at(0));
  CHECK(bands.readings[0]->bends);
  // Even in the logarithm from half to double: the middle 95 % runs to 0.95 ln 2. A 2.5 % point of
  // 1000 samples has a standard deviation of 0.7 %.
  CHECK_THAT(bands.readings[0]->low, WithinRel(nominal_a * std::pow(0.5, 0.95), 0.025));
  CHECK_THAT(bands.readings[0]->high, WithinRel(nominal_a * std::pow(2.0, 0.95), 0.025));
}

TEST_CASE("A track of 20 % moves the place of a fixed resistance by its inverse",
          "[answers][analytic]") {
  const auto setup = drawn(
      "stage \"Track\"\nrail vpos 12V resistance=0R\n"
      "trimmer VR1 vpos m 2k at=50% spare=tied end_resistance=0R\n"
      "resistor R1 m gnd 1k tolerance=0%\nreading i volts m gnd\n"
      "adjust VR1 until i reads 6V\n");
  const auto bands = bands_of(setup, setup.stage->adjustments);
  REQUIRE(bands.positions.at(0));
  CHECK(bands.positions[0]->bends);
  // Two standard deviations of one rectangular draw reach beyond its ends, where it stops.
  CHECK_THAT(bands.positions[0]->low, WithinRel(0.5 / 1.2, 1e-6));
  CHECK_THAT(bands.positions[0]->high, WithinRel(0.5 / 0.8, 1e-6));
}

TEST_CASE("Matched transistors narrow the offset", "[answers][identity]") {
  const auto apart = bands_of(drawn(pair_with("")));
  const auto alike = bands_of(drawn(pair_with("matched Q1 Q2 within=2mV\n")));
  const auto width = [](const answers::Bands& bands) {
    return bands.readings.at(0)->high - bands.readings.at(0)->low;
  };
  // 20 mV or 2 mV at each base.
  CHECK_THAT(width(apart) / width(alike), WithinRel(10.0, 0.05));
}

TEST_CASE("For small tolerances the copies spread as the linear sum foretells",
          "[answers][identity]") {
  std::string text = practice_stage();
  for (std::size_t at = 0; (at = text.find("tolerance=8%", at)) != std::string::npos; ++at) {
    text.replace(at, 12, "tolerance=1%");
  }
  for (std::size_t at = 0; (at = text.find("resistor R", at)) != std::string::npos; ++at) {
    text.insert(text.find('\n', at), " tolerance=0.2%");
  }
  text.replace(text.find("spare=tied"), 10, "spare=tied tolerance=0.2%");
  const auto setup = drawn(text);
  answers::Copies copies(setup.stage, setup.conditions, {{setup.stage->readings[0].probe}, {}});
  REQUIRE(copies.is_sound());
  const auto bands = bands_of(setup);
  REQUIRE_FALSE(bands.readings.at(0)->bends);
  constexpr int samples = 2000;
  double sum = 0.0;
  double squares = 0.0;
  std::vector<double> u(copies.uncertainty().draws.size());
  for (int sample = 0; sample < samples; ++sample) {
    for (std::size_t k = 0; k < u.size(); ++k) u[k] = solve::draw(5, std::uint64_t(sample), k);
    const auto read = copies.read(u);
    REQUIRE(read);
    const double off = read->front() - copies.nominal().front();
    sum += off;
    squares += off * off;
  }
  const double deviation = std::sqrt(squares / samples - sum * sum / samples / samples);
  // Of 2000 copies a deviation is good to 1.6 %.
  CHECK_THAT(0.25 * (bands.readings[0]->high - bands.readings[0]->low), WithinRel(deviation, 0.06));
}

TEST_CASE("Draws are even over -1 to 1 and depend on their counters alone", "[answers][identity]") {
  double sum = 0.0;
  double squares = 0.0;
  constexpr int count = 20000;
  for (int sample = 0; sample < count; ++sample) {
    const double u = solve::draw(1, std::uint64_t(sample), 3);
    CHECK((u >= -1.0 && u < 1.0));
    sum += u;
    squares += u * u;
  }
  // Mean 0 with a deviation of 0.0041, mean square 1/3 with one of 0.0021.
  CHECK(std::abs(sum / count) < 0.0164);
  CHECK(std::abs(squares / count - 1.0 / 3.0) < 0.0084);
  CHECK(solve::draw(1, 7, 4) != solve::draw(1, 7, 5));
  CHECK(solve::draw(1, 7, 4) != solve::draw(2, 7, 4));
}

}  // namespace idlepoint::tests
