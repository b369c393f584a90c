// Oracle: the field tables of docs/models.md; the quick fields solved back by the law itself.
#include <catch2/catch.hpp>
#include <cmath>

#include "language/reading.hpp"

namespace idlepoint::language {
namespace {

const double thermal_v = 1.380649e-23 / 1.602176634e-19 * 298.15;  // kT/q at 25 C.

circuit::PartType type_of(const std::string& statement) {
  return sound(around(statement + "\n")).types.at(0);
}

std::string kinds_of_type(const std::string& statement) {
  return kinds_of(around(statement + "\n"));
}

}  // namespace

TEST_CASE("A bipolar type has every field of its law", "[language][identity]") {
  const auto type = type_of(
      "type npn t saturation_current=10fA gain=250 inverse_gain=3 ideality=1.01 "
      "inverse_ideality=1.02 early_voltage=100V inverse_early_voltage=10V knee_current=2A "
      "inverse_knee_current=1A recombination_current=1pA recombination_ideality=1.9 "
      "collector_recombination_current=2pA collector_recombination_ideality=1.8 "
      "cutoff_current=5uA cutoff_doubles_every=9K base_resistance=5R collector_resistance=0R1 "
      "emitter_resistance=0R02 emitter_base_breakdown_voltage=7V gain_temperature_power=1.4 "
      "temperature_power=3.5 band_gap=1.11eV measured_at=27C");
  const auto& data = std::get<devices::BipolarData>(type.law);
  CHECK(type.kind == circuit::PartKind::npn);
  CHECK(data.saturation_current_a == 10e-15);
  CHECK(data.gain == 250.0);
  CHECK(data.inverse_gain == 3.0);
  CHECK(data.ideality == 1.01);
  CHECK(data.inverse_ideality == 1.02);
  CHECK(data.early_voltage_v == 100.0);
  CHECK(data.inverse_early_voltage_v == 10.0);
  CHECK(data.knee_current_a == 2.0);
  CHECK(data.inverse_knee_current_a == 1.0);
  CHECK(data.recombination_current_a == 1e-12);
  CHECK(data.recombination_ideality == 1.9);
  CHECK(data.collector_recombination_current_a == 2e-12);
  CHECK(data.collector_recombination_ideality == 1.8);
  CHECK(data.cutoff_current_a == 5e-6);
  CHECK(data.cutoff_doubles_every_k == 9.0);
  CHECK(data.base_resistance_ohm == 5.0);
  CHECK(data.collector_resistance_ohm == 0.1);
  CHECK(data.emitter_resistance_ohm == 0.02);
  CHECK(data.emitter_base_breakdown_voltage_v == 7.0);
  CHECK(data.gain_temperature_power == 1.4);
  CHECK(data.temperature_power == 3.5);
  CHECK(data.band_gap_ev == 1.11);
  CHECK(data.measured_at_k == Approx(300.15));
}

TEST_CASE("Diode and FET types have theirs", "[language][identity]") {
  const auto diode = type_of(
      "type diode z saturation_current=1pA ideality=1.8 series_resistance=0R6 zener_voltage=12V "
      "zener_test_current=5mA zener_ideality=2 zener_tempco=-300ppm/K");
  const auto& d = std::get<devices::DiodeData>(diode.law);
  CHECK(d.ideality == 1.8);
  CHECK(d.series_resistance_ohm == 0.6);
  CHECK(d.zener_voltage_v == 12.0);
  CHECK(d.zener_test_current_a == 5e-3);
  CHECK(d.zener_ideality == 2.0);
  CHECK(d.zener_tempco_per_k == -300e-6);
  const auto mosfet = type_of(
      "type p-mosfet m threshold_voltage=3V current_factor=2.5A/V2 slope_factor=1.3 "
      "drain_slope=0.02/V source_resistance=0R02 drain_resistance=0R1 threshold_tempco=-6mV/K "
      "current_factor_temperature_power=1.6 body_diode=1pA");
  const auto& m = std::get<devices::FetData>(mosfet.law);
  CHECK_FALSE(m.is_junction);
  CHECK(m.threshold_voltage_v == 3.0);
  CHECK(m.current_factor_a_per_v2 == 2.5);
  CHECK(m.slope_factor == 1.3);
  CHECK(m.drain_slope_per_v == 0.02);
  CHECK(m.threshold_tempco_v_per_k == -6e-3);
  CHECK(m.body_diode_a == 1e-12);
  CHECK(m.source_resistance_ohm == 0.02);
  CHECK(m.drain_resistance_ohm == 0.1);
  CHECK(m.current_factor_temperature_power == 1.6);
}

TEST_CASE("The threshold of a FET falls by 5 mV a kelvin, of a junction FET by 2",
          "[language][identity]") {
  const auto mosfet = type_of("type n-mosfet m threshold_voltage=3V current_factor=2A/V2");
  CHECK(std::get<devices::FetData>(mosfet.law).threshold_tempco_v_per_k == -5e-3);
  const auto jfet = type_of("type n-jfet j threshold_voltage=-2V current_factor=2mA/V2");
  CHECK(std::get<devices::FetData>(jfet.law).threshold_tempco_v_per_k == -2e-3);
  CHECK(std::get<devices::FetData>(jfet.law).gate_leakage_current_a == 10e-12);
  CHECK(std::get<devices::FetData>(jfet.law).is_junction);
}

TEST_CASE("Ratings go by the names of their kind", "[language][identity]") {
  const auto npn = type_of(
      "type npn t saturation_current=10fA gain=100 max_collector_emitter_voltage=100V "
      "max_collector_current=15A max_base_emitter_voltage=7V max_power=115W "
      "max_junction_temperature=200C junction_to_case=1.52K/W junction_to_ambient=40K/W "
      "transition_frequency=800kHz safe_area=40V:2.9A,60V:1A case_style=\"two-hole steel\" "
      "source=\"a data sheet\"");
  CHECK(npn.ratings.max_voltage_v == 100.0);
  CHECK(npn.ratings.max_current_a == 15.0);
  CHECK(npn.ratings.max_base_emitter_voltage_v == 7.0);
  CHECK(npn.ratings.max_power_w == 115.0);
  CHECK(npn.ratings.max_junction_temperature_k == Approx(473.15));
  CHECK(npn.ratings.junction_to_case_k_per_w == 1.52);
  CHECK(npn.ratings.junction_to_ambient_k_per_w == 40.0);
  CHECK(npn.ratings.transition_frequency_hz == 800e3);
  REQUIRE(npn.ratings.safe_area.size() == 2);
  CHECK(npn.ratings.safe_area[1].voltage_v == 60.0);
  CHECK(npn.ratings.safe_area[1].current_a == 1.0);
  CHECK(npn.ratings.case_style == "two-hole steel");
  CHECK(npn.source == "a data sheet");
  const auto mosfet = type_of(
      "type n-mosfet m threshold_voltage=3V current_factor=1 max_drain_source_voltage=160V "
      "max_drain_current=7A");
  CHECK(mosfet.ratings.max_voltage_v == 160.0);
  CHECK(mosfet.ratings.max_current_a == 7.0);
  CHECK(mosfet.ratings.max_junction_temperature_k == Approx(423.15));
  CHECK(kinds_of_type("type diode d saturation_current=1pA max_collector_current=1A") ==
        "unknown-key@4:37");
}

TEST_CASE("vbe= sets the saturation current of the plain exponential law", "[language][analytic]") {
  // Collector and base joined, no Early effect, no resistance: Ic + Ib = Is e (1 + 1/B), e = exp
  // - 1.
  const auto type = type_of("type npn t gain=100 vbe=0.58V vbe_at=50mA");
  const double expected = 0.05 / ((std::exp(0.58 / thermal_v) - 1.0) * 1.01);
  CHECK(std::get<devices::BipolarData>(type.law).saturation_current_a ==
        Approx(expected).epsilon(1e-9));
}

TEST_CASE("vf=, vgs= and idss= set theirs", "[language][analytic]") {
  const auto diode = type_of("type diode d vf=0.70V vf_at=10mA series_resistance=1R ideality=1.5");
  CHECK(std::get<devices::DiodeData>(diode.law).saturation_current_a ==
        Approx(0.01 / (std::exp((0.70 - 0.01) / (1.5 * thermal_v)) - 1.0)).epsilon(1e-9));
  // Strong inversion: I = (K/2)(Ugs - Ut)^2, one tenth of a per cent at 0.4 V overdrive and above.
  const auto mosfet = type_of("type n-mosfet m current_factor=1A/V2 vgs=3.6V vgs_at=500mA");
  CHECK(std::get<devices::FetData>(mosfet.law).threshold_voltage_v == Approx(2.6).epsilon(1e-3));
  const auto jfet = type_of("type n-jfet j threshold_voltage=-2V idss=8mA");
  CHECK(std::get<devices::FetData>(jfet.law).current_factor_a_per_v2 == Approx(2 * 0.008 / 4.0));
}

TEST_CASE("A spread is kept by its field, a quick one by the field it stands for",
          "[language][analytic]") {
  const auto type = type_of(
      "type npn t gain=100 gain.min=60 gain.max=240 vbe=0.58V vbe.min=0.56V vbe.max=0.60V "
      "vbe_at=50mA");
  CHECK(type.spreads.at("gain").min == 60.0);
  CHECK(type.spreads.at("gain").max == 240.0);
  const double nominal = std::get<devices::BipolarData>(type.law).saturation_current_a;
  const circuit::Spread& spread = type.spreads.at("saturation_current");
  // 20 mV less is a current larger by exp(20 mV / U), and the other way round.
  CHECK(*spread.max / nominal == Approx(std::exp(0.02 / thermal_v)).epsilon(1e-6));
  CHECK(*spread.min / nominal == Approx(std::exp(-0.02 / thermal_v)).epsilon(1e-6));
  const auto half = type_of("type npn t gain=100 gain.max=240 saturation_current=1pA");
  CHECK_FALSE(half.spreads.at("gain").min);
}

TEST_CASE("What a type says twice, half or out of range is answered", "[language][identity]") {
  CHECK(kinds_of_type("type npn t gain=100") == "missing-key@4:10");
  CHECK(kinds_of_type("type npn t saturation_current=1pA") == "missing-key@4:1");
  CHECK(kinds_of_type("type npn t saturation_current=1pA gain=0") == "out-of-range@4:40");
  CHECK(kinds_of_type("type npn t saturation_current=-1pA gain=9") == "out-of-range@4:31");
  CHECK(kinds_of_type("type npn t saturation_current=1pA gain=9 ideality=0") ==
        "out-of-range@4:51");
  CHECK(kinds_of_type("type npn t gain=9 vbe=0.6V") == "quick-field@4:23");
  CHECK(kinds_of_type("type npn t gain=9 saturation_current=1pA vbe_at=1mA") == "quick-field@4:49");
  CHECK(kinds_of_type("type npn t gain=9 saturation_current=1pA vbe=0.6V vbe_at=1mA") ==
        "two-sources@4:46");
  CHECK(kinds_of_type("type diode d vf=0.5V vf_at=1A series_resistance=1R") == "quick-field@4:17");
  CHECK(kinds_of_type("type diode d saturation_current=1pA zener_voltage=5V") == "missing-key@4:1");
  CHECK(kinds_of_type("type npn t saturation_current=1pA gain=9 gain.min=20 gain.max=5") ==
        "low-above-high@4:51");
  CHECK(kinds_of_type("type npn t saturation_current=1pA gain=9 gain.min=20 gain.max=50") ==
        "nominal-outside@4:40");
  CHECK(kinds_of_type("type resistor t value=1") == "choice-expected@4:6");
  CHECK(kinds_of_type("type npn t saturation_current=1pA gain=9 safe_area=40V:3A,30V:4A") ==
        "value-unreadable@4:52");
  CHECK(kinds_of_type("type n-jfet t threshold_voltage=0V idss=1mA").find("out-of-range@4:33") !=
        std::string::npos);
}

TEST_CASE("A part wants a type of its own kind", "[language][identity]") {
  const std::string npn = "type npn t saturation_current=10fA gain=100\n";
  CHECK(kinds_of(around("pnp Q1 c=gnd b=x e=vpos type=t\n" + npn)) == "type-kind@4:30");
  CHECK(kinds_of(around("npn Q1 c=vpos b=x e=gnd type=T\n" + npn)) == "unknown-type@4:30");
  CHECK(kinds_of(around(npn + npn)) == "type-twice@5:10");
}

}  // namespace idlepoint::language
