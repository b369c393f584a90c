// Oracle: the rules of docs/commands.md asked of every fault solved anew; what the trade knows of
// lifted wipers and bias strings (common practice, no source).
#include <algorithm>

#include "answers/asked.hpp"
#include "answers/hazards.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::tests {
namespace {

using answers::HazardEffect;

answers::Hazards hazards_of(const std::string& stage) {
  auto outcome = answers::ask_hazards(demo(stage), [](double) { return true; });
  REQUIRE(std::holds_alternative<answers::Hazards>(outcome));
  return std::get<answers::Hazards>(std::move(outcome));
}

const answers::Hazard* find(const answers::Hazards& hazards, const std::string& fault) {
  const auto found = std::find_if(hazards.critical.begin(),
                                  hazards.critical.end(),
                                  [&](const auto& hazard) { return hazard.fault == fault; });
  return found == hazards.critical.end() ? nullptr : &*found;
}

bool is_hard_on(const answers::Hazards& hazards, const std::string& fault) {
  const auto* hazard = find(hazards, fault);
  return hazard != nullptr && hazard->effect == HazardEffect::hard_on;
}

}  // namespace

TEST_CASE("Every hazard is what the rules say of the fault solved anew", "[answers][identity]") {
  const auto setup = demo("wherry-25w.stage");
  const auto hazards = hazards_of("wherry-25w.stage");
  CHECK(hazards.tried == answers::faults_to_try(*setup.stage).size());
  CHECK(hazards.harmless + hazards.critical.size() == hazards.tried);
  const double sound_w =
      std::get<solve::OperatingPoint>(solve::solve_cold(setup.stage)).total_power_w();
  for (const auto& hazard : hazards.critical) {
    CAPTURE(hazard.fault);
    const auto faulty = with_fault(demo("wherry-25w.stage"), hazard.fault);
    const auto outcome = solve::solve_cold(faulty.stage);
    const auto* state = std::get_if<solve::OperatingPoint>(&outcome);
    REQUIRE((state != nullptr) == hazard.finds_state);
    if (state == nullptr) continue;
    CHECK_THAT(*hazard.total_power_w, WithinRel(state->total_power_w(), 1e-6));
    const bool is_hot = state->total_power_w() > 1.5 * sound_w;
    CHECK((hazard.effect == HazardEffect::hard_on) == is_hot);
    if (hazard.effect == HazardEffect::output_at_rail) {
      // One supply of 60 V or so: at a rail is within a tenth of it from 0 or from the top.
      const double top_v = setup.stage->rails.at(0).nominal_v;
      CHECK((*hazard.output_v < 0.1 * top_v || *hazard.output_v > 0.9 * top_v));
    }
    if (hazard.effect == HazardEffect::over_stressed) CHECK_FALSE(hazard.parts_at_risk.empty());
  }
}

TEST_CASE("The worst comes first: hard on before output at a rail, more watts before less",
          "[answers][identity]") {
  const auto hazards = hazards_of("quarry-30w.stage");
  for (std::size_t index = 1; index < hazards.critical.size(); ++index) {
    const auto& before = hazards.critical[index - 1];
    const auto& after = hazards.critical[index];
    CHECK(before.effect <= after.effect);
    if (before.effect == after.effect && before.total_power_w && after.total_power_w) {
      CHECK(*before.total_power_w >= *after.total_power_w);
    }
  }
}

// Common practice, no source: a string that opens leaves nothing to hold the halves apart.
TEST_CASE("An open bias string turns a stage with a preset in series hard on", "[answers]") {
  const auto quarry = hazards_of("quarry-30w.stage");
  CHECK(is_hard_on(quarry, "D601 open"));
  CHECK(is_hard_on(quarry, "VR602 wiper open"));
  CHECK_FALSE(is_hard_on(quarry, "D601 short"));
  const auto sedge = hazards_of("sedge-28w.stage");
  CHECK(is_hard_on(sedge, "D901 open"));
  CHECK_FALSE(is_hard_on(sedge, "D901 short"));
}

// Common practice, no source: a spreader whose preset sits in its lower leg fails cold.
TEST_CASE("A transistor spreader is hard on when open and safe when shorted or its wiper lifts",
          "[answers]") {
  const auto spinney = hazards_of("spinney-45w.stage");
  CHECK(is_hard_on(spinney, "Q604 open"));
  CHECK_FALSE(is_hard_on(spinney, "Q604 short c-e"));
  CHECK_FALSE(is_hard_on(spinney, "VR601 wiper open"));
}

TEST_CASE("A band of a hazard holds the value of the stage as drawn", "[answers][identity]") {
  const auto hazards = hazards_of("sedge-28w.stage");
  REQUIRE_FALSE(hazards.critical.empty());
  std::size_t with_band = 0;
  for (const auto& hazard : hazards.critical) {
    if (!hazard.power_band) continue;
    CAPTURE(hazard.fault);
    ++with_band;
    CHECK(hazard.power_band->low <= *hazard.total_power_w * 1.02);
    CHECK(hazard.power_band->high >= *hazard.total_power_w * 0.98);
  }
  CHECK(with_band > 0);
}

}  // namespace idlepoint::tests
