// Oracle: which resistors a meter lies across, read off the drawing by eye.
#include "answers/asked.hpp"
#include "answers/emitter_resistors.hpp"

namespace idlepoint::tests {
namespace {

using answers::resistors_read;
using answers::ResistorsRead;

std::optional<ResistorsRead> between(const answers::Setup& setup,
                                     const std::string& a,
                                     const std::string& b) {
  return resistors_read(
      *setup.stage, {*circuit::find_node(*setup.stage, a), *circuit::find_node(*setup.stage, b)});
}

std::string name(const answers::Setup& setup, std::optional<circuit::PartId> part) {
  return part ? setup.stage->at(*part).name : "none";
}

const std::string pair_types = R"(type npn power-npn saturation_current=10pA gain=60
type pnp power-pnp saturation_current=10pA gain=60
)";

// Two transistors in parallel in each half, four resistors that meet at the output.
const std::string parallel_pairs = R"(stage "Parallel pairs"
rail     vpos 30V
rail     vneg -30V
hold     V1 hi gnd 0.6V
hold     V2 lo gnd -0.6V
npn      Q1 c=vpos b=hi e=e1 type=power-npn
npn      Q2 c=vpos b=hi e=e2 type=power-npn
pnp      Q3 c=vneg b=lo e=e3 type=power-pnp
pnp      Q4 c=vneg b=lo e=e4 type=power-pnp
resistor R1 e1 out 0R33
resistor R2 e2 out 0R33
resistor R3 out e3 0R33
resistor R4 out e4 0R33
)" + pair_types;

// The lower npn hangs from the output by its collector; its resistor sits in the rail lead.
const std::string quasi = R"(stage "Quasi"
rail     vpos 30V
rail     vneg -30V
hold     V1 hi gnd 0.6V
hold     V2 lo vneg 0.6V
npn      Q1 c=vpos b=hi e=e1 type=power-npn
npn      Q2 c=out b=lo e=e2 type=power-npn
resistor R1 e1 out 0R47
resistor R2 e2 vneg 0R47
resistor R3 out gnd 1k
)" + pair_types;

}  // namespace

TEST_CASE("From emitter to emitter a meter lies across both resistors", "[answers][identity]") {
  const auto setup = drawn(practice_stage());
  const auto both = between(setup, "e_hi", "e_lo");
  REQUIRE(both.has_value());
  CHECK(name(setup, both->first) == "R11");
  CHECK(name(setup, both->second) == "R12");
  const auto turned = between(setup, "e_lo", "e_hi");
  REQUIRE(turned.has_value());
  CHECK(name(setup, turned->first) == "R12");
}

TEST_CASE("From emitter to output a meter lies across one, and the other shares its joint",
          "[answers][identity]") {
  const auto setup = drawn(practice_stage());
  const auto one = between(setup, "e_hi", "out");
  REQUIRE(one.has_value());
  CHECK(name(setup, one->first) == "R11");
  CHECK_FALSE(one->second.has_value());
  CHECK(name(setup, one->opposite) == "R12");
  CHECK(one->shares_joint);
}

TEST_CASE("In a quasi-complementary stage the two resistors share no joint",
          "[answers][identity]") {
  const auto setup = drawn(quasi);
  const auto one = between(setup, "e1", "out");
  REQUIRE(one.has_value());
  CHECK(name(setup, one->opposite) == "R2");
  CHECK_FALSE(one->shares_joint);
  CHECK_FALSE(between(setup, "e1", "e2").has_value());
}

TEST_CASE("With parallel pairs one resistor has no single opposite", "[answers][identity]") {
  const auto setup = drawn(parallel_pairs);
  const auto one = between(setup, "e1", "out");
  REQUIRE(one.has_value());
  CHECK(one->is_emitter_resistor);
  CHECK_FALSE(one->opposite.has_value());
  const auto both = between(setup, "e2", "e4");
  REQUIRE(both.has_value());
  CHECK(name(setup, both->first) == "R2");
  CHECK(name(setup, both->second) == "R4");
}

TEST_CASE("A resistor far from an emitter is no emitter resistor", "[answers][identity]") {
  const auto setup = drawn(practice_stage());
  const auto string = between(setup, "b_hi", "t");
  REQUIRE(string.has_value());
  CHECK_FALSE(string->is_emitter_resistor);
  CHECK_FALSE(between(setup, "b_hi", "b_lo").has_value());
  CHECK_FALSE(between(setup, "out", "out").has_value());
}

TEST_CASE("A resistor that was taken out is not read across", "[answers][identity]") {
  const auto setup = with_fault(drawn(practice_stage()), "R12 open");
  CHECK_FALSE(between(setup, "e_hi", "e_lo").has_value());
}

}  // namespace idlepoint::tests
