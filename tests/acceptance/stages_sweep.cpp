// The demonstration stages under everything that can happen to them: every single open and short,
// and ten thousand copies of each with all their values spread.
//
// Oracle: conservation of energy; a resistive network with passive devices has a DC state
// (Willson, Bell System Technical Journal 49, 1970, 1755), so none may be left unsettled.
#include <cstdint>
#include <iostream>
#include <random>

#include "acceptance/stages_demo.hpp"

namespace idlepoint::tests {
namespace {

using solve::NotSettled;

/// 0.8 to 1.2, from the generator's bits alone: the same on every machine.
double within_a_fifth(std::mt19937_64& bits) {
  constexpr double two_to_53 = 9007199254740992.0;
  return 0.8 + 0.4 * (static_cast<double>(bits() >> 11U) / two_to_53);
}

/// Every diode and transistor gets a type of its own, so that each can vary alone.
circuit::CheckedCircuit with_own_types(const circuit::CheckedCircuit& stage) {
  return stage.edited([](circuit::Circuit& circuit) {
    for (circuit::Part& part : circuit.parts) {
      if (!part.type) continue;
      circuit.types.push_back(circuit::PartType(circuit.at(*part.type)));
      part.type = circuit::TypeId{circuit.types.size() - 1};
    }
  });
}

struct VaryLaw {
  std::mt19937_64& bits;
  void operator()(devices::DiodeData& law) const {
    law.saturation_current_a *= within_a_fifth(bits);
    if (law.zener_voltage_v) *law.zener_voltage_v *= within_a_fifth(bits);
  }
  void operator()(devices::BipolarData& law) const {
    law.saturation_current_a *= within_a_fifth(bits);
    law.gain *= within_a_fifth(bits);
    law.inverse_gain *= within_a_fifth(bits);
    law.cutoff_current_a *= within_a_fifth(bits);
    law.base_resistance_ohm *= within_a_fifth(bits);
    law.emitter_resistance_ohm *= within_a_fifth(bits);
    if (law.early_voltage_v) *law.early_voltage_v *= within_a_fifth(bits);
  }
  void operator()(devices::FetData& law) const {
    law.threshold_voltage_v *= within_a_fifth(bits);
    law.current_factor_a_per_v2 *= within_a_fifth(bits);
  }
};

/// Every value of the drawing, each by up to a fifth either way.
void vary(circuit::Circuit& circuit, std::mt19937_64& bits) {
  for (circuit::Part& part : circuit.parts) part.value *= within_a_fifth(bits);
  for (circuit::Rail& rail : circuit.rails) rail.nominal_v *= within_a_fifth(bits);
  for (circuit::Part& part : circuit.parts) {
    if (part.type) std::visit(VaryLaw{bits}, circuit.types.at(part.type->index).law);
  }
}

}  // namespace

// Oracle: conservation of energy in every state that is found. What has no state must say so by
// name: ideal branches that contradict each other, or a point beyond 1 MV.
TEST_CASE("Every single open and short of a demonstration stage settles or is refused by name",
          "[acceptance][identity][heavy]") {
  const std::string file = GENERATE(from_range(demo_files()));
  const auto stage = demo_stage(file);
  int refused = 0;
  const auto faults = circuit::every_open_and_short(*stage);
  for (const circuit::Edit& fault : faults) {
    CAPTURE(file, circuit::write_fault(*stage, fault));
    const auto faulty = edited(stage, fault);
    const auto outcome = solve::solve_cold(faulty);
    if (const auto* trouble = std::get_if<NotSettled>(&outcome)) {
      CAPTURE(story(*faulty, *trouble));
      CHECK(trouble->reason == NotSettled::Reason::no_finite_solution);
      ++refused;
      continue;
    }
    const auto balance = power_balance(faulty, std::get<solve::OperatingPoint>(outcome));
    CAPTURE(balance.given_w, balance.left_over_w, balance.least_w);
    CHECK(is_accounted_for(balance));
  }
  std::cout << file << ": " << faults.size() << " single faults, " << refused
            << " refused by name\n";
}

// Oracle: a stage of passive devices between rails has a DC state, whatever its values.
TEST_CASE("Ten thousand copies of a demonstration stage, all values spread by a fifth, settle",
          "[acceptance][identity][heavy]") {
  constexpr int copies = 10'000;
  const std::string file = GENERATE(from_range(demo_files()));
  const auto stage = with_own_types(demo_stage(file));
  std::mt19937_64 bits(30);
  int failures = 0;
  for (int copy = 0; copy < copies; ++copy) {
    const auto varied = stage.edited([&](circuit::Circuit& circuit) { vary(circuit, bits); });
    const auto outcome = solve::solve_cold(varied);
    if (const auto* trouble = std::get_if<NotSettled>(&outcome)) {
      ++failures;
      UNSCOPED_INFO("copy " << copy << ": " << story(*varied, *trouble));
    }
  }
  std::cout << file << ": " << failures << " of " << copies << " spread copies did not settle\n";
  CAPTURE(file);
  CHECK(failures == 0);
}

}  // namespace idlepoint::tests
