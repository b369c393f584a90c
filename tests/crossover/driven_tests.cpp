// Oracle: what the words of the drive say must hold as identities: driven to where it stands
// anyway, nothing moves; a large capacitor keeps its charge; power given is power taken.
#include <cmath>
#include <string>

#include "answers/asked.hpp"
#include "answers/driven_stage.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::tests {
namespace {

struct Moved {
  solve::OperatingPoint rest;
  answers::DrivenStage driven;
  solve::OperatingPoint state;
};

Moved moved(const std::string& name, double by_v, bool with_load) {
  const auto setup = demo(name);
  auto rest = settled(solve::solve_cold(setup.stage));
  auto driven = answers::drive_by_hand(setup.stage, rest);
  driven.stage = driven.stage.edited([&](circuit::Circuit& circuit) {
    circuit.at(driven.source).value += by_v / answers::drive_source_ohm;
  });
  auto state = settled(solve::solve_cold(driven.stage, {.load_connected = with_load}));
  return {std::move(rest), std::move(driven), std::move(state)};
}

double volts_at(const Moved& at, const solve::OperatingPoint& state, const std::string& node) {
  return state.voltage_v(circuit::find_node(*at.driven.stage, node).value());
}

double worst_move_v(const Moved& at) {
  double worst = 0.0;
  const auto& nodes = at.driven.stage->nodes;
  for (std::size_t index = 0; index < nodes.size(); ++index) {
    if (nodes[index].name.find(' ') != std::string::npos) continue;  // the drive's own
    const circuit::NodeId node{index};
    worst = std::max(worst, std::abs(at.state.voltage_v(node) - at.rest.voltage_v(node)));
  }
  return worst;
}

}  // namespace

TEST_CASE("A stage driven to where it stands anyway does not move", "[crossover][identity]") {
  const std::string name =
      GENERATE("quarry-30w.stage", "sedge-28w.stage", "tarn-70w.stage", "corrie-70w.stage");
  CAPTURE(name);
  CHECK(worst_move_v(moved(name, 0.0, false)) < 1e-5);  // 0.1 pA through the gain of a whole loop
}

TEST_CASE("A bootstrap and an output capacitor keep their volts while the stage is driven",
          "[crossover][identity]") {
  const auto at = moved("wherry-25w.stage", 5.0, true);
  for (const auto& [one, other] : {std::pair("bs", "joint"), std::pair("joint", "spk")}) {
    CAPTURE(one, other);
    const double before_v = volts_at(at, at.rest, one) - volts_at(at, at.rest, other);
    const double after_v = volts_at(at, at.state, one) - volts_at(at, at.state, other);
    CHECK_THAT(after_v, WithinAbs(before_v, 2e-3));  // a milliohm carries the load's current
  }
  CHECK(volts_at(at, at.state, "spk") > 4.0);
}

TEST_CASE("The feedback finds the output at rest while the stage is driven",
          "[crossover][identity]") {
  const auto at = moved("quarry-30w.stage", 5.0, true);
  CHECK(volts_at(at, at.state, "out") - volts_at(at, at.rest, "out") > 4.0);
  // What the sagging rail does to the pair is all that is left.
  CHECK(std::abs(volts_at(at, at.state, "fb") - volts_at(at, at.rest, "fb")) < 5e-3);
}

TEST_CASE("A driven stage gives off what its rails and its drive put in", "[crossover][identity]") {
  const auto at = moved("corrie-70w.stage", 8.0, true);
  double taken_w = 0.0;
  for (std::size_t index = 0; index < at.driven.stage->parts.size(); ++index) {
    taken_w += at.state.part(circuit::PartId{index}).power_w;
  }
  double given_w = 0.0;
  for (std::size_t index = 0; index < at.driven.stage->rails.size(); ++index) {
    const auto& rail = at.state.rail(circuit::RailId{index});
    given_w += rail.voltage_v * rail.delivered_a;
  }
  CHECK(given_w > 20.0);  // an ampere from 42 V
  CHECK_THAT(taken_w, WithinRel(given_w, 1e-6));
}

}  // namespace idlepoint::tests
