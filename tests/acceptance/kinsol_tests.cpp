// Whole amplifiers solved by SUNDIALS KINSOL from equations typed anew, beside our own answer.
//
// Only the values of the drawing are taken from the reader; laws and Kirchhoff's equations stand in
// kinsol_amplifier.cpp, in another formulation.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "acceptance/kinsol_translation.hpp"
#include "acceptance/stages_demo.hpp"

namespace idlepoint::tests {
namespace {

/// A billionth of the value, and of a volt or a milliampere where the value is nothing.
void check_volts(double ours, double theirs) {
  CHECK(std::abs(ours - theirs) <= 1e-9 * std::max(1.0, std::abs(theirs)));
}
void check_amps(double ours, double theirs) {
  CHECK(std::abs(ours - theirs) <= 1e-9 * std::max(1e-3, std::abs(theirs)));
}

void check_currents(const Translation& drawn,
                    const PlainState& theirs,
                    const solve::OperatingPoint& ours) {
  const auto lead_a = [&](const Counterpart& each, std::size_t lead) {
    return ours.part(each.id).lead_current_a.at(lead);
  };
  for (const Counterpart& each : drawn.resistors) {
    CAPTURE(each.part->name);
    check_amps(lead_a(each, 0), theirs.resistor_a[each.index]);
  }
  for (const Counterpart& each : drawn.trimmers) {
    CAPTURE(each.part->name);
    std::size_t index = each.index;
    for (const std::size_t lead : {0U, 2U}) {
      if (each.part->leads[lead]) check_amps(lead_a(each, lead), theirs.resistor_a[index++]);
    }
  }
  for (const Counterpart& each : drawn.diodes) {
    CAPTURE(each.part->name);
    check_amps(lead_a(each, 0), theirs.diode_a[each.index]);
  }
  for (const Counterpart& each : drawn.transistors) {
    CAPTURE(each.part->name);
    const double collector_a = theirs.collector_a[each.index];
    const double base_a = theirs.base_a[each.index];
    check_amps(lead_a(each, 0), collector_a);
    check_amps(lead_a(each, 1), base_a);
    check_amps(lead_a(each, 2), -(collector_a + base_a));
  }
}

}  // namespace

// Oracle: SUNDIALS KINSOL, from zero volts and zero amperes, on equations typed anew from
// docs/models.md as a sparse tableau, its slopes by differences.
TEST_CASE("KINSOL finds every voltage and every current of a whole amplifier where we find them",
          "[acceptance][kinsol]") {
  const std::string file = GENERATE(as<std::string>{},
                                    "bramble-8w.stage",
                                    "corrie-70w.stage",
                                    "drystone-40w.stage",
                                    "quarry-30w.stage",
                                    "spinney-45w.stage",
                                    "teasel-8w.stage",
                                    "wherry-25w.stage");
  const double ambient_c = GENERATE(25.0, 41.0);
  CAPTURE(file, ambient_c);
  const auto stage = demo_stage(file).edited(
      [&](circuit::Circuit& circuit) { circuit.ambient_k = ambient_c + 273.15; });
  const auto ours = settled(stage);

  const Translation drawn = translated(*stage);
  const auto theirs = solve_by_kinsol(drawn.amplifier);
  REQUIRE(theirs.has_value());
  CHECK(theirs->largest_missing <= 1e-12);
  for (std::size_t k = 0; k < stage->nodes.size(); ++k) {
    CAPTURE(stage->nodes[k].name);
    check_volts(ours.voltage_v({k}), theirs->node_v[k]);
  }
  for (std::size_t k = 0; k < stage->rails.size(); ++k) {
    CAPTURE(stage->at(stage->rails[k].node).name);
    check_amps(ours.rail({k}).delivered_a, theirs->rail_a[k]);
  }
  check_currents(drawn, *theirs, ours);
}

}  // namespace idlepoint::tests
