// Oracle: the table of statements in docs/language.md.
#include <catch2/catch.hpp>

#include "language/reading.hpp"

namespace idlepoint::language {
namespace {

const char* const stage =
    "rail vpos +28V\nrail vneg -28V measured=-29.5V resistance=0R15 tolerance=8%\n"
    "npn Q1 c=vpos b=b e=out type=t on=HS1\nresistor R1 vpos b 10k\nresistor R2 out vneg 1k\n"
    "trimmer VR1 b w vneg 10k\ntrimmer VR2 b w2 vneg 10k\nresistor R3 w w2 1k\n"
    "heatsink HS1 resistance=2K/W\ntype npn t saturation_current=10fA gain=100\n";

std::string with(const std::string& statements) { return stage + statements; }

}  // namespace

TEST_CASE("Title, ambient, rails and meter", "[language][identity]") {
  const auto plain = sound(with(""));
  CHECK(plain.ambient_k == Approx(298.15));
  CHECK(plain.meter.error == 0.005);
  CHECK(plain.meter.floor_v == 0.2e-3);
  CHECK(plain.meter.input_ohm == 10e6);
  CHECK(plain.rails[0].resistance_ohm == 0.05);
  CHECK(plain.rails[0].tolerance == 0.0);
  CHECK_FALSE(plain.rails[0].measured_v);
  CHECK(plain.rails[1].nominal_v == -28.0);
  CHECK(plain.rails[1].measured_v == -29.5);
  CHECK(plain.rails[1].resistance_ohm == 0.15);
  CHECK(plain.rails[1].tolerance == 0.08);
  const auto full =
      sound(with("stage \"A title\"\nambient 35C\nmeter error=1% floor=1mV input=1M\n"));
  CHECK(full.title == "A title");
  CHECK(full.ambient_k == Approx(308.15));
  CHECK(full.meter.error == 0.01);
  CHECK(full.meter.floor_v == 1e-3);
  CHECK(full.meter.input_ohm == 1e6);
}

TEST_CASE("Readings read volts, amps, watts and celsius", "[language][identity]") {
  const auto circuit = sound(
      with("reading a volts out gnd\nreading b amps R1\nreading c amps vpos\nreading d watts Q1\n"
           "reading e celsius HS1\nreading f celsius Q1\nreading g watts vneg\n"));
  const auto probe = [&circuit](std::size_t index) {
    return circuit::write_probe(circuit, circuit.readings.at(index).probe);
  };
  CHECK(probe(0) == "volts out gnd");
  CHECK(probe(1) == "amps R1");
  CHECK(probe(2) == "amps vpos");
  CHECK(probe(3) == "watts Q1");
  CHECK(probe(4) == "celsius HS1");
  CHECK(probe(5) == "celsius Q1");
  CHECK(probe(6) == "watts vneg");
  CHECK(kinds_of(with("reading a amps VR1\n")) == "not-for-this-part@11:16");
  CHECK(kinds_of(with("reading a celsius R1\n")) == "not-for-this-part@11:19");
  CHECK(kinds_of(with("reading a amps out\n")) == "not-for-this-part@11:16");
  CHECK(kinds_of(with("reading a volts out\n")) == "missing-word@11:17");
  CHECK(kinds_of(with("reading a volt out gnd\n")) == "choice-expected@11:11");
  CHECK(kinds_of(with("reading a volts out gnd\nreading a amps R1\n")) == "reading-twice@12:9");
}

TEST_CASE("Limits are read in the unit of their reading", "[language][identity]") {
  const auto circuit =
      sound(with("limit a -100mV to 100mV\nreading a volts out gnd\nreading h celsius HS1\n"
                 "limit h 20C to 60C\n"));
  CHECK(circuit.readings[0].limit->low == -0.1);
  CHECK(circuit.readings[0].limit->high == 0.1);
  CHECK(circuit.readings[1].limit->high == Approx(333.15));
  const std::string a = "reading a volts out gnd\n";
  CHECK(kinds_of(with(a + "limit a 1mV to -1mV\n")) == "low-above-high@12:9");
  CHECK(kinds_of(with(a + "limit a 1mV to 1mV\n")) == "low-above-high@12:9");
  CHECK(kinds_of(with(a + "limit a 1mA to 2mA\n")) == "wrong-unit@12:9 wrong-unit@12:16");
  CHECK(kinds_of(with(a + "limit a 1mV upto 2mV\n")) == "choice-expected@12:13");
  CHECK(kinds_of(with(a + "limit a 1mV to 2mV\nlimit a 1mV to 3mV\n")) == "statement-twice@13:7");
}

TEST_CASE("An adjustment's default width is 1 %, and at least 1 mV", "[language][identity]") {
  const auto within = [](const std::string& target, const std::string& reading) {
    return sound(with("reading a " + reading + "\nadjust VR1 until a reads " + target + "\n"))
        .adjustments.at(0)
        .within;
  };
  CHECK(within("22mV", "volts out gnd") == 1e-3);
  CHECK(within("14V", "volts out gnd") == Approx(0.14));
  CHECK(within("50mA", "amps Q1") == 1e-3);
  CHECK(within("40C", "celsius HS1") == 1.0);
  CHECK(within("150C", "celsius HS1") == Approx(1.5));
  CHECK(within("22mV within 3mV", "volts out gnd") == 3e-3);
  CHECK(within("40C within 2K", "celsius HS1") == 2.0);
}

TEST_CASE("One adjustment a trimmer, one a reading", "[language][identity]") {
  const std::string readings = "reading a volts out gnd\nreading b volts b gnd\n";
  CHECK(kinds_of(with(readings + "adjust VR1 until a reads 1V\nadjust VR2 until b reads 1V\n"))
            .empty());
  CHECK(kinds_of(with(readings + "adjust VR1 until a reads 1V\nadjust VR1 until b reads 1V\n")) ==
        "statement-twice@14:8");
  CHECK(kinds_of(with(readings + "adjust VR1 until a reads 1V\nadjust VR2 until a reads 1V\n")) ==
        "statement-twice@14:8");
  CHECK(kinds_of(with(readings + "adjust R1 until a reads 1V\n")) == "not-for-this-part@13:8");
  CHECK(kinds_of(with(readings + "adjust VR1 untl a reads 1V\n")) == "choice-expected@13:12");
  CHECK(kinds_of(with(readings + "adjust VR1 until a reads 1V within\n")) == "missing-word@13:29");
}

TEST_CASE("Printed volts in both forms", "[language][identity]") {
  const auto circuit =
      sound(with("printed volts out vneg 28V\nprinted volts b gnd 0.6V\nprinted Q1 c=28V e=0V\n"));
  REQUIRE(circuit.printed.size() == 4);
  CHECK(circuit.printed[0].text == "out to vneg");
  CHECK(circuit.printed[1].text == "b");
  CHECK(circuit.printed[2].text == "the collector of Q1");
  CHECK(circuit.printed[2].volts == 28.0);
  CHECK(circuit.at(circuit.printed[2].a).name == "vpos");
  CHECK(circuit.printed[3].text == "the emitter of Q1");
  CHECK(circuit.printed[3].b == circuit::ground);
  CHECK(kinds_of(with("printed R1 a=1V\n")) == "not-for-this-part@11:9");
  CHECK(kinds_of(with("printed Q1 d=1V\n")) == "unknown-key@11:12");
  CHECK(kinds_of(with("printed Q1\n")) == "missing-key@11:9");
  CHECK(kinds_of(with("printed Q1 c=1V\nprinted Q1 c=2V\n")) == "statement-twice@12:14");
}

TEST_CASE("Signal and sockets name points that parts meet", "[language][identity]") {
  const auto circuit = sound(with("signal output=out input=b drive=Q1.b\nsocket out\n"));
  CHECK(circuit.at(*circuit.signal.output).name == "out");
  CHECK(circuit.signal.input == circuit.signal.drive);
  CHECK(circuit.at(*circuit.signal.output).is_socket);
  CHECK(kinds_of(with("signal input=b\n")) == "missing-key@11:1");
  CHECK(kinds_of(with("socket nowhere\n")) == "unknown-node@11:8");
  CHECK(kinds_of(with("signal output=out\nsignal output=b\n")) == "statement-twice@12:1");
}

TEST_CASE("Parts are matched to 1 % of gain, or to a voltage", "[language][identity]") {
  const std::string two = "npn Q2 c=vpos b=b e=out type=t\n";
  const auto plain = sound(with(two + "matched Q1 Q2\n")).matched.at(0);
  CHECK(plain.parts.size() == 2);
  CHECK(plain.within_fraction == 0.01);
  CHECK_FALSE(plain.within_v);
  CHECK(sound(with(two + "matched Q1 Q2 within=5%\n")).matched.at(0).within_fraction == 0.05);
  CHECK(sound(with(two + "matched Q1 Q2 within=3mV\n")).matched.at(0).within_v == 3e-3);
  CHECK(kinds_of(with(two + "matched Q1\n")) == "missing-word@12:1");
  CHECK(kinds_of(with(two + "matched Q1 R1\n")) == "not-for-this-part@12:12");
  CHECK(kinds_of(with(two + "matched Q1 Q2\nmatched Q2 Q1\n")) ==
        "part-twice@13:9 part-twice@13:12");
}

TEST_CASE("Several parts are mounted at once, none twice", "[language][identity]") {
  const std::string two = "npn Q2 c=vpos b=b e=out type=t\nthermistor TH1 b gnd 1k\n";
  const auto circuit = sound(with(two + "mounted Q2 on=HS1 washer=0.5K/W coupling=80%\n"
                                        "mounted TH1 on=HS1\n"));
  CHECK(part(circuit, "Q2").mounting.heatsink);
  CHECK(part(circuit, "Q2").mounting.washer_k_per_w == 0.5);
  CHECK(part(circuit, "Q2").mounting.coupling == 0.8);
  CHECK(part(circuit, "TH1").mounting.heatsink);
  CHECK(kinds_of(with("mounted Q1 on=HS1\n")) == "part-twice@11:9");
  CHECK(kinds_of(with("mounted R1 on=HS1\n")) == "not-for-this-part@11:9");
  CHECK(kinds_of(with("mounted Q1\n")) == "missing-key@11:1");
}

TEST_CASE("A question mark is a blank, described in words", "[language][identity]") {
  const auto circuit = sound(
      with("resistor R8 b out ?\nnpn Q2 c=vpos b=b e=out type=? on=?\nreading a volts out gnd\n"
           "adjust VR1 until a reads ?\nheatsink HS2 resistance=?\n"));
  std::vector<std::string> texts;
  for (const circuit::Blank& blank : circuit.blanks) texts.push_back(blank.text);
  CHECK(texts == std::vector<std::string>{"`resistance` of HS2 (heatsink)",
                                          "the value of R8 (resistor, b to out)",
                                          "the type of Q2 (npn)",
                                          "the heat sink of Q2 (npn)",
                                          "the target of VR1 (adjust)"});
  CHECK(circuit.blanks[1].place.line == 11);
}

TEST_CASE("A statement that nobody knows gets the nearest, one of a job its place",
          "[language][identity]") {
  CHECK_THAT(said_of(with("resitor R8 b out 1k\n")),
             Catch::Matchers::Contains("Nearest known: `resistor`"));
  CHECK(kinds_of(with("measured a 9mV\n")) == "statement-not-here@11:1");
  CHECK(kinds_of(with("stage \"a\"\nstage \"b\"\n")) == "statement-twice@12:1");
  CHECK(kinds_of("") == "nothing-drawn@0:0");
  CHECK(kinds_of("# nothing\n") == "nothing-drawn@0:0");
}

TEST_CASE("The minus that was left off the negative rail is asked for", "[language][identity]") {
  CHECK(kinds_of(around("rail vneg 28V\n")) == "rail-sign@4:11");
  CHECK(kinds_of(around("rail vneg -28V\n")).empty());
  CHECK(kinds_of(around("rail vneg +28V\n")).empty());
  CHECK(kinds_of(around("rail v2 -28V measured=29V\n")) == "out-of-range@4:23");
}

}  // namespace idlepoint::language
