// Oracle: the rules for names and for wires without one in docs/language.md, "Grammar".
#include <catch2/catch.hpp>

#include "language/reading.hpp"

namespace idlepoint::language {
namespace {

const char* const types = "type npn t saturation_current=10fA gain=100\n";

}  // namespace

TEST_CASE("Nodes are numbered in the order in which the file names them", "[language][identity]") {
  const auto circuit = sound(
      "resistor R1 b a 1k\nrail c 10V\nresistor R2 c gnd 1k\n"
      "resistor R3 a gnd 1k\n");
  std::vector<std::string> names;
  for (const circuit::Node& node : circuit.nodes) names.push_back(node.name);
  CHECK(names == std::vector<std::string>{"gnd", "b", "a", "c"});
}

TEST_CASE("A lead names the wire at a lead of another part, also one further down",
          "[language][identity]") {
  const auto circuit = sound(around("resistor R8 Q1.c Q1.e 1k\n"
                                    "npn Q1 c=vpos b=R1.2 e=out type=t\n"
                                    "trimmer VR1 VR1.wiper w gnd 1k\n"
                                    "resistor R9 VR1.wiper D1.anode 1k\n"
                                    "diode D1 anode=y cathode=gnd type=d\n"
                                    "resistor R10 D1.1 D1.2 1k\n"
                                    "type diode d saturation_current=1pA\n") +
                             types);
  CHECK(node_at(circuit, "R8", 0) == "vpos");
  CHECK(node_at(circuit, "R8", 1) == "out");
  CHECK(node_at(circuit, "Q1", 1) == "x");
  CHECK(node_at(circuit, "VR1", 0) == "w");
  CHECK(node_at(circuit, "R9", 0) == "w");
  CHECK(node_at(circuit, "R9", 1) == "y");
  CHECK(node_at(circuit, "R10", 0) == "y");
  CHECK(node_at(circuit, "R10", 1) == "gnd");
}

TEST_CASE("Leads that only refer to each other make one wire named after the first",
          "[language][identity]") {
  const auto circuit = sound(around("resistor R8 vpos Q1.c 1k\n"
                                    "npn Q1 c=R8.2 b=x e=gnd type=t\n"
                                    "resistor R9 Q1.c gnd 1k\n"
                                    "reading coll volts Q1.c R9.1\n") +
                             types);
  CHECK(node_at(circuit, "R8", 1) == "R8.2");
  CHECK(node_at(circuit, "Q1", 0) == "R8.2");
  CHECK(node_at(circuit, "R9", 0) == "R8.2");
  const auto volts = std::get<circuit::VoltsBetween>(circuit.readings[0].probe);
  CHECK(volts.a == volts.b);
}

TEST_CASE("A chain of references as long as a file is followed", "[language][identity]") {
  std::string text;
  constexpr int count = 20'000;
  for (int index = 0; index < count; ++index) {
    text += "resistor R" + std::to_string(index) + " R" + std::to_string(index + 1) + ".1 gnd 1k\n";
  }
  text += "resistor R" + std::to_string(count) + " far gnd 1k\n";
  const auto circuit = sound(text);
  CHECK(circuit.nodes.size() == 2);
  CHECK(node_at(circuit, "R0", 0) == "far");
}

TEST_CASE("The reference point is gnd, and 0V, and other names for it are answered",
          "[language][identity]") {
  const auto circuit = sound("rail vpos 9V\nresistor R1 vpos 0V 1k\n");
  CHECK(node_at(circuit, "R1", 1) == "gnd");
  for (const char* other : {"GND", "Gnd", "0", "ground"}) {
    CAPTURE(other);
    CHECK(kinds_of("rail vpos 9V\nresistor R1 vpos " + std::string(other) + " 1k\n") ==
          "write-gnd@2:18");
  }
}

TEST_CASE("What a lead reference cannot mean is answered", "[language][identity]") {
  CHECK(kinds_of(around("resistor R8 R77.1 gnd 1k\n")) == "unknown-part@4:13");
  CHECK(kinds_of(around("resistor R8 R1.c gnd 1k\n")) == "unknown-lead@4:13");
  CHECK(kinds_of(around("npn Q1 c=- b=x e=gnd type=t\nresistor R8 Q1.c gnd 1k\n") + types) ==
        "left-off-lead@5:13");
  CHECK(kinds_of(around("npn Q1 c=vpos b=x e=gnd type=t\nreading r volts Q1.k gnd\n") + types) ==
        "unknown-lead@5:17");
}

TEST_CASE("Names are letters, digits and four marks, and letters of other tongues are letters",
          "[language][identity]") {
  CHECK(kinds_of(around("resistor R8_-+/ x gnd 1k\n")).empty());
  CHECK(
      kinds_of(around("resistor R8 x wyj\u015bcie 1k\nresistor R9 wyj\u015bcie gnd 1k\n")).empty());
  CHECK(kinds_of(around("resistor R8(a) x gnd 1k\n")) == "name-letters@4:10");
  CHECK(kinds_of(around("resistor R8 x out! 1k\n")) == "name-letters@4:15");
  CHECK(kinds_of(around("resistor - x gnd 1k\n")) == "name-letters@4:10");
  CHECK(kinds_of(around("resistor R8 x gnd\u00d72 1k\n")) == "name-letters@4:15");
  CHECK(kinds_of(around("type npn t(1) saturation_current=10fA gain=100\n")) ==
        "name-letters@4:10");
}

TEST_CASE("A name that stands twice shows both places", "[language][approval]") {
  CHECK(said_of(around("resistor R8 x gnd 1k\n\n# x\nheatsink R8 resistance=2K/W\n")) ==
        R"(test.stage: `R8` stands twice: lines 4 and 7.

  line 7, column 10   heatsink R8 resistance=2K/W
                      here: the second
  line 4, column 10   resistor R8 x gnd 1k
                      here: the first

  Why   Parts and heat sinks share one set of names.
  Do    Give one of them another name, or take one out.
)");
}

TEST_CASE("A rail stands once at a point, by whatever name", "[language][identity]") {
  CHECK(kinds_of(around("rail vpos 24V\n")) == "rail-twice@4:6");
  CHECK(kinds_of(around("rail R1.1 24V\n")) == "rail-twice@4:6");
  CHECK(kinds_of(around("rail gnd 24V\n")) == "rail-on-gnd@4:6");
  CHECK(kinds_of(around("rail 0V 24V\n")) == "rail-on-gnd@4:6");
}

TEST_CASE("An unknown name is answered with the nearest, and only once for one slip",
          "[language][identity]") {
  CHECK_THAT(said_of(around("reading r volts y gnd\n")),
             Catch::Matchers::Contains("no part meets a point called `y`"));
  CHECK_THAT(said_of(around("resistor R8 x drive 1k\nresistor R9 drive gnd 1k\n"
                            "reading r volts drve gnd\n")),
             Catch::Matchers::Contains("Nearest known: `drive`."));
  // The statement that would have drawn R8 could not be understood: R8 itself is no second slip.
  CHECK(kinds_of(around("resitor R8 x y 1k\nreading r amps R8\nreading s volts y gnd\n")) ==
        "unknown-statement@4:1");
  CHECK(kinds_of(around("resistor R8 x gnd\nreading r amps R8\n")) == "missing-word@4:1");
}

}  // namespace idlepoint::language
