// Oracle: what is common to all writers on such stages: compound pairs are flattest at far less
// than followers [Oliver1971 is made for followers alone]; a transformer passes no DC. Refusals
// name the way out.
#include <string>

#include "crossover/ideal_pair.hpp"

namespace idlepoint::tests {
namespace {

using Catch::Contains;

std::string refusal_of(const answers::Setup& setup) {
  const auto answer = crossover_of(setup);
  CHECK(answer.settings.empty());
  CHECK_FALSE(answers::is_good(answer));
  return answer.refused.value_or("not refused");
}

answers::Setup edited(answers::Setup setup, void (*change)(circuit::Circuit&)) {
  setup.stage = setup.stage.edited(change);
  return setup;
}

}  // namespace

TEST_CASE("A compound stage is flattest at far less than followers are", "[crossover][published]") {
  const auto followers = crossover_of(demo("spinney-45w.stage", when_warm));
  const auto compound = crossover_of(demo("drystone-40w.stage", when_warm));
  CHECK(flattest(compound).reading < 0.5 * flattest(followers).reading);
  CHECK(followers.published);
  CHECK_FALSE(compound.published);
  CHECK_THAT(compound.why_not_published, Contains("collector of Q207"));
}

TEST_CASE("A crossover table rises from too little to too much", "[crossover][identity]") {
  const auto answer = crossover_of(demo("spinney-45w.stage", when_warm));
  REQUIRE(answer.settings.size() > 5);
  for (std::size_t k = 1; k < answer.settings.size(); ++k) {
    const auto& before = answer.settings[k - 1];
    const auto& here = answer.settings[k];
    CHECK(here.reading > before.reading);
    CHECK(here.state.total_power_w() > before.state.total_power_w());
    CHECK(here.curve.ripple() >= flattest(answer).curve.ripple());
  }
}

TEST_CASE("The published rule says nothing of field-effect transistors", "[crossover]") {
  const auto answer = crossover_of(demo("tarn-70w.stage", when_warm));
  CHECK_FALSE(answer.published);
  CHECK_FALSE(answer.why_not_published.empty());
}

TEST_CASE("No crossover is swept through a driver transformer", "[crossover]") {
  CHECK_THAT(refusal_of(demo("bramble-8w.stage")), Contains("driver transformer"));
}

TEST_CASE("A stage that does not say where it is driven is told how to", "[crossover]") {
  const auto setup = edited(demo("sedge-28w.stage"),
                            [](circuit::Circuit& circuit) { circuit.signal.drive.reset(); });
  CHECK_THAT(refusal_of(setup), Contains("`signal drive=NODE`"));
}

TEST_CASE("A stage without a loudspeaker is told how to write one", "[crossover]") {
  const auto setup = edited(demo("sedge-28w.stage"), [](circuit::Circuit& circuit) {
    for (auto& part : circuit.parts) {
      if (part.kind == circuit::PartKind::load) part.damage.absent = true;
    }
  });
  CHECK_THAT(refusal_of(setup), Contains("load LS1 out gnd 8R"));
}

TEST_CASE("No standing current is judged on low rails", "[crossover]") {
  CHECK_THAT(refusal_of(demo("sedge-28w.stage", {.rails = 0.5})), Contains("95 %"));
}

}  // namespace idlepoint::tests
