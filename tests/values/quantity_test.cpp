// Oracle: IEC 60062:2016, the value code's own examples, and the SI prefixes.
#include "values/quantity.hpp"

#include <catch2/catch.hpp>

namespace idlepoint::values {
namespace {

double read(const char* text, Unit unit) {
  const auto read = read_value(text, unit);
  INFO(text);
  const auto* problem = std::get_if<ValueProblem>(&read);
  if (problem != nullptr) {
    INFO(problem->kind << ": " << problem->headline);
    REQUIRE(problem == nullptr);
  }
  return std::get<double>(read);
}

struct Example {
  const char* text;
  Unit unit;
  double value;
};

}  // namespace

TEST_CASE("Resistors read as IEC 60062 writes them", "[values][published]") {
  const Example examples[] = {{"R47", Unit::ohm, 0.47},
                              {"4R7", Unit::ohm, 4.7},
                              {"470R", Unit::ohm, 470.0},
                              {"4K7", Unit::ohm, 4700.0},
                              {"47K", Unit::ohm, 47e3},
                              {"47K3", Unit::ohm, 47300.0},
                              {"470K", Unit::ohm, 470e3},
                              {"4M7", Unit::ohm, 4.7e6},
                              {"R33", Unit::ohm, 0.33},
                              {"0R33", Unit::ohm, 0.33},
                              {"R10", Unit::ohm, 0.1},
                              {"3R32", Unit::ohm, 3.32},
                              {"59R04", Unit::ohm, 59.04},
                              {"590R4", Unit::ohm, 590.4},
                              {"5K904", Unit::ohm, 5904.0},
                              {"1M0", Unit::ohm, 1e6},
                              {"10G", Unit::ohm, 10e9},
                              {"2k2", Unit::ohm, 2200.0}};
  for (const Example& example : examples) {
    CHECK(read(example.text, example.unit) == example.value);
  }
}

TEST_CASE("Capacitors read as IEC 60062 writes them", "[values][published]") {
  const Example examples[] = {{"p10", Unit::farad, 0.1e-12},
                              {"1p0", Unit::farad, 1e-12},
                              {"3p32", Unit::farad, 3.32e-12},
                              {"10p", Unit::farad, 10e-12},
                              {"n10", Unit::farad, 0.1e-9},
                              {"3n32", Unit::farad, 3.32e-9},
                              {"u10", Unit::farad, 0.1e-6},
                              {"\u00b510", Unit::farad, 0.1e-6},
                              {"\u03bc10", Unit::farad, 0.1e-6},
                              {"2u2", Unit::farad, 2.2e-6},
                              {"10u", Unit::farad, 10e-6},
                              {"4m7", Unit::farad, 4.7e-3},
                              {"47uF", Unit::farad, 47e-6},
                              {"2u2F", Unit::farad, 2.2e-6}};
  for (const Example& example : examples) {
    CHECK(read(example.text, example.unit) == example.value);
  }
}

TEST_CASE("A unit may stand for the decimal point where it is expected", "[values][identity]") {
  CHECK(read("4V7", Unit::volt) == 4.7);
  CHECK(read("0A5", Unit::ampere) == 0.5);
  CHECK(read("0W5", Unit::watt) == 0.5);
  CHECK(read("1H5", Unit::henry) == 1.5);
  CHECK(read("1F5", Unit::farad) == 1.5);
}

TEST_CASE("Numbers with a point, an exponent, a sign", "[values][identity]") {
  CHECK(read("4.7k", Unit::ohm) == 4700.0);
  CHECK(read("4.7K", Unit::ohm) == 4700.0);
  CHECK(read("4.7kohm", Unit::ohm) == 4700.0);
  CHECK(read("100\u03a9", Unit::ohm) == 100.0);
  CHECK(read("100\u2126", Unit::ohm) == 100.0);
  CHECK(read("6e-20A", Unit::ampere) == 6e-20);
  CHECK(read("6E-20", Unit::ampere) == 6e-20);
  CHECK(read("1e+3", Unit::ohm) == 1000.0);
  CHECK(read("+28V", Unit::volt) == 28.0);
  CHECK(read("-1.21V", Unit::volt) == -1.21);
  CHECK(read("-4V7", Unit::volt) == -4.7);
  CHECK(read("007", Unit::none) == 7.0);
}

TEST_CASE("Every prefix is its power of ten", "[values][identity]") {
  CHECK(read("1f", Unit::farad) == 1e-15);
  CHECK(read("10fA", Unit::ampere) == 10e-15);
  CHECK(read("1pA", Unit::ampere) == 1e-12);
  CHECK(read("1nA", Unit::ampere) == 1e-9);
  CHECK(read("1uA", Unit::ampere) == 1e-6);
  CHECK(read("1mA", Unit::ampere) == 1e-3);
  CHECK(read("1kHz", Unit::hertz) == 1e3);
  CHECK(read("4MHz", Unit::hertz) == 4e6);
  CHECK(read("1GHz", Unit::hertz) == 1e9);
}

TEST_CASE("A value carries no rounding but the last", "[values][identity]") {
  // 0.1 and 0.3 have no exact double: multiplying by a power of ten would round twice.
  CHECK(read("0.3m", Unit::ampere) == 0.0003);
  CHECK(read("12.3%", Unit::percent) == 0.123);
  CHECK(read("0.1%", Unit::tolerance) == 0.001);
  CHECK(read("1.1u", Unit::farad) == 1.1e-6);
  CHECK(read("100ppm/K", Unit::ppm_per_kelvin) == 1e-4);
}

TEST_CASE("C is Celsius, K is kelvin, and kilo only for ohms", "[values][identity]") {
  CHECK(read("25C", Unit::temperature) == Approx(298.15).epsilon(1e-15));
  CHECK(read("25", Unit::temperature) == Approx(298.15).epsilon(1e-15));
  CHECK(read("-40C", Unit::temperature) == Approx(233.15).epsilon(1e-15));
  CHECK(read("298.15K", Unit::temperature) == 298.15);
  CHECK(read("10K", Unit::kelvin) == 10.0);
  CHECK(read("10K", Unit::ohm) == 10e3);
  CHECK(read("1.2K/W", Unit::kelvin_per_watt) == 1.2);
  CHECK(read("300J/K", Unit::joule_per_kelvin) == 300.0);
}

TEST_CASE("Compound units read whole", "[values][identity]") {
  CHECK(read("-5mV/K", Unit::volt_per_kelvin) == -5e-3);
  CHECK(read("2.5A/V2", Unit::ampere_per_volt2) == 2.5);
  CHECK(read("150mA/V2", Unit::ampere_per_volt2) == 0.15);
  CHECK(read("0.01/V", Unit::per_volt) == 0.01);
  CHECK(read("1.206eV", Unit::electronvolt) == 1.206);
  CHECK(read("600s", Unit::second) == 600.0);
}

TEST_CASE("A bare number takes the unit that is expected", "[values][identity]") {
  CHECK(read("820", Unit::ohm) == 820.0);
  CHECK(read("28", Unit::volt) == 28.0);
  CHECK(read("100", Unit::ppm_per_kelvin) == 1e-4);
  CHECK(read("250", Unit::none) == 250.0);
}

TEST_CASE("Tolerance letters are those of IEC 60062", "[values][published]") {
  const Example examples[] = {{"B", Unit::tolerance, 0.001},
                              {"C", Unit::tolerance, 0.0025},
                              {"D", Unit::tolerance, 0.005},
                              {"F", Unit::tolerance, 0.01},
                              {"G", Unit::tolerance, 0.02},
                              {"J", Unit::tolerance, 0.05},
                              {"K", Unit::tolerance, 0.10},
                              {"M", Unit::tolerance, 0.20}};
  for (const Example& example : examples) {
    CHECK(read(example.text, example.unit) == example.value);
  }
}

}  // namespace idlepoint::values
