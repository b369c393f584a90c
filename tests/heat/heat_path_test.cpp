// Oracle: worked examples of texts on heat paths and thermal stability, cited beside each.
#include <cmath>

#include "warm_text.hpp"

namespace idlepoint::tests {
namespace {

/// A device that turns a set number of watts into heat whatever its temperature: a zener with
/// neither tempco nor slope at 10 V, fed with a current. Free air or `path` behind it.
std::string heater(double watts, const std::string& path, const std::string& rest) {
  return fmt::format(
      "stage \"Heater\"\n{}"
      "rail vc 60V resistance=0R\n"
      "feed I1 {}A from=vc into=k compliance=none\n"
      "diode D1 anode=gnd cathode=k type=heater {}\n"
      "type diode heater saturation_current=1fA zener_voltage=10V zener_test_current={}A\n"
      "  zener_ideality=0.04 max_junction_temperature=150C",
      rest,
      watts / 10.0,
      path,
      watts / 10.0);
}

double junction_c(const std::string& text) {
  const auto stage = drawn(text);
  return read(stage, warm(stage), "celsius D1") - 273.15;
}

bool is_too_hot(const std::string& text) {
  const auto outcome = warm_outcome(drawn(text));
  return std::holds_alternative<solve::ThermalTrouble>(outcome);
}

}  // namespace

TEST_CASE("A part of 62.5 K/W carries 2 W in air of 25 C and 1.6 W in air of 50 C",
          "[heat][published]") {
  // [SedraSmith2015], examples 14.4 and 14.5: 150 C at 2 W in air of 25 C gives 62.5 K/W; 1.6 W at
  // 50 C; 87.5 C at 1 W in air of 25 C.
  const std::string air = " junction_to_ambient=62.5K/W\n";
  CHECK_THAT(junction_c(heater(1.0, "", "") + air), WithinAbs(87.5, 0.01));
  CHECK_THAT(junction_c(heater(1.999, "", "") + air), WithinAbs(149.94, 0.01));
  CHECK(is_too_hot(heater(2.001, "", "") + air));
  const std::string summer = "ambient 50C\n";
  CHECK_FALSE(is_too_hot(heater(1.599, "", summer) + air));
  CHECK(is_too_hot(heater(1.601, "", summer) + air));
}

TEST_CASE("Junction, case, washer and sink add up as a textbook adds them", "[heat][published]") {
  // [SedraSmith2015], example 14.5: 3.12 K/W junction to case, 0.5 case to sink, 4 sink to air of
  // 50 C: 13.12 W for 150 C; 32.05 W with the case itself held at 50 C.
  const auto on_sink = [](double watts, double washer, double sink) {
    return heater(watts,
                  fmt::format("on=HS washer={}K/W", washer),
                  fmt::format("ambient 50C\nheatsink HS resistance={}K/W\n", sink)) +
           " junction_to_case=3.12K/W\n";
  };
  CHECK_FALSE(is_too_hot(on_sink(13.12, 0.5, 4.0)));
  CHECK(is_too_hot(on_sink(13.13, 0.5, 4.0)));
  CHECK_FALSE(is_too_hot(on_sink(32.04, 0.0, 0.0)));
  CHECK(is_too_hot(on_sink(32.06, 0.0, 0.0)));

  // [Neamen2001], example 8.1: 1.75, 1 and 5 K/W in air of 30 C: 15.48 W for 150 C; without a sink
  // 1.75 + 50 K/W: 2.32 W.
  const auto neamen = [](double watts, double washer, double sink) {
    return heater(watts,
                  fmt::format("on=HS washer={}K/W", washer),
                  fmt::format("ambient 30C\nheatsink HS resistance={}K/W\n", sink)) +
           " junction_to_case=1.75K/W\n";
  };
  CHECK_THAT(junction_c(neamen(15.48, 1.0, 5.0)), WithinAbs(150.0, 0.05));
  CHECK_THAT(junction_c(neamen(2.318, 0.0, 50.0)), WithinAbs(150.0, 0.05));
}

TEST_CASE("The runaway limit of a class AB output is that of its emitter resistor",
          "[heat][published]") {
  // theta VCE dI/dT = 1 with dI/dT = |dVBE/dT| / (RE + VT/I): 35 V and 2.1 mV/K allow 5.991 K/W at
  // 118 mA and 0R22, 10.068 at 50 mA and 0R22, 13.469 at 50 mA and 0R47, computed with VT = 26 mV.
  struct Row {
    double emitter_ohm, current_a, most_k_per_w;
  };
  for (const Row& row :
       {Row{0.22, 0.118, 5.991}, Row{0.22, 0.05, 10.068}, Row{0.47, 0.05, 13.469}}) {
    CAPTURE(row.emitter_ohm, row.current_a);
    constexpr double slight_k_per_w = 1e-3;
    // The saturation current that makes VBE 657 mV, whose tempco is 2.1 mV/K at 25 C.
    constexpr double vbe_v = 0.657;
    const double saturation_a = row.current_a / std::exp(vbe_v / 0.0256926);
    const auto stage = drawn(
        fmt::format("stage \"Output\"\n"
                    "rail vc {}V resistance=0R\n"
                    "rail vb {}V resistance=0R\n"
                    "npn Q1 c=vc b=vb e=e type=hot\n"
                    "resistor R1 e gnd {}R\n"
                    "type npn hot saturation_current={}A gain=1000000000 gain_temperature_power=0\n"
                    "  junction_to_ambient={}K/W\n",
                    35.0 + 2.0 * row.emitter_ohm * row.current_a,
                    vbe_v + row.emitter_ohm * row.current_a,
                    row.emitter_ohm,
                    saturation_a,
                    slight_k_per_w));
    const auto point = warm(stage);
    CHECK_THAT(read(stage, point, "amps R1"), WithinRel(row.current_a, 0.01));
    // 1.5 %: VT is 25.7 mV, not 26.
    CHECK_THAT(slight_k_per_w / point.loop_gain(), WithinRel(row.most_k_per_w, 0.015));
  }
}

TEST_CASE("A collector's watts follow its current by VCC - 2 I R", "[heat][published]") {
  // [MillmanHalkias1972] section 9-13, its example with 30 V, 6.7 kilohm and 1.5 mA: 9.9 V (inputs
  // and conclusion as reworked by the companions).
  const auto watts_at = [](double base_v) {
    const auto stage = drawn(fmt::format(
        "stage \"Stability\"\n"
        "rail vc 30V resistance=0R\n"
        "rail vb {}V resistance=0R\n"
        "resistor RC vc c 5k\n"
        "npn Q1 c=c b=vb e=e type=small\n"
        "resistor RE e gnd 1k7\n"
        "type npn small saturation_current=10fA gain=1000000000 junction_to_ambient=0.001K/W\n",
        base_v));
    const auto point = warm(stage);
    return std::pair{read(stage, point, "watts Q1"), read(stage, point, "amps RC")};
  };
  const double base_v = 0.0256926 * std::log(1.5e-3 / 1e-14) + 1.5e-3 * 1700.0;
  const auto [less_w, less_a] = watts_at(base_v - 0.02);
  const auto [more_w, more_a] = watts_at(base_v + 0.02);
  CHECK_THAT((more_w - less_w) / (more_a - less_a), WithinRel(9.9, 2e-3));
}

}  // namespace idlepoint::tests
