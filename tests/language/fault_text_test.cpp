// Oracle: docs/language.md, "Faults, as written on a command line".
#include "language/fault_text.hpp"

#include <catch2/catch.hpp>

#include "complaints/render.hpp"
#include "language/reading.hpp"
#include "language/replacement_text.hpp"

namespace idlepoint::language {
namespace {

circuit::Circuit stage_to_break() {
  return sound(
      "rail vpos +28V\nresistor R12 vpos t 1k\ntrimmer VR2 t x gnd 1k\nresistor R9 x gnd 1k\n"
      "capacitor C3 t gnd 10u\nfuse F1 vpos f 2A\nresistor R1 f gnd 1k\n"
      "diode D2 anode=x cathode=gnd type=d on=HS1\nnpn Q5 c=vpos b=t e=gnd type=q on=HS1\n"
      "n-mosfet Q6 d=vpos g=t s=gnd type=m\nfeed I1 1mA from=vpos into=x\nload LS1 t gnd 8R\n"
      "heatsink HS1 resistance=2K/W\ntype npn q saturation_current=1fA gain=9\n"
      "type npn other saturation_current=1fA gain=9\ntype pnp p saturation_current=1fA gain=9\n"
      "type diode d saturation_current=1fA\n"
      "type n-mosfet m threshold_voltage=3V current_factor=1A/V2\n");
}

template <class Read>
std::string kind_and_column(Read read, const std::string& text) {
  const circuit::Circuit circuit = stage_to_break();
  const auto result = read(text, circuit);
  if (result) return "read";
  const complaints::Complaint& first = result.complaints().at(0);
  CHECK(first.places.at(0).file == "command line");
  CHECK(first.places.at(0).line == 0);
  return std::string(complaints::facts(first.kind).name) + "@" +
         std::to_string(first.places.at(0).column);
}

std::string fault_kind(const std::string& text) { return kind_and_column(read_fault, text); }

}  // namespace

TEST_CASE("Every form of a fault reads, and writes back as the guide writes it",
          "[language][identity]") {
  const circuit::Circuit circuit = stage_to_break();
  const std::pair<const char*, const char*> faults[] = {{"R12 open", "R12 open"},
                                                        {"R12 short", "R12 short"},
                                                        {"R12 is 2k2", "R12 is 2k2"},
                                                        {"VR2 wiper open", "VR2 wiper open"},
                                                        {"VR2 open wiper", "VR2 wiper open"},
                                                        {"VR2 open a", "VR2 open a"},
                                                        {"VR2 open b", "VR2 open b"},
                                                        {"VR2 at 80%", "VR2 at 80%"},
                                                        {"VR2 open", "VR2 open"},
                                                        {"C3 leaks 100k", "C3 leaks 100k"},
                                                        {"C3 short", "C3 short"},
                                                        {"C3 is 4u7", "C3 is 4.7uF"},
                                                        {"D2 open", "D2 open"},
                                                        {"D2 short", "D2 short"},
                                                        {"D2 reversed", "D2 reversed"},
                                                        {"D2 leaks 10k", "D2 leaks 10k"},
                                                        {"Q5 open", "Q5 open"},
                                                        {"Q5 short c-e", "Q5 short c-e"},
                                                        {"Q5 short e-b", "Q5 short b-e"},
                                                        {"Q5 open b", "Q5 open b"},
                                                        {"Q5 gain 30", "Q5 gain 30"},
                                                        {"Q5 leaks c-e 10k", "Q5 leaks c-e 10k"},
                                                        {"Q5 swapped c-b", "Q5 swapped c-b"},
                                                        {"Q5 absent", "Q5 open"},
                                                        {"Q5 loose", "Q5 loose"},
                                                        {"Q6 short d-g", "Q6 short d-g"},
                                                        {"Q6 open g", "Q6 open g"},
                                                        {"bridge t x", "bridge t x"},
                                                        {"bridge Q5.c gnd", "bridge vpos gnd"},
                                                        {"rail vpos lost", "rail vpos lost"},
                                                        {"  R12   open ", "R12 open"}};
  for (const auto& [text, written] : faults) {
    CAPTURE(text);
    const auto edit = read_fault(text, circuit);
    if (!edit) FAIL(complaints::render(edit.complaints()));
    CHECK(circuit::write_fault(circuit, *edit) == written);
  }
}

TEST_CASE("A fault that does not fit the part's kind is refused", "[language][identity]") {
  CHECK(fault_kind("R12 gain 30") == "fault-does-not-fit@5");
  CHECK(fault_kind("Q6 gain 30") == "fault-does-not-fit@4");
  CHECK(fault_kind("R12 wiper open") == "fault-does-not-fit@5");
  CHECK(fault_kind("R12 at 50%") == "fault-does-not-fit@5");
  CHECK(fault_kind("R12 leaks 10k") == "fault-does-not-fit@5");
  CHECK(fault_kind("Q5 reversed") == "fault-does-not-fit@4");
  CHECK(fault_kind("D2 swapped anode-cathode") == "fault-does-not-fit@4");
  CHECK(fault_kind("Q5 is 3") == "fault-does-not-fit@4");
  CHECK(fault_kind("Q6 loose") == "fault-does-not-fit@4");
  CHECK(fault_kind("bridge t t") == "fault-does-not-fit@10");
  CHECK(fault_kind("rail t lost") == "fault-does-not-fit@6");
}

TEST_CASE("What cannot be read is answered at its column", "[language][identity]") {
  CHECK(fault_kind("") == "fault-unreadable@1");
  CHECK(fault_kind("Q5") == "fault-unreadable@1");
  CHECK(fault_kind("Q5 shrt c-e") == "fault-unreadable@4");
  CHECK(fault_kind("Q5 short") == "fault-unreadable@4");
  CHECK(fault_kind("Q5 short c") == "fault-unreadable@10");
  CHECK(fault_kind("Q5 short c-c") == "fault-unreadable@10");
  CHECK(fault_kind("Q5 short c-k") == "unknown-lead@10");
  CHECK(fault_kind("Q5 open k") == "unknown-lead@9");
  CHECK(fault_kind("R99 open") == "unknown-part@1");
  CHECK(fault_kind("HS1 open") == "unknown-part@1");
  CHECK(fault_kind("bridge t nowhere") == "unknown-node@10");
  CHECK(fault_kind("R12 is 2,2k") == "decimal-comma@8");
  CHECK(fault_kind("R12 is -2") == "out-of-range@8");
  CHECK(fault_kind("R12 is ?") == "value-unreadable@8");
  CHECK(fault_kind("VR2 at 0.8") == "percent-sign@8");
  CHECK(fault_kind("rail vpos") == "fault-unreadable@6");
  CHECK(fault_kind("R12 open wide now") == "fault-unreadable@15");
  CHECK(fault_kind("R\xff open") == "unknown-part@1");
  CHECK(fault_kind(std::string("R12\0open", 8)) == "unknown-part@1");
}

TEST_CASE("Settings, substitutions, removals and probes", "[language][identity]") {
  const circuit::Circuit circuit = stage_to_break();
  const auto setting = read_setting("VR2=40%", circuit);
  REQUIRE(setting);
  CHECK(std::get<circuit::SetTravel>(*setting).travel == 0.4);
  const auto substitution = read_substitution("Q5=other", circuit);
  REQUIRE(substitution);
  CHECK(circuit.at(std::get<circuit::SetType>(*substitution).type).name == "other");
  const auto removal = read_removal("Q5", circuit);
  REQUIRE(removal);
  CHECK(circuit.at(std::get<circuit::OpenPart>(*removal).part).name == "Q5");
  for (const char* probe : {"volts t gnd", "amps R12", "amps vpos", "watts Q5", "celsius HS1"}) {
    const auto read = read_probe(probe, circuit);
    REQUIRE(read);
    CHECK(circuit::write_probe(circuit, *read) == probe);
  }
  CHECK(kind_and_column(read_setting, "VR2=0.4") == "percent-sign@5");
  CHECK(kind_and_column(read_setting, "VR2 40%") == "setting-unreadable@1");
  CHECK(kind_and_column(read_setting, "VR2=") == "setting-unreadable@1");
  CHECK(kind_and_column(read_setting, "R12=40%") == "fault-does-not-fit@1");
  CHECK(kind_and_column(read_setting, "VR2=140%") == "out-of-range@5");
  CHECK(kind_and_column(read_substitution, "Q5=p") == "type-kind@4");
  CHECK(kind_and_column(read_substitution, "Q5=othr") == "unknown-type@4");
  CHECK(kind_and_column(read_substitution, "R12=other") == "fault-does-not-fit@1");
  CHECK(kind_and_column(read_removal, "Q5 Q6") == "setting-unreadable@1");
  CHECK(kind_and_column(read_removal, "Q9") == "unknown-part@1");
  CHECK(kind_and_column(read_probe, "volts t") == "missing-word@7");
  CHECK(kind_and_column(read_probe, "") == "choice-expected@1");
  CHECK(kind_and_column(read_probe, "amps VR2") == "not-for-this-part@6");
}

TEST_CASE("A type wanted on the command line is fetched from the shelf, or asked for",
          "[language][identity]") {
  ReadOptions options = in_memory({});
  options.wanted_types = {"nobody"};
  const auto read = read_stage(around(""), "test.stage", options);
  REQUIRE_FALSE(read.has_value());
  CHECK(read.complaints().at(0).places.at(0).file == "command line");
}

}  // namespace idlepoint::language
