// Oracle: docs/commands.md, "swap": what may take a part's place, and how it is written.
#include "language/replacement_text.hpp"

#include <catch2/catch.hpp>

#include "complaints/render.hpp"
#include "language/reading.hpp"

namespace idlepoint::language {
namespace {

circuit::Circuit stage_to_change() {
  return sound(
      "rail vpos +28V\nresistor R1 vpos x 1k\ndiode D2 anode=x cathode=gnd type=d\n"
      "thermistor TH1 x gnd 470R\nnpn Q5 c=vpos b=x e=y type=q\nresistor R2 y gnd 1k\n"
      "type npn q saturation_current=1fA gain=9\ntype npn other saturation_current=1fA gain=9\n"
      "type pnp p saturation_current=1fA gain=9\ntype diode d saturation_current=1fA\n"
      "type diode 1N99 saturation_current=1fA\n");
}

/// As it writes itself back; fails the test where it cannot be read.
std::string written_back(const std::string& text) {
  const auto circuit = stage_to_change();
  const auto read = read_replacement(text, circuit);
  if (!read) FAIL(complaints::render(read.complaints()));
  if (const auto* type = std::get_if<circuit::SetType>(&read.value())) {
    return circuit.at(type->part).name + "=" + circuit.at(type->type).name;
  }
  const auto& stand_in = std::get<circuit::StandIn>(read.value());
  return circuit.at(stand_in.for_part).name + "=" + circuit::write_stand_in(circuit, stand_in);
}

/// The kind of the complaint about a replacement that must not be read, and its words.
complaints::Complaint refused(const std::string& text) {
  const auto circuit = stage_to_change();
  const auto read = read_replacement(text, circuit);
  REQUIRE_FALSE(read.has_value());
  const auto& complaint = read.complaints().at(0);
  CHECK(complaint.places.at(0).file == "command line");
  CHECK(complaint.places.at(0).line == 0);
  return complaint;
}

std::string kind_of(const std::string& text) {
  return std::string(complaints::facts(refused(text).kind).name);
}

}  // namespace

TEST_CASE("Every form of a replacement reads, and writes back as the guide writes it",
          "[language][identity]") {
  CHECK(written_back("Q5=other") == "Q5=other");
  CHECK(written_back("D2=1N99") == "D2=1N99");
  CHECK(written_back("D2=3 1N99") == "D2=3 1N99");
  CHECK(written_back("D2=3x 1N99 + 22R") == "D2=3 1N99 + 22R");
  CHECK(written_back("D2= 3 1N99 + 4k7") == "D2=3 1N99 + 4k7");
  CHECK(written_back("D2=1N99 + 22R") == "D2=1 1N99 + 22R");
  CHECK(written_back("D2=47R") == "D2=47R");
  CHECK(written_back("TH1=47R") == "TH1=47R");
  CHECK(written_back("TH1=1N99") == "TH1=1 1N99");
  CHECK(written_back("D2=spreader q 1k2 560R") == "D2=spreader q 1k2 560R");
  CHECK(written_back("D2=spreader p 1k2 560R") == "D2=spreader p 1k2 560R");
}

TEST_CASE("A type whose name could be ohms is the type", "[language]") {
  const auto circuit = sound(
      "rail vpos +28V\nresistor R1 vpos x 1k\nnpn Q5 c=vpos b=x e=y type=q\nresistor R2 y gnd 1k\n"
      "type npn q saturation_current=1fA gain=9\ntype npn n3 saturation_current=1fA gain=9\n");
  const auto read = read_replacement("Q5=n3", circuit);
  REQUIRE(read.has_value());
  CHECK(std::holds_alternative<circuit::SetType>(*read));
}

TEST_CASE("Another polarity, another kind and an unknown type are refused, each in its own words",
          "[language]") {
  CHECK(kind_of("Q5=p") == "type-kind");
  CHECK(kind_of("Q5=d") == "type-kind");
  CHECK(kind_of("D2=q") == "type-kind");
  CHECK(kind_of("D2=2 q") == "type-kind");
  CHECK(kind_of("D2=spreader d 1k 1k") == "type-kind");
  CHECK(kind_of("Q5=othr") == "unknown-type");
  CHECK(refused("Q5=othr").instead.find("`other`") != std::string::npos);
  CHECK(kind_of("Q9=other") == "unknown-part");
}

TEST_CASE("A stand-in takes the place of a bias part, not of a transistor or a resistor",
          "[language]") {
  CHECK(kind_of("Q5=2 1N99") == "fault-does-not-fit");
  CHECK(kind_of("Q5=spreader q 1k 1k") == "fault-does-not-fit");
  CHECK(kind_of("R1=other") == "fault-does-not-fit");
  CHECK(kind_of("R1=22R") == "fault-does-not-fit");
}

TEST_CASE("What says nothing of a part and its replacement is answered with the forms",
          "[language]") {
  for (const std::string text : {"",
                                 "Q5",
                                 "Q5=",
                                 "=other",
                                 "D2=3 1N99 22R",
                                 "D2=1N99 +",
                                 "D2=+ 22R",
                                 "D2=spreader q 1k",
                                 "D2=spreader 1k 1k",
                                 "D2=22R 1N99",
                                 "D2=1N99 + 22R + 22R"}) {
    CAPTURE(text);
    CHECK(kind_of(text) == "setting-unreadable");
  }
  CHECK(kind_of("D2=0 1N99") == "out-of-range");
  CHECK(kind_of("D2=99 1N99") == "out-of-range");
}

TEST_CASE("The types that a replacement names are known before the stage is read", "[language]") {
  CHECK(types_named_in("Q5=other") == std::vector<std::string>{"other"});
  CHECK(types_named_in("D2=3 1N99 + 22R") == std::vector<std::string>{"1N99"});
  CHECK(types_named_in("D2=spreader q 1k 1k") == std::vector<std::string>{"q"});
  CHECK(types_named_in("TH1=47R").empty());
  CHECK(types_named_in("Q5").empty());
}

}  // namespace idlepoint::language
