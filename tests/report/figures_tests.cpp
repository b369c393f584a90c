// Oracle: how a bench meter with steps of 0.1 mV shows a value.
#include <catch2/catch.hpp>

#include "report/figures.hpp"

namespace idlepoint::tests {

using answers::ReadingUnit;

TEST_CASE("Volts are shown in steps of a tenth of a millivolt", "[report][identity]") {
  CHECK(report::volts(0.022) == "22.0 mV");
  CHECK(report::volts(-0.00523) == "-5.2 mV");
  CHECK(report::volts(3e-7) == "0.0 mV");
  CHECK(report::volts(-3e-7) == "0.0 mV");
  CHECK(report::volts(0.09996) == "100 mV");
  CHECK(report::volts(0.85) == "850 mV");
  CHECK(report::volts(0.9996) == "1.00 V");
  CHECK(report::volts(1.957) == "1.96 V");
  CHECK(report::volts(33.02) == "33.0 V");
  CHECK(report::volts(-120.4) == "-120 V");
}

TEST_CASE("Amperes are shown from tenths of a microampere to whole amperes", "[report][identity]") {
  CHECK(report::amps(0.0) == "0.0 mA");
  CHECK(report::amps(4.8e-6) == "4.8 uA");
  CHECK(report::amps(480e-6) == "480 uA");
  CHECK(report::amps(0.005) == "5.0 mA");
  CHECK(report::amps(0.048) == "48 mA");
  CHECK(report::amps(1.83) == "1.83 A");
  CHECK(report::amps(30.0) == "30.0 A");
}

TEST_CASE("Watts and Celsius are shown without digits that mean nothing", "[report][identity]") {
  CHECK(report::watts(0.35) == "350 mW");
  CHECK(report::watts(2.13) == "2.1 W");
  CHECK(report::watts(115.4) == "115 W");
  CHECK(report::figure(25.4, ReadingUnit::celsius) == "25 C");
  CHECK(report::percent(0.374) == "37 %");
}

TEST_CASE("What the user wrote is given back as written", "[report][identity]") {
  CHECK(report::as_written(0.0094, ReadingUnit::volt) == "9.4 mV");
  CHECK(report::as_written(0.0, ReadingUnit::volt) == "0 V");
  CHECK(report::as_written(0.1, ReadingUnit::ampere) == "100 mA");
  CHECK(report::as_written(40.0, ReadingUnit::celsius) == "40 C");
}

}  // namespace idlepoint::tests
