// Oracle: identities that hold for any stage: with every junction at its sink's temperature the
// warm state is the cold one in a room of that temperature; a sink's rise is its resistance times
// the watts that enter it; the temperature of one heated part answers to the room with 1 / (1 -
// gain).
#include <cmath>

#include "warm_text.hpp"

namespace idlepoint::tests {
namespace {

std::string on_sink(double sink_k_per_w, double case_k_per_w, double ambient_c) {
  return fmt::format(
      "stage \"On a sink\"\n"
      "ambient {}C\n"
      "rail vpos 20V resistance=0R5\n"
      "resistor R1 vpos b 10k\n"
      "diode D1 anode=b cathode=m type=small on=HS1 coupling=100%\n"
      "diode D2 anode=m cathode=gnd type=small on=HS1\n"
      "npn Q1 c=c b=b e=e type=power on=HS1\n"
      "resistor R2 vpos c 2R\n"
      "resistor R3 e gnd 3R3\n"
      "heatsink HS1 resistance={}K/W\n"
      "type diode small saturation_current=3nA ideality=1.8 series_resistance=0R5\n"
      "type npn power saturation_current=1pA gain=80 early_voltage=90V base_resistance=4R\n"
      "  emitter_resistance=0R05 junction_to_case={}K/W\n",
      ambient_c,
      sink_k_per_w,
      case_k_per_w);
}

}  // namespace

TEST_CASE("Without a rise of its own every junction is as in a room as hot as the sink",
          "[heat][identity]") {
  const auto stage = drawn(on_sink(6.0, 0.0, 25.0));
  const auto point = warm(stage);
  const double sink_k = read(stage, point, "celsius HS1");
  REQUIRE(sink_k > 300.0);
  const auto hot_room = drawn(on_sink(6.0, 0.0, sink_k - 273.15));
  const auto cold = solve::solve_cold(hot_room);
  REQUIRE(std::holds_alternative<solve::OperatingPoint>(cold));
  for (const char* node : {"b", "m", "c", "e"}) {
    const auto id = *circuit::find_node(*stage, node);
    CHECK_THAT(point.voltage_v(id),
               WithinAbs(std::get<solve::OperatingPoint>(cold).voltage_v(id), 1e-9));
  }
}

TEST_CASE("What enters the heat sink is its rise over its resistance", "[heat][identity]") {
  const auto stage = drawn(on_sink(6.0, 1.5, 25.0));
  const auto point = warm(stage);
  const double entering_w = read(stage, point, "watts D1") + read(stage, point, "watts D2") +
                            read(stage, point, "watts Q1");
  CHECK_THAT(read(stage, point, "celsius HS1") - 298.15, WithinRel(6.0 * entering_w, 1e-9));
  CHECK_THAT(read(stage, point, "celsius Q1") - read(stage, point, "celsius HS1"),
             WithinRel(1.5 * read(stage, point, "watts Q1"), 1e-9));
  // What the rail delivers is what the parts and its own resistance turn into heat.
  const double rail_a = read(stage, point, "amps vpos");
  const double elsewhere_w = read(stage, point, "watts R1") + read(stage, point, "watts R2") +
                             read(stage, point, "watts R3") + 0.5 * rail_a * rail_a;
  CHECK_THAT(point.total_power_w(), WithinRel(entering_w + elsewhere_w, 1e-9));
}

TEST_CASE("A warmer room warms the only heated part by one over one minus the loop gain",
          "[heat][identity]") {
  const auto stage_in = [](double ambient_c) {
    return drawn(
        fmt::format("stage \"One part\"\nambient {:.10g}C\n"
                    "rail vc 30V resistance=0R\nrail vb 0.62V resistance=0R\n"
                    "npn Q1 c=vc b=vb e=e type=hot\nresistor R1 e gnd 1R\n"
                    "type npn hot saturation_current=1pA gain=100\n"
                    "  junction_to_ambient=20K/W\n",
                    ambient_c));
  };
  const auto junction_k = [&](double ambient_c) {
    const auto stage = stage_in(ambient_c);
    return read(stage, warm(stage), "celsius Q1");
  };
  const double gain = warm(stage_in(25.0)).loop_gain();
  REQUIRE(gain > 0.05);
  const double follows = (junction_k(25.01) - junction_k(24.99)) / 0.02;
  CHECK_THAT(follows, WithinRel(1.0 / (1.0 - gain), 1e-4));
}

TEST_CASE("A sensor that sees half the sink's rise stands half as high", "[heat][identity]") {
  std::string text = on_sink(6.0, 1.5, 25.0);
  text.replace(text.find("coupling=100%"), 13, "coupling=50%");
  const auto stage = drawn(text);
  const auto point = warm(stage);
  CHECK_THAT(read(stage, point, "celsius D1") - 298.15,
             WithinRel(0.5 * (read(stage, point, "celsius HS1") - 298.15), 1e-9));
}

TEST_CASE("A thermistor on the sink has its resistance at the sink's temperature",
          "[heat][analytic]") {
  const auto stage = drawn(
      "stage \"Thermistor\"\n"
      "rail vpos 12V resistance=0R\n"
      "thermistor TH1 vpos t 1k beta=3500K on=HS1\n"
      "resistor R1 t gnd 1k\n"
      "heatsink HS1 resistance=300K/W\n");
  const auto point = warm(stage);
  const double sink_k = read(stage, point, "celsius HS1");
  const double ohm = 1e3 * std::exp(3500.0 * (1.0 / sink_k - 1.0 / 298.15));
  CHECK_THAT(read(stage, point, "volts t gnd"), WithinRel(12.0 * 1e3 / (1e3 + ohm), 1e-9));
  CHECK(sink_k > 300.0);
}

}  // namespace idlepoint::tests
