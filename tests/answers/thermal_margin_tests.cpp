// Oracle: one transistor's heat balance in closed form (hot_follower.hpp): the room in which it
// turns, and the junction there; further, plain warm solves on either side of an edge.
#include "answers/asked.hpp"
#include "answers/hot_follower.hpp"
#include "answers/thermal_margin.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::tests {
namespace {

answers::ThermalMargin margin_of(const answers::Setup& setup) {
  const auto answer = readings_of(setup);
  REQUIRE(answer.thermal.has_value());
  return *answer.thermal;
}

bool is_trouble(const circuit::CheckedCircuit& stage,
                const solve::Conditions& conditions,
                solve::ThermalTrouble::Kind kind) {
  const auto outcome = solve::solve_stage(stage, conditions);
  const auto* trouble = std::get_if<solve::ThermalTrouble>(&outcome);
  return trouble != nullptr && trouble->kind == kind;
}

bool rests(const circuit::CheckedCircuit& stage, const solve::Conditions& conditions) {
  return std::holds_alternative<solve::OperatingPoint>(solve::solve_stage(stage, conditions));
}

}  // namespace

TEST_CASE("A transistor's loop gain reaches one in the room where its heat balance turns",
          "[answers][analytic]") {
  const HotFollower follower{.k_per_w = GENERATE(4.0, 6.0)};
  const auto margin = margin_of(drawn(follower.stage(), when_warm));
  const auto [room_k, junction_k] = follower.hottest_room_k();
  REQUIRE(room_k > 299.0);
  REQUIRE(room_k < answers::hottest_room_tried_k);
  CAPTURE(junction_k, room_k, margin.loop_gain);
  REQUIRE(margin.ambient_k.reaches_one_at.has_value());
  CHECK_THAT(*margin.ambient_k.reaches_one_at, WithinAbs(room_k, 0.1));
  CHECK_FALSE(margin.ambient_k.too_hot_at.has_value());
}

TEST_CASE("A junction whose maximum is met before its heat balance turns is too hot there",
          "[answers][analytic]") {
  HotFollower follower{.k_per_w = 4.0};
  const double turns_at_k = follower.hottest_room_k().second;
  follower.maximum_k = turns_at_k - 10.0;
  // It rests at its maximum in the room that its heat leaves below that.
  const double room_k =
      follower.maximum_k - follower.k_per_w * follower.power_w(follower.maximum_k);
  const auto margin = margin_of(drawn(follower.stage(), when_warm));
  REQUIRE(margin.ambient_k.too_hot_at.has_value());
  CHECK_THAT(*margin.ambient_k.too_hot_at, WithinAbs(room_k, 0.1));
  CHECK(margin.ambient_k.first() == margin.ambient_k.too_hot_at);
  CHECK_THAT(*margin.ambient_k.reaches_one_at, WithinAbs(follower.hottest_room_k().first, 0.1));
}

TEST_CASE("A stage that nothing moves has no edge", "[answers][analytic]") {
  // A fixed current of 1 mA through a diode: its volts fall as it warms, and so does its heat.
  const auto margin = margin_of(drawn(R"(stage "Held current"
rail     vcc 10V resistance=0R
feed     I1 1mA from=vcc into=a compliance=none
diode    D1 anode=a cathode=gnd type=small
type diode small saturation_current=1fA junction_to_ambient=300K/W
)",
                                      when_warm));
  CHECK(margin.loop_gain == 0.0);
  CHECK_FALSE(margin.ambient_k.first().has_value());
  CHECK_FALSE(margin.rails.first().has_value());
}

TEST_CASE("A stage rests just before an edge and not just beyond it", "[answers][identity]") {
  const auto setup = drawn(practice_stage(), when_warm);
  const auto margin = margin_of(setup);
  CHECK_THAT(margin.loop_gain, WithinAbs(0.28, 0.02));

  REQUIRE(margin.trimmers.size() == 1);
  const auto& edge = margin.trimmers[0].towards_b;
  REQUIRE(edge.first().has_value());
  CHECK_FALSE(margin.trimmers[0].towards_a.first().has_value());
  const auto at = [&](double travel) {
    return setup.stage.edited([&](circuit::Circuit& circuit) {
      std::get<circuit::TrimmerDetails>(circuit.at(margin.trimmers[0].trimmer).details).travel =
          travel;
    });
  };
  CHECK(rests(at(*edge.first() - 2e-3), when_warm));
  CHECK_FALSE(rests(at(*edge.first() + 2e-3), when_warm));

  REQUIRE(margin.ambient_k.first().has_value());
  const auto in_room = [&](double room_k) {
    return setup.stage.edited([&](circuit::Circuit& circuit) { circuit.ambient_k = room_k; });
  };
  CHECK(rests(in_room(*margin.ambient_k.first() - 0.2), when_warm));
  CHECK_FALSE(rests(in_room(*margin.ambient_k.first() + 0.2), when_warm));
}

TEST_CASE("One transistor's remedy is the largest resistance at which its heat balance rests",
          "[answers][analytic]") {
  const HotFollower follower{.k_per_w = 40.0};
  const auto story = troubled(answers::ask_readings(drawn(follower.stage(), when_warm)));
  CHECK(story.trouble.kind == solve::ThermalTrouble::Kind::runaway);
  CHECK(story.stage->at(story.trouble.part).name == "Q1");
  REQUIRE(story.remedies.free_air_k_per_w.has_value());
  const double largest = follower.largest_k_per_w(298.15);
  CHECK(*story.remedies.free_air_k_per_w <= largest * 1.001);
  CHECK_THAT(*story.remedies.free_air_k_per_w, WithinRel(largest, 0.015));
  CHECK_FALSE(story.remedies.heatsink_k_per_w.has_value());
  CHECK(story.remedies.settings.empty());
  CHECK(is_trouble(story.stage, when_warm, solve::ThermalTrouble::Kind::runaway));
}

TEST_CASE("Every remedy of a stage on a heat sink holds it, and a tenth more does not",
          "[answers][identity]") {
  const auto setup = with_fault(drawn(practice_stage(), when_warm), "VR2 at 60%");
  const auto story = troubled(answers::ask_readings(setup));
  const auto& remedies = story.remedies;
  REQUIRE(remedies.heatsink_k_per_w.has_value());
  const auto with_sink = [&](double k_per_w) {
    return setup.stage.edited([&](circuit::Circuit& circuit) {
      circuit.heatsinks[story.trouble.heatsink->index].resistance_k_per_w = k_per_w;
    });
  };
  CHECK(rests(with_sink(*remedies.heatsink_k_per_w), when_warm));
  CHECK_FALSE(rests(with_sink(*remedies.heatsink_k_per_w * 1.1), when_warm));

  REQUIRE(remedies.settings.size() == 1);
  const auto at = [&](double travel) {
    return setup.stage.edited([&](circuit::Circuit& circuit) {
      std::get<circuit::TrimmerDetails>(circuit.at(remedies.settings[0].trimmer).details).travel =
          travel;
    });
  };
  CHECK(remedies.settings[0].travel < 0.6);
  CHECK(rests(at(remedies.settings[0].travel), when_warm));
  CHECK_FALSE(rests(at(remedies.settings[0].travel + 0.02), when_warm));
}

TEST_CASE("A sensor that feels too little is told how much would do", "[answers][identity]") {
  auto setup = demo("spinney-45w.stage", when_warm);
  const auto sensor = *circuit::find_part(*setup.stage, "Q604");
  const auto feeling = [&](double share) {
    return setup.stage.edited(
        [&](circuit::Circuit& circuit) { circuit.at(sensor).mounting.coupling = share; });
  };
  auto deaf = setup;
  deaf.stage = feeling(0.1);
  const auto story = troubled(answers::ask_readings(deaf));
  REQUIRE(story.remedies.coupling.has_value());
  CHECK(*story.remedies.coupling > 0.1);
  CHECK(rests(feeling(*story.remedies.coupling), when_warm));
  CHECK_FALSE(rests(feeling(*story.remedies.coupling - 0.03), when_warm));
}

TEST_CASE("A sensor off its heat sink is told to go back where that alone holds the stage",
          "[answers][identity]") {
  const auto setup = with_fault(demo("spinney-45w.stage", when_warm), "Q604 loose");
  const auto story = troubled(answers::ask_readings(setup));
  REQUIRE(story.remedies.put_back.size() == 1);
  CHECK(story.stage->at(story.remedies.put_back[0]).name == "Q604");
  CHECK(rests(demo("spinney-45w.stage").stage, when_warm));
}

}  // namespace idlepoint::tests
