// Oracle: closed forms of the laws, and the whole solver on a part whose type was fitted.
#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>

#include "answers/asked.hpp"
#include "answers/fit.hpp"
#include "circuit/type_fields.hpp"
#include "language/read_points.hpp"
#include "language/write_parts.hpp"

namespace idlepoint::tests {
namespace {

constexpr double u_v = 1.380649e-23 * 298.15 / 1.602176634e-19;  // kT/q at 25 C, exact SI

answers::TypeFit fitted(const std::string& text) {
  return answers::ask_fit(required(language::read_points(text, "test.points")));
}

double number(const answers::TypeFit& fit, const std::string& field) {
  const auto value = circuit::field_value(fit.type, field);
  REQUIRE(value.has_value());
  return *value;
}

const answers::FitField& field(const answers::TypeFit& fit, const std::string& name) {
  const auto found = std::find_if(
      fit.fields.begin(), fit.fields.end(), [&](const auto& one) { return one.name == name; });
  REQUIRE(found != fit.fields.end());
  return *found;
}

// Readings of a stage in which one part of the fitted type is held at its leads.
std::vector<double> solved(const circuit::PartType& type, const std::string& drawing) {
  const std::string text = "stage \"One part\"\n" + language::write_type(type) + drawing;
  std::vector<double> values;
  for (const auto& reading : readings_of(drawn(text)).readings) values.push_back(reading.value);
  return values;
}

std::string volts(double v) { return std::to_string(v) + "V"; }

const std::string tester_npn = "type npn T max_collector_current=10A\n";

std::string project_text(const std::string& path) {
  std::ifstream file(std::string(IDLEPOINT_SOURCE_DIR) + "/" + path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

}  // namespace

TEST_CASE("Points that do not fit together are told as was approved", "[answers][approval]") {
  const std::string name = GENERATE("points-disagree", "point-out-of-reach");
  const std::string path = "netlists/broken/" + name + ".points";
  const auto fit = answers::ask_fit(required(language::read_points(project_text(path), path)));
  CHECK(complaints::render(fit.contradictions) ==
        project_text("netlists/broken/approved/" + name + ".txt"));
  for (const auto& one : fit.contradictions) CHECK(complaints::facts(one.kind).name == name);
}

TEST_CASE("A base current that cannot bottom the transistor is called out of reach",
          "[answers][identity]") {
  // A gain of 20 at the most, and 1 A asked of 10 mA.
  const auto fit = fitted(
      "type npn T max_collector_current=2A gain=20 early_voltage=100V\n"
      "point vbe 0.62V at ic=10mA\npoint vce_sat 0.3V at ic=1A ib=10mA\n");
  CHECK_FALSE(answers::is_good(fit));
}

TEST_CASE("A field that two points cannot tell from another names it", "[answers][identity]") {
  const auto fit = fitted("type diode D max_forward_current=1A\npoint vf 0.65V at if=10mA\n");
  CHECK(field(fit, "saturation_current").determined);
  CHECK_FALSE(field(fit, "ideality").determined);
  CHECK_THAT(field(fit, "ideality").why, Catch::Matchers::Contains("`saturation_current`"));
  // Left at what is usual, all the same the point is met.
  CHECK_THAT(fit.points[0].predicted.value(), WithinRel(0.65, 1e-9));
}

TEST_CASE("One reading of a tester gives a transistor that reads the same in a circuit",
          "[answers][identity]") {
  const bool is_pnp = GENERATE(false, true);
  const std::string kind = is_pnp ? "pnp" : "npn";
  const auto fit = fitted("type " + kind +
                          " T max_collector_current=10A\n"
                          "point vbe 0.583V at ic=50mA vce=5V\npoint gain 74 at ic=50mA vce=5V\n");
  CHECK(answers::is_good(fit));
  const double sign = is_pnp ? -1.0 : 1.0;
  const auto read =
      solved(fit.type,
             "rail vc " + volts(sign * 5.0) + " resistance=0R\nrail vb " + volts(sign * 0.583) +
                 " resistance=0R\n" + kind +
                 " Q1 c=vc b=vb e=gnd type=T\nreading c amps vc\nreading b amps vb\n");
  CHECK_THAT(sign * read[0], WithinRel(50e-3, 1e-6));
  CHECK_THAT(sign * read[1], WithinRel(50e-3 / 74.0, 1e-6));
}

TEST_CASE("A reading of a bare junction gives its exponential", "[answers][analytic]") {
  const auto fit = fitted(
      "type npn T emitter_resistance=0R base_resistance=0R collector_resistance=0R\n"
      "  early_voltage=1e9V knee_current=1e9A\n"
      "point vbe 0.6V at ic=1mA vce=1V\npoint gain 123 at ic=1mA vce=1V\n");
  CHECK_THAT(number(fit, "saturation_current"), WithinRel(1e-3 * std::exp(-0.6 / u_v), 1e-6));
  CHECK_THAT(number(fit, "gain"), WithinRel(123.0, 1e-6));
}

TEST_CASE("Two forward voltages give a diode's ideality by the ratio of their currents",
          "[answers][analytic]") {
  const auto fit = fitted(
      "type diode D series_resistance=0R\n"
      "point vf 0.55V at if=1mA\npoint vf 0.65V at if=10mA\n");
  CHECK_THAT(number(fit, "ideality"), WithinRel(0.10 / (u_v * std::log(10.0)), 1e-5));
  CHECK(field(fit, "ideality").determined);
}

TEST_CASE("A third forward voltage gives the series resistance", "[answers][analytic]") {
  // V = 1.7 U ln(I/Is) + I R with R = 0.9 ohm.
  std::string text = "type diode D max_forward_current=200mA\n";
  for (const double a : {1e-3, 1e-2, 1e-1}) {
    const double v = 1.7 * u_v * std::log(a / 2e-9) + a * 0.9;
    text += "point vf " + volts(v) + " at if=" + std::to_string(a) + "A\n";
  }
  const auto fit = fitted(text);
  CHECK_THAT(number(fit, "series_resistance"), WithinRel(0.9, 1e-3));
  CHECK_THAT(number(fit, "ideality"), WithinRel(1.7, 1e-3));
}

TEST_CASE("A breakdown voltage is the zener voltage at its test current", "[answers][analytic]") {
  const auto fit = fitted(
      "type diode Z series_resistance=0R\n"
      "point vz 12V at iz=5mA vz.min=11.4V vz.max=12.6V\npoint vz 12.3V at iz=20mA\n"
      "point vf 0.75V at if=10mA\n");
  CHECK_THAT(number(fit, "zener_voltage"), WithinRel(12.0, 1e-9));
  CHECK_THAT(number(fit, "zener_test_current"), WithinRel(5e-3, 1e-12));
  CHECK_THAT(number(fit, "zener_ideality"), WithinRel(0.3 / (u_v * std::log(4.0)), 1e-6));
  const auto& spread = fit.type.spreads.at("zener_voltage");
  CHECK_THAT(spread.min.value(), WithinRel(11.4, 1e-6));
  CHECK_THAT(spread.max.value(), WithinRel(12.6, 1e-6));
}

TEST_CASE("IDSS and a quarter of it give a junction FET's pinch-off", "[answers][analytic]") {
  // Id = IDSS (1 - Vgs/Vp)^2: a quarter of IDSS flows at half of the pinch-off voltage.
  const auto fit = fitted(
      "type n-jfet J drain_slope=0/V source_resistance=0R\n"
      "point idss 8mA at vds=15V\npoint vgs -1.5V at id=2mA vds=15V\n");
  CHECK_THAT(number(fit, "threshold_voltage"), WithinRel(-3.0, 1e-6));
  CHECK_THAT(number(fit, "current_factor"), WithinRel(2.0 * 8e-3 / 9.0, 1e-6));
}

TEST_CASE("Two gate voltages give a MOSFET's threshold and current factor", "[answers][analytic]") {
  // Id = K/2 (Vgs - Ut)^2 with Ut = 3 V and K = 1 A/V2.
  const auto fit = fitted(
      "type n-mosfet M drain_slope=0/V source_resistance=0R drain_resistance=0R slope_factor=1\n"
      "point vgs 4V at id=0.5A vds=20V\npoint vgs 5V at id=2A vds=20V\n");
  CHECK_THAT(number(fit, "threshold_voltage"), WithinRel(3.0, 1e-6));
  CHECK_THAT(number(fit, "current_factor"), WithinRel(1.0, 1e-6));
}

TEST_CASE("A fitted FET carries its point's current in a circuit", "[answers][identity]") {
  const auto fit = fitted(
      "type n-mosfet M max_drain_current=7A\n"
      "point vgs 0.6V at id=100mA vds=10V\npoint vgs 1.9V at id=1A vds=10V\n"
      "point vgs 4.5V at id=4A vds=10V\npoint vds_on 4.8V at id=4A vgs=10V\n");
  const auto read =
      solved(fit.type,
             "rail d1 10V resistance=0R\nrail g1 1.9V resistance=0R\n"
             "rail d2 4.8V resistance=0R\nrail g2 10V resistance=0R\n"
             "n-mosfet M1 d=d1 g=g1 s=gnd type=M\nn-mosfet M2 d=d2 g=g2 s=gnd type=M\n"
             "reading one amps d1\nreading two amps d2\n");
  CHECK_THAT(read[0], WithinRel(1.0, 1e-6));
  CHECK_THAT(read[1], WithinRel(4.0, 1e-6));
}

TEST_CASE("A bottomed transistor stands at its point's volts in a circuit", "[answers][identity]") {
  const auto fit = fitted(tester_npn +
                          "point vbe 0.6V at ic=50mA\npoint gain 70 at ic=50mA\n"
                          "point vce_sat 0.4V at ic=4A ib=400mA\n");
  const auto read = solved(fit.type,
                           "rail v 1V resistance=0R\nfeed I1 4A from=v into=c compliance=none\n"
                           "feed I2 0.4A from=v into=b compliance=none\nresistor R1 b gnd 1G\n"
                           "npn Q1 c=c b=b e=gnd type=T\nreading sat volts c gnd\n");
  CHECK_THAT(read[0], WithinRel(0.4, 1e-6));
}

TEST_CASE("At the ends of its gain the type shows the ends of the sheet's window",
          "[answers][identity]") {
  const auto fit = fitted(tester_npn +
                          "point vbe 0.6V at ic=50mA\n"
                          "point gain at ic=4A vce=4V gain.min=20 gain.max=70\n");
  const circuit::Spread ends = fit.type.spreads.at("gain");
  for (const auto& [end, shown] : {std::pair{ends.min.value(), 20.0}, {ends.max.value(), 70.0}}) {
    circuit::PartType type = fit.type;
    type.spreads.clear();
    circuit::set_field(type, "gain", end);
    const std::string base = std::to_string(4.0 / shown) + "A";
    const auto read = solved(type,
                             "rail v 4V resistance=0R\nfeed I1 " + base +
                                 " from=v into=b compliance=none\nresistor R1 b gnd 1G\n"
                                 "npn Q1 c=v b=b e=gnd type=T\nreading c amps Q1\n");
    CAPTURE(end, shown);
    CHECK_THAT(read[0], WithinRel(4.0, 1e-4));
  }
}

TEST_CASE("A window without a value aims at its middle, a lone limit pulls nothing",
          "[answers][analytic]") {
  const std::string base = tester_npn + "point vbe 0.6V at ic=50mA\n";
  const auto window = fitted(base + "point gain at ic=1A gain.min=20 gain.max=80\n");
  CHECK_THAT(window.points[1].predicted.value(), WithinRel(40.0, 1e-6));
  const auto limit = fitted(base + "point gain 60 at ic=1A\npoint gain at ic=1A gain.min=10\n");
  CHECK_THAT(limit.points[1].predicted.value(), WithinRel(60.0, 1e-6));
  CHECK_FALSE(limit.points[2].residual.has_value());
  CHECK(limit.points[2].holds == true);
}

TEST_CASE("A limit that the usual values break is kept", "[answers][identity]") {
  const auto fit = fitted(tester_npn +
                          "point vbe 0.6V at ic=50mA\npoint gain 70 at ic=50mA\n"
                          "point vce_sat at ic=8A ib=0.8A vce_sat.max=0.15V\n"
                          "point gain at ic=9A gain.min=60\n");
  CHECK(answers::is_good(fit));
  CHECK(fit.points[2].holds == true);
  CHECK(fit.points[3].holds == true);
  CHECK_FALSE(field(fit, "collector_resistance").determined);
}

TEST_CASE("The Early voltage wants two collector voltages", "[answers][identity]") {
  const std::string base =
      "type npn T max_collector_current=10A knee_current=1e6A\n"
      "point vbe 0.6V at ic=50mA\npoint gain 70 at ic=50mA vce=5V within=1%\n";
  const auto one = fitted(base);
  CHECK_FALSE(field(one, "early_voltage").determined);
  CHECK_THAT(field(one, "early_voltage").why,
             Catch::Matchers::Contains("different collector volt"));
  const auto two = fitted(base + "point gain 84 at ic=50mA vce=25V within=1%\n");
  CHECK(field(two, "early_voltage").determined);
  // 1 + Vcb/Ua to first order: 84/70 = (Ua + 24.4)/(Ua + 4.4), so Ua = 95.6 V.
  CHECK_THAT(number(two, "early_voltage"), WithinRel(95.6, 0.01));
}

TEST_CASE("What the statement gives stays as it is", "[answers][identity]") {
  const auto fit = fitted(
      "type npn T max_collector_current=10A knee_current=3A gain=50\n"
      "point vbe 0.6V at ic=50mA\npoint gain 50 at ic=50mA\n");
  CHECK(number(fit, "knee_current") == 3.0);
  CHECK(number(fit, "gain") == 50.0);
}

TEST_CASE("A type is read back as it was printed, to four figures", "[answers][identity]") {
  const auto fit = fitted(
      "type npn T max_collector_current=15A measured_at=30C transition_frequency=2.5M\n"
      "  safe_area=7.7V:15A,30V:3.8A case_style=\"two-hole can\" source=\"a sheet\"\n"
      "point vbe 0.6123V at ic=50mA note=\"from memory\"\n"
      "point gain 71 at ic=50mA gain.min=30 gain.max=150\n");
  const std::string text = language::write_short_type(fit.type);
  const auto read = required(language::read_stage(text + "resistor R1 gnd a 1k\nsocket a\n", "t"));
  REQUIRE(read.circuit.types.size() == 1);
  const auto& type = read.circuit.types[0];
  for (const auto& one : fit.fields) {
    CAPTURE(one.name);
    if (!one.value || *one.value == 0.0) continue;
    CHECK_THAT(circuit::field_value(type, one.name).value(), WithinRel(*one.value, 1e-3));
  }
  CHECK_THAT(type.spreads.at("gain").max.value(),
             WithinRel(fit.type.spreads.at("gain").max.value(), 1e-3));
  CHECK(type.ratings.max_current_a == 15.0);
  CHECK(type.source == fit.type.source);
  CHECK_THAT(type.source, Catch::Matchers::Contains("from memory: vbe at ic 50 mA"));
}

TEST_CASE("Points that cannot be right together are named", "[answers][identity]") {
  const auto names = [](const answers::TypeFit& fit) {
    std::vector<std::string> kinds;
    for (const auto& one : fit.contradictions) {
      kinds.emplace_back(complaints::facts(one.kind).name);
    }
    return kinds;
  };
  using Kinds = std::vector<std::string>;
  const std::string base = tester_npn + "point gain 70 at ic=50mA\n";
  CHECK(names(fitted(base + "point gain 120 at ic=50mA\n")) == Kinds{"points-disagree"});
  CHECK(names(fitted(base + "point gain 72 at ic=50mA\n")).empty());
  CHECK(names(fitted(base + "point vbe 0.6V at ic=50mA\npoint vbe 0.5V at ic=1A\n")) ==
        Kinds{"points-disagree"});
  // 118 mV at the least lie between 10 mA and 1 A.
  CHECK(names(fitted(base + "point vbe 0.52V at ic=10mA\npoint vbe 0.53V at ic=1A\n")) ==
        Kinds{"point-out-of-reach", "point-out-of-reach"});
}

}  // namespace idlepoint::tests
