// Oracle: docs/language.md, "Readings as taken": every form that the guide shows, and no other.
#include <catch2/catch.hpp>

#include "complaints/render.hpp"
#include "language/bench_reading_text.hpp"
#include "language/reading.hpp"

namespace idlepoint::language {
namespace {

using circuit::BenchReading;
using circuit::Firmness;

circuit::Circuit stage_to_read() {
  return sound(
      "rail vpos +28V\nnpn Q1 c=vpos b=b e=out type=t on=HS1\nresistor R1 vpos b 10k\n"
      "resistor R2 out gnd 1k\nresistor R3 b gnd 10k\ntrimmer VR1 b w gnd 10k\n"
      "resistor R4 w gnd 1k\nheatsink HS1 resistance=2K/W\n"
      "reading upper volts b out\nreading idle amps Q1\nreading sink celsius HS1\n"
      "type npn t saturation_current=10fA gain=100\n");
}

BenchReading read(const std::string& text) {
  const auto reading = read_bench_reading(text, stage_to_read());
  if (!reading) FAIL(text + "\n" + complaints::render(reading.complaints()));
  return *reading;
}

std::string measured(const std::string& text) {
  return circuit::write_measurement(stage_to_read(), read(text).measurement);
}

/// "kind@column" of each complaint.
std::string reading_refused(const std::string& text) {
  const auto reading = read_bench_reading(text, stage_to_read());
  if (reading) return "";
  std::string kinds;
  for (const auto& complaint : reading.complaints()) {
    const auto& place = complaint.places.front();
    CHECK(place.file == "command line");
    CHECK((complaint.instead + complaint.why) != "");
    kinds += (kinds.empty() ? "" : " ") + std::string(complaints::facts(complaint.kind).name) +
             "@" + std::to_string(place.column);
  }
  return kinds;
}

std::string instead_of(const std::string& text) {
  const auto reading = read_bench_reading(text, stage_to_read());
  REQUIRE_FALSE(reading.has_value());
  return reading.complaints().front().instead;
}

}  // namespace

TEST_CASE("A reading is taken by its name or by what the leads are put to",
          "[language][identity]") {
  CHECK(read("upper=0.6V").name == "upper");
  CHECK(measured("upper=0.6V") == "volts b out");
  CHECK(read("volts out gnd=12V").name == "volts out gnd");
  CHECK(measured("volts Q1.e gnd=12V") == "volts out gnd");
  CHECK(measured("amps Q1=12mA") == "amps Q1");
  CHECK(measured("amps vpos=12mA") == "amps vpos");
  CHECK(measured("watts R2=0.2W") == "watts R2");
  CHECK(measured("celsius HS1=41C") == "celsius HS1");
  CHECK(measured("ohms b out=1k9") == "ohms b out");
  CHECK(measured("diode out b=open") == "diode out b");
  CHECK(measured("upper = 0.6V") == "volts b out");
}

TEST_CASE("A figure takes the unit of its measurement, and kelvin of a temperature",
          "[language][identity]") {
  CHECK(read("upper=9.1mV").value == Approx(9.1e-3));
  CHECK(read("upper=0.6").value == Approx(0.6));
  CHECK(read("upper=-0.6V").value == Approx(-0.6));
  CHECK(read("idle=20mA").value == Approx(0.02));
  CHECK(read("ohms b out=1k9").value == Approx(1900.0));
  CHECK(read("ohms b out=1K9").value == Approx(1900.0));
  CHECK(read("ohms b out=0").value == Approx(0.0));
  CHECK(read("diode b out=650mV").value == Approx(0.65));
  CHECK(read("sink=41").value == Approx(314.15));
  CHECK(read("upper=9.1mV").firmness == Firmness::shown);
  CHECK(reading_refused("upper=12mA") == "wrong-unit@7");
  CHECK(reading_refused("idle=12mV") == "wrong-unit@6");
  CHECK(reading_refused("ohms b out=-3R") == "out-of-range@12");
  CHECK(reading_refused("upper=0,6V") == "decimal-comma@7");
}

TEST_CASE("What is no figure is told in the bench's words", "[language][identity]") {
  CHECK(read("upper=about 0.6V").value == Approx(0.6));
  CHECK(read("upper=about 0.6V").firmness == Firmness::about);
  CHECK(read("upper=jumps").firmness == Firmness::jumps);
  CHECK_FALSE(read("upper=jumps").value);
  CHECK(read("upper=drifts up").firmness == Firmness::drifts_up);
  CHECK(read("upper=drifts down").firmness == Firmness::drifts_down);
  CHECK(read("upper=0.3V drifts down").value == Approx(0.3));
  CHECK(read("upper=0.3V drifts down").firmness == Firmness::drifts_down);
  CHECK(read("upper=about 0.3V jumps").firmness == Firmness::jumps);
  CHECK(read("ohms b out=open").firmness == Firmness::beyond_range);
  CHECK_FALSE(read("diode b out=open").value);
  CHECK(read("ohms b out=about 2k").firmness == Firmness::about);
}

TEST_CASE("Other words for the same are answered with ours", "[language]") {
  CHECK(instead_of("upper=jump") == "Nearest known: `jumps`.");
  CHECK(instead_of("upper=unstable") == "Write `jumps`.");
  CHECK(instead_of("upper=rising") == "Write `drifts up`.");
  CHECK(instead_of("ohms b out=OL") == "Write `open`.");
  CHECK(instead_of("upper=~0.6V") == "Write `about 0.6V`.");
  CHECK(instead_of("upper=0.6 V") == "Write `0.6V`.");
  CHECK(instead_of("uper=0.6V") == "Nearest known: `upper`.");
  CHECK(instead_of("volt=0.6V") == "Nearest known: `volts`.");
  CHECK(reading_refused("upper=drifts") == "reading-unreadable@7");
  CHECK(reading_refused("upper=about") == "reading-unreadable@7");
  CHECK(reading_refused("upper=steady") == "reading-unreadable@7");
  CHECK(reading_refused("upper=0.6V now") == "reading-unreadable@12");
  CHECK(reading_refused("upper=0.6V 0.7V") == "reading-unreadable@12");
  CHECK(reading_refused("upper=0.6 V") == "space-in-value@11");
}

TEST_CASE("With the power on no meter shows `open`", "[language]") {
  CHECK(reading_refused("upper=open") == "reading-unreadable@7");
  CHECK(reading_refused("upper=about open") == "reading-unreadable@13");
  CHECK(instead_of("upper=OL").starts_with("Take a higher range"));
}

TEST_CASE("A reading that lacks a side or a point is answered with the form", "[language]") {
  for (const std::string text : {"", "upper", "=9mV", "upper="}) {
    CAPTURE(text);
    CHECK(reading_refused(text) == "reading-unreadable@1");
  }
  CHECK(reading_refused("volts out=9mV") == "missing-word@7");
  CHECK(reading_refused("ohms=9R") == "missing-word@1");
  CHECK(reading_refused("amps=9mA") == "missing-word@1");
  CHECK(reading_refused("volts out gnd b=9mV") == "extra-word@15");
  CHECK(reading_refused("amps VR1=9mA") == "not-for-this-part@6");
  CHECK(reading_refused("volts out GND=9mV") == "write-gnd@11");
  CHECK(reading_refused("volts ot gnd=9mV") == "unknown-node@7");
  CHECK(reading_refused("ohms b oot=1k9") == "unknown-node@8");
}

TEST_CASE("Both sides of a reading are complained of in one run", "[language]") {
  CHECK(reading_refused("uper=jump") == "unknown-reading@1 reading-unreadable@6");
}

TEST_CASE("One measurement given twice is said, under one name or two", "[language]") {
  const auto twice = [](const std::vector<std::string>& texts) {
    const auto readings = read_bench_readings(texts, stage_to_read());
    return readings ? std::string() : readings.complaints().front().headline;
  };
  CHECK(twice({"upper=1V", "upper=2V"}) == "the reading `upper` is given twice");
  CHECK(twice({"upper=1V", "volts b out=2V"}) ==
        "`volts b out` is the same measurement as `upper`, which is given already");
  CHECK(twice({"upper=1V", "volts out b=-2V"}) ==
        "`volts out b` is the same measurement as `upper`, which is given already");
  // The ohms range drives its own current, so that the other way round is another measurement.
  CHECK(twice({"ohms b out=1k", "ohms out b=2k"}).empty());
  CHECK(twice({"ohms b out=1k", "diode b out=0.6V"}).empty());
  CHECK(twice({"upper=1V", "volts b gnd=2V"}).empty());
}

TEST_CASE("An answer to a measurement is its value alone, or another reading",
          "[language][identity]") {
  const auto circuit = stage_to_read();
  const circuit::Measurement asked = read("volts b out=1V").measurement;
  const auto value = read_bench_answer("-0.2V", asked, circuit);
  REQUIRE(value.has_value());
  CHECK(value->name == "volts b out");
  CHECK(value->value == Approx(-0.2));
  const auto other = read_bench_answer("idle=20mA", asked, circuit);
  REQUIRE(other.has_value());
  CHECK(other->name == "idle");
  CHECK_FALSE(read_bench_answer("", asked, circuit).has_value());
  CHECK_FALSE(read_bench_answer("open", asked, circuit).has_value());
}

}  // namespace idlepoint::language
