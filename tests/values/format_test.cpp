// Oracle: how the trade writes values (docs/language.md, IEC 60062), worked out by hand; and that
// what is written reads back to the same number.
#include "values/format.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <random>

#include "values/quantity.hpp"

namespace idlepoint::values {

TEST_CASE("Values are written with a prefix, a space and no empty figures", "[values][identity]") {
  CHECK(format_value(0.0224, Unit::volt) == "22.4 mV");
  CHECK(format_value(0.052, Unit::ampere) == "52 mA");
  CHECK(format_value(28.0, Unit::volt) == "28 V");
  CHECK(format_value(-0.005, Unit::volt) == "-5 mV");
  CHECK(format_value(0.9996, Unit::volt) == "1 V");
  CHECK(format_value(0.99949, Unit::volt) == "999 mV");
  CHECK(format_value(1234.0, Unit::watt) == "1.23 kW");
  CHECK(format_value(1e-14, Unit::ampere) == "10 fA");
  CHECK(format_value(47e-6, Unit::farad) == "47 uF");
  CHECK(format_value(6e-20, Unit::ampere) == "6e-20 A");
}

TEST_CASE("Fractions, temperatures and plain numbers in their own manner", "[values][identity]") {
  CHECK(format_value(0.374, Unit::percent) == "37.4 %");
  CHECK(format_value(0.374, Unit::percent, 2) == "37 %");
  CHECK(format_value(298.15, Unit::temperature) == "25 C");
  CHECK(format_value(1e-4, Unit::ppm_per_kelvin) == "100 ppm/K");
  CHECK(format_value(250.0, Unit::none) == "250");
  CHECK(format_value(1.2, Unit::kelvin_per_watt) == "1.2 K/W");
}

TEST_CASE("Nothing is written as minus nothing", "[values][identity]") {
  CHECK(format_value(-0.0, Unit::volt) == "0 V");
  CHECK(format_value(3e-7, Unit::volt, 3, 1e-4) == "0.0 mV");
  CHECK(format_value(-3e-7, Unit::volt, 3, 1e-4) == "0.0 mV");
}

TEST_CASE("Ohms are written as IEC 60062 writes them", "[values][published]") {
  CHECK(format_ohms(354.0) == "354R");
  CHECK(format_ohms(0.33) == "0R33");
  CHECK(format_ohms(0.47) == "0R47");
  CHECK(format_ohms(4.7) == "4R7");
  CHECK(format_ohms(8.0) == "8R");
  CHECK(format_ohms(2200.0) == "2k2");
  CHECK(format_ohms(1e6) == "1M0");
  CHECK(format_ohms(47300.0) == "47k3");
  CHECK(format_ohms(470e3) == "470k");
  CHECK(format_ohms(999.9) == "1k0");
  CHECK(format_ohms(0.0) == "0R");
  CHECK(format_ohms(103.4, 2) == "100R");
}

TEST_CASE("Ohms as written read back to themselves", "[values][identity]") {
  for (const double ohms : {0.05, 0.22, 1.0, 3.3, 82.0, 354.0, 1000.0, 4700.0, 91e3, 2.2e6, 10e6}) {
    const auto read = read_value(format_ohms(ohms), Unit::ohm);
    REQUIRE(std::holds_alternative<double>(read));
    CHECK(std::get<double>(read) == ohms);
  }
}

TEST_CASE("A written value reads back to the same bits", "[values][identity]") {
  std::mt19937_64 generator(20);  // Seed of no meaning.
  int tried = 0;
  for (int round = 0; round < 20000; ++round) {
    const std::uint64_t bits = generator();
    double value = 0.0;
    std::memcpy(&value, &bits, sizeof value);
    if (!std::isfinite(value)) continue;
    for (std::size_t index = 0; index <= static_cast<std::size_t>(Unit::hertz); ++index) {
      const Unit unit = static_cast<Unit>(index);
      const std::string text = write_value(value, unit);
      const auto read = read_value(text, unit);
      // 100 times the largest numbers have no double: only they may fail.
      const bool too_large = std::abs(value) > 1e300;
      if (too_large && !std::holds_alternative<double>(read)) continue;
      CAPTURE(text, value);
      REQUIRE(std::holds_alternative<double>(read));
      const double again = std::get<double>(read);
      REQUIRE(std::memcmp(&again, &value, sizeof value) == 0);
      ++tried;
    }
  }
  CHECK(tried > 300'000);
}

TEST_CASE("Values of an ordinary size are written without an exponent", "[values][identity]") {
  CHECK(write_value(0.0224, Unit::volt) == "0.0224V");
  CHECK(write_value(4700.0, Unit::ohm) == "4700R");
  CHECK(write_value(0.05, Unit::tolerance) == "5%");
  CHECK(write_value(298.15, Unit::temperature) == "298.15K");
  CHECK(write_value(1e-4, Unit::ppm_per_kelvin) == "100ppm/K");
  CHECK(write_value(0.5, Unit::percent) == "50%");
  CHECK(write_value(-28.0, Unit::volt) == "-28V");
}

}  // namespace idlepoint::values
