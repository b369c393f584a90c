// Oracle: an ideal complementary pair in closed form; the verdict's rules of docs/commands.md with
// demands worked by hand: rails of 20 V into 8 ohms ask 40 V and 2.5 A of each output.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "answers/asked.hpp"
#include "answers/shelf.hpp"
#include "answers/swap.hpp"
#include "language/replacement_text.hpp"

namespace idlepoint::tests {
namespace {

using answers::Verdict;

/// Every rating of a type, generous but for volts and amperes.
std::string sheet(double volts, double amps) {
  return fmt::format(
      "max_collector_emitter_voltage={0}V max_collector_current={1}A max_power=500W "
      "max_base_emitter_voltage=5V junction_to_case=0.25K/W "
      "safe_area=1V:400A,{0}V:100A transition_frequency=3M",
      volts,
      amps);
}

// 10 mA through two ideal diodes and the trimmer, on a sink that hardly warms; asked cold.
std::string pair(const std::string& other_types) {
  return "stage \"Pair\"\nrail vpos +20V resistance=0R\nrail vneg -20V resistance=0R\n"
         "feed I1 10mA from=vpos into=hi\nhold V1 lo gnd -0.62V\n"
         "diode D1 anode=hi cathode=x type=stack junctions=2\n"
         "trimmer VR1 x lo 100R at=20% spare=tied end_resistance=0R\n"
         "npn Q1 c=vpos b=hi e=e1 type=n on=HS\npnp Q2 c=vneg b=lo e=e2 type=p on=HS\n"
         "heatsink HS resistance=0.1K/W\n"
         "resistor R1 e1 out 0R22\nresistor R2 out e2 0R22\nresistor R3 out gnd 1M\n"
         "load LS1 out gnd 8R\nsignal output=out\n"
         "reading idle volts e1 e2\nadjust VR1 until idle reads 10mV within 1mV\n"
         "type diode stack saturation_current=10pA\n"
         "type npn n saturation_current=0.4pA gain=1M " +
         sheet(100.0, 10.0) + "\ntype pnp p saturation_current=0.4pA gain=1M " +
         sheet(100.0, 10.0) + "\n" + other_types;
}

std::string npn(const std::string& name, double saturation_pa, const std::string& ratings) {
  return fmt::format(
      "type npn {} saturation_current={}pA gain=1M {}\n", name, saturation_pa, ratings);
}

std::string pnp(const std::string& name, double saturation_pa, const std::string& ratings) {
  return fmt::format(
      "type pnp {} saturation_current={}pA gain=1M {}\n", name, saturation_pa, ratings);
}

auto asked(const answers::Setup& setup, const std::vector<std::string>& texts) {
  std::vector<answers::Replacement> replacements;
  for (const auto& text : texts) {
    replacements.push_back(required(language::read_replacement(text, *setup.stage)));
  }
  return answers::ask_swap(setup, replacements);
}

answers::Swap swapped(const std::string& types, const std::vector<std::string>& texts) {
  return settled(asked(drawn(pair(types)), texts));
}

double new_travel(const answers::Swap& swap) {
  const auto* preset = answers::preset_of(swap.after);
  REQUIRE(preset != nullptr);
  return preset->adjustments.at(0).travel;
}

double old_travel(const answers::Swap& swap) {
  const auto* preset = answers::preset_of(swap.before);
  REQUIRE(preset != nullptr);
  return preset->adjustments.at(0).travel;
}

}  // namespace

TEST_CASE("A part for one just like it changes nothing", "[answers][identity]") {
  const auto swap = swapped(npn("twin", 0.4, sheet(100.0, 10.0)), {"Q1=twin"});
  const auto& before = answers::readings_of(swap.before)->readings.at(0);
  const auto& after = answers::readings_of(swap.after)->readings.at(0);
  CHECK_THAT(after.value, WithinRel(before.value, 1e-9));
  CHECK_THAT(new_travel(swap), WithinAbs(old_travel(swap), 1e-9));
  CHECK(swap.verdict == Verdict::suitable);
  CHECK(swap.left_behind.size() == 1);  // the other half keeps its old part
}

TEST_CASE("A junction that needs less volts takes as many from the string at the new place",
          "[answers][analytic]") {
  // Three times the saturation current: U ln 3 less a junction, 10 mA through a track of 100R.
  const auto swap = swapped(npn("n3", 1.2, sheet(100.0, 10.0)) + pnp("p3", 1.2, sheet(100.0, 10.0)),
                            {"Q1=n3", "Q2=p3"});
  const double less_v = 2.0 * room_thermal_v * std::log(3.0);
  CHECK_THAT(old_travel(swap) - new_travel(swap), WithinRel(less_v / (10e-3 * 100.0), 1e-3));
  for (const auto& one : swap.swaps) {
    REQUIRE(one.control.has_value());
    CHECK_THAT(one.control->before_v - one.control->after_v,
               WithinRel(room_thermal_v * std::log(3.0), 1e-4));
  }
  CHECK(swap.verdict == Verdict::suitable);
  CHECK(swap.left_behind.empty());
}

TEST_CASE("A rating with a fifth in hand is suitable, one kept is with care, one broken is not",
          "[answers][analytic]") {
  // 40 V asked: 51 V leaves 22 %, 45 V leaves 11 %, 39 V breaks.
  struct Case {
    double volts;
    Verdict verdict;
  };
  for (const Case& one : {Case{51.0, Verdict::suitable},
                          Case{45.0, Verdict::with_care},
                          Case{39.0, Verdict::unsuitable}}) {
    CAPTURE(one.volts);
    CHECK(swapped(npn("other", 0.4, sheet(one.volts, 10.0)), {"Q1=other"}).verdict == one.verdict);
  }
  // 2.5 A and the idle asked.
  for (const Case& one : {Case{3.3, Verdict::suitable},
                          Case{2.8, Verdict::with_care},
                          Case{2.4, Verdict::unsuitable}}) {
    CAPTURE(one.volts);
    CHECK(swapped(npn("other", 0.4, sheet(100.0, one.volts)), {"Q1=other"}).verdict == one.verdict);
  }
}

TEST_CASE("A rating that the sheet does not give allows no more than care", "[answers][analytic]") {
  const std::string no_current =
      "max_collector_emitter_voltage=100V max_power=500W max_base_emitter_voltage=5V "
      "junction_to_case=0.25K/W safe_area=1V:400A,100V:100A";
  const auto swap = swapped(npn("other", 0.4, no_current), {"Q1=other"});
  CHECK(swap.verdict == Verdict::with_care);
  const auto found = std::find_if(swap.ratings.begin(), swap.ratings.end(), [](const auto& check) {
    return check.rating == answers::Rating::current;
  });
  REQUIRE(found != swap.ratings.end());
  CHECK_FALSE(found->ok.has_value());
  CHECK_FALSE(found->limit.has_value());
}

TEST_CASE("A target out of reach is unsuitable", "[answers][analytic]") {
  // A thousandth of the saturation current wants 2 U ln 1000 more of the string: 355 mV, 35R of
  // track. VR1 of 100R has that; for a further factor of a million it would want 71R more.
  const auto near_by =
      swapped(npn("m", 0.4e-3, sheet(100.0, 10.0)) + pnp("q", 0.4e-3, sheet(100.0, 10.0)),
              {"Q1=m", "Q2=q"});
  CHECK(near_by.verdict == Verdict::suitable);
  const auto far =
      swapped(npn("m", 0.4e-9, sheet(100.0, 10.0)) + pnp("q", 0.4e-9, sheet(100.0, 10.0)),
              {"Q1=m", "Q2=q"});
  CHECK(far.verdict == Verdict::unsuitable);
  CHECK_FALSE(answers::preset_of(far.after)->adjustments.at(0).reached);
}

TEST_CASE("A zener is replaced by one of its own volts, and by no other diode", "[answers]") {
  CHECK(answers::allowed_by(answers::ZenerStep{12.0, 12.3}) == Verdict::suitable);
  CHECK(answers::allowed_by(answers::ZenerStep{12.0, 13.0}) == Verdict::with_care);
  CHECK(answers::allowed_by(answers::ZenerStep{12.0, 9.1}) == Verdict::unsuitable);
  CHECK(answers::allowed_by(answers::ZenerStep{12.0, std::nullopt}) == Verdict::unsuitable);
  CHECK(answers::allowed_by(answers::ZenerStep{std::nullopt, 12.0}) == Verdict::unsuitable);
  const auto setup = drawn(
      "stage \"Clamp\"\nrail vcc 20V\nresistor R1 vcc x 1k\ndiode D1 anode=gnd cathode=x type=z\n"
      "reading held volts x gnd\n"
      "type diode z saturation_current=1fA zener_voltage=12V zener_test_current=5mA\n"
      "type diode plain saturation_current=1fA\n");
  CHECK(settled(asked(setup, {"D1=plain"})).verdict == Verdict::unsuitable);
}

TEST_CASE("A trimmer that finishes within a twentieth of an end is with care", "[answers]") {
  CHECK(answers::is_at_an_end(0.04));
  CHECK(answers::is_at_an_end(0.96));
  CHECK_FALSE(answers::is_at_an_end(0.06));
  CHECK_FALSE(answers::is_at_an_end(0.5));
}

TEST_CASE("What is there already, and what is taken out, is not replaced", "[answers]") {
  const auto same = asked(drawn(pair("")), {"Q1=n"});
  REQUIRE(std::holds_alternative<std::string>(same));
  CHECK(std::get<std::string>(same) == "Q1 is of the type n already");
  const auto absent =
      asked(with_fault(drawn(pair(npn("m", 0.4, sheet(100.0, 10.0)))), "Q1 absent"), {"Q1=m"});
  REQUIRE(std::holds_alternative<std::string>(absent));
}

TEST_CASE("One part cannot be replaced twice", "[answers]") {
  const auto outcome = asked(drawn(pair(npn("m", 0.4, sheet(100.0, 10.0)))), {"Q1=m", "Q1=n"});
  const auto* why = std::get_if<std::string>(&outcome);
  REQUIRE(why != nullptr);
  CHECK(*why == "Q1 is replaced twice");
}

TEST_CASE("A shelf is listed with what would do first, and why the others would not",
          "[answers][analytic]") {
  auto setup =
      drawn(pair(npn("weak", 0.4, sheet(39.0, 10.0)) + npn("close", 0.4, sheet(45.0, 10.0)) +
                 npn("strong", 0.4, sheet(100.0, 10.0))));
  const auto part = *circuit::find_part(*setup.stage, "Q1");
  const auto shelf = answers::ask_shelf(setup, part, [](double) { return true; });
  REQUIRE(shelf.candidates.size() == 3);  // its own type is not tried
  const auto name = [&](std::size_t index) {
    return setup.stage->at(shelf.candidates.at(index).type).name;
  };
  CHECK(name(0) == "strong");
  CHECK(name(1) == "close");
  CHECK(name(2) == "weak");
  CHECK(shelf.candidates[0].verdict == Verdict::suitable);
  CHECK(shelf.candidates[1].verdict == Verdict::with_care);
  CHECK(shelf.candidates[2].verdict == Verdict::unsuitable);
  REQUIRE(shelf.candidates[2].deciding.has_value());
  CHECK(shelf.candidates[2].deciding->rating == answers::Rating::voltage);
}

}  // namespace idlepoint::tests
