// Oracle: one slip of the pen a case, put into a sound stage by hand; sound stages draw no warning
// (sound_stages_test.cpp).
#include <catch2/catch.hpp>

#include "circuit/drawing.hpp"
#include "circuit/topology.hpp"

namespace idlepoint::circuit {
namespace {

using Kinds = std::vector<std::string>;

Part& part_of(Drawing& drawing, std::string_view name) {
  return drawing.circuit.at(drawing.id(name));
}

}  // namespace

TEST_CASE("The lower output of a quasi stage drawn emitter to output is warned of",
          "[circuit][analytic]") {
  Drawing stage = quasi_complementary_stage();
  std::swap(part_of(stage, "Q8").leads[0], part_of(stage, "Q8").leads[2]);
  const auto complaint = only_complaint(stage);
  CHECK(complaint.kind == complaints::kind("upside-down"));
  CHECK(complaint.headline ==
        "Q8 is an NPN whose emitter sits at `out` and whose collector at `e8`");
  CHECK(complaint.instead.find("In a quasi-complementary stage the lower NPN hangs from the output "
                               "by its collector") == 0);
}

TEST_CASE("A pnp copied with emitter and collector exchanged is warned of", "[circuit][analytic]") {
  Drawing stage = complementary_stage();
  std::swap(part_of(stage, "Q5").leads[0], part_of(stage, "Q5").leads[2]);
  CHECK(only_complaint(stage).headline ==
        "Q5 is a PNP whose emitter sits at `vneg` and whose collector at `d_lo`");
}

TEST_CASE("A mosfet upside down is warned of, a junction FET works either way",
          "[circuit][analytic]") {
  Drawing bench;
  bench.rail("vp", 30.0).part("resistor", "R1", {"vp", "x"}, 1e3);
  bench.part("resistor", "R2", {"x", "gnd"}, 1e3);
  bench.part("n-jfet", "J1", {"x", "x", "vp"});
  CHECK(kinds_of(bench) == Kinds{"collector-on-base"});
  bench.part("n-mosfet", "M1", {"gnd", "x", "x"});
  part_of(bench, "M1").leads[2] = bench.node("y");
  bench.part("resistor", "R3", {"y", "vp"}, 1e3);
  CHECK(kinds_of(bench) == Kinds{"collector-on-base", "upside-down"});
}

TEST_CASE("A held point counts as a supply, whichever way round it is written",
          "[circuit][analytic]") {
  for (const bool from_ground : {false, true}) {
    Drawing bench;
    bench.part("hold", "V1", {"vp", "gnd"}, 15.0);
    if (from_ground) bench.part("hold", "V2", {"gnd", "vn"}, 15.0);
    if (!from_ground) bench.part("hold", "V2", {"vn", "gnd"}, -15.0);
    bench.part("resistor", "R1", {"vp", "b"}, 1e4).part("resistor", "R2", {"e", "vn"}, 1e3);
    bench.part("npn", "Q1", {"vp", "b", "e"});
    CHECK(kinds_of(bench).empty());
    part_of(bench, "Q1").leads = {bench.node("vn"), bench.node("b"), bench.node("e")};
    CHECK(kinds_of(bench) == Kinds{"upside-down"});
  }
}

TEST_CASE("A negative rail without its sign is one warning, not one a transistor",
          "[circuit][analytic]") {
  Drawing stage = complementary_stage();
  stage.circuit.rails[1].nominal_v = 28.0;
  const auto complaint = only_complaint(stage);
  CHECK(complaint.kind == complaints::kind("rails-of-one-sign"));
  CHECK(complaint.headline == "both rails are positive, and `vneg` is used as the negative one");
  CHECK(complaint.places.front().line == 2);
  CHECK(complaint.instead.find("Write `rail vneg -28V`") == 0);
}

TEST_CASE("A quasi stage shows its unsigned rail by the lower transistors' emitters",
          "[circuit][analytic]") {
  Drawing stage = quasi_complementary_stage();
  stage.circuit.rails[1].nominal_v = 32.0;
  CHECK(kinds_of(stage) == Kinds{"rails-of-one-sign"});
}

TEST_CASE("A rail that no part meets offers the point that was meant", "[circuit][analytic]") {
  Drawing stage = complementary_stage();
  stage.circuit.rails[1].node = stage.node("vnge");
  const auto complaints = check_topology(stage.circuit);
  REQUIRE_FALSE(complaints.empty());
  const auto& complaint = complaints.front();
  CHECK(complaint.kind == complaints::kind("unused-rail"));
  CHECK(complaint.places.front().remark == "no leg meets `vnge`. Nearest known: `vneg`");
}

TEST_CASE("An emitter resistor that lost its decimal point is unlike its sister",
          "[circuit][analytic]") {
  for (const double slipped_ohm : {22.0, 22e3}) {
    Drawing stage = complementary_stage();
    part_of(stage, "R12").value = slipped_ohm;
    CAPTURE(slipped_ohm);
    const auto complaint = only_complaint(stage);
    CHECK(complaint.kind == complaints::kind("emitter-resistor"));
    CHECK(complaint.headline.find("R12 is 22") == 0);
    CHECK(complaint.headline.find("where R11 is 0R22") != std::string::npos);
  }
}

TEST_CASE("In a quasi stage the lower resistor, in the rail lead, is judged too",
          "[circuit][analytic]") {
  Drawing stage = quasi_complementary_stage();
  part_of(stage, "R12").value = 47.0;
  CHECK(only_complaint(stage).headline == "R12 is 47R where R11 is 0R47");
}

TEST_CASE("Emitter resistors larger than the loudspeaker are doubted both", "[circuit][analytic]") {
  Drawing stage = compound_stage();
  part_of(stage, "R11").value = 220.0;
  part_of(stage, "R12").value = 220.0;
  CHECK(kinds_of(stage) == Kinds{"emitter-resistor", "emitter-resistor"});
  CHECK(check_topology(stage.circuit).front().headline ==
        "R11 is 220R, more than the loudspeaker's own 8R");
}

TEST_CASE("Two diodes of a string that meet anode to anode are warned of", "[circuit][analytic]") {
  Drawing stage = complementary_stage();
  std::swap(part_of(stage, "D2").leads[0], part_of(stage, "D2").leads[1]);
  const auto complaint = only_complaint(stage);
  CHECK(complaint.kind == complaints::kind("diodes-face-to-face"));
  CHECK(complaint.headline == "D1 and D2 meet cathode to cathode at `m`");
}

TEST_CASE("Values that no part of a stage has are doubted", "[circuit][analytic]") {
  struct Odd {
    std::string kind;
    double value;
    std::string said;
  };
  // 4m7 written for 4M7, 100 farads, a loudspeaker of 0.8 and of 8000 ohms, a 2000 A fuse.
  const std::vector<Odd> odd = {{"resistor", 0.0047, "P is a resistor of 0R0047"},
                                {"capacitor", 100.0, "P is a capacitor of 100 F"},
                                {"load", 0.8, "P is a load of 0R8"},
                                {"load", 8e3, "P is a load of 8k0"},
                                {"fuse", 2e3, "P is a fuse of 2 kA"},
                                {"feed", 30.0, "P is a feed of 30 A"}};
  for (const auto& [kind, value, said] : odd) {
    Drawing bench;
    bench.rail("vp", 30.0).part("resistor", "R1", {"vp", "x"}, 1e3);
    bench.part("resistor", "R2", {"x", "gnd"}, 1e3).part(kind, "P", {"vp", "x"}, value);
    const auto complaint = only_complaint(bench);
    CHECK(complaint.kind == complaints::kind("odd-value"));
    CHECK(complaint.headline == said);
    CHECK_FALSE(complaints::has_error({complaint}));
  }
}

TEST_CASE("An ideal feed is warned of", "[circuit][analytic]") {
  Drawing stage = complementary_stage();
  std::get<FeedDetails>(part_of(stage, "I1").details).compliance_v = std::nullopt;
  CHECK(only_complaint(stage).kind == complaints::kind("ideal-feed"));
}

}  // namespace idlepoint::circuit
