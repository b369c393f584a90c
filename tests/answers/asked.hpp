// A stage's text as a setup to be asked, and answers that must be there, for the tests of answers
// and reports.
//
// A complaint, or a state that did not settle, fails the test with its own words.
#pragma once

#include <catch2/catch.hpp>
#include <string>
#include <utility>
#include <variant>

#include "answers/check.hpp"
#include "answers/preset.hpp"
#include "answers/readings.hpp"
#include "answers/setup.hpp"
#include "circuit/checked_circuit.hpp"
#include "circuit/edits.hpp"
#include "complaints/render.hpp"
#include "language/fault_text.hpp"
#include "language/read_stage.hpp"

namespace idlepoint::tests {

using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

template <class T>
T required(complaints::Result<T> result) {
  if (!result) FAIL(complaints::render(result.complaints()));
  return std::move(result).value();
}

inline answers::Setup setup_of(language::StageFile file, const solve::Conditions& conditions = {}) {
  auto stage = required(circuit::check_circuit(std::move(file.circuit)));
  auto warnings = std::move(file.warnings);
  warnings.insert(warnings.end(), stage.warnings().begin(), stage.warnings().end());
  return {std::move(stage), conditions, std::move(warnings), {}, false};
}

inline answers::Setup drawn(const std::string& text, const solve::Conditions& conditions = {}) {
  return setup_of(required(language::read_stage(text, "test.stage")), conditions);
}

/// A file of netlists/ by its name with the ending.
inline answers::Setup demo(const std::string& name, const solve::Conditions& conditions = {}) {
  return setup_of(required(language::read_stage_file(IDLEPOINT_SOURCE_DIR "/netlists/" + name)),
                  conditions);
}

/// The same setup with a fault in it, written as on a command line.
inline answers::Setup with_fault(answers::Setup setup, const std::string& fault) {
  const auto edit = required(language::read_fault(fault, *setup.stage));
  auto edited = circuit::apply(setup.stage, edit);
  if (const auto* why = std::get_if<std::string>(&edited)) FAIL(*why);
  setup.stage = std::get<circuit::CheckedCircuit>(std::move(edited));
  setup.changes.push_back(circuit::write_fault(*setup.stage, edit));
  return setup;
}

template <class Answer>
Answer settled(std::variant<Answer, solve::NotSettled> outcome) {
  if (const auto* story = std::get_if<solve::NotSettled>(&outcome)) FAIL(story->likely);
  return std::get<Answer>(std::move(outcome));
}

inline answers::Readings readings_of(const answers::Setup& setup) {
  return settled(answers::ask_readings(setup));
}
inline answers::Preset preset_of(const answers::Setup& setup) {
  return settled(answers::ask_preset(setup));
}
inline answers::Check check_of(const answers::Setup& setup) {
  return settled(answers::ask_check(setup));
}

/// A complementary emitter follower of 25 W without its driver stage, as in docs/language.md.
inline const std::string& practice_stage() {
  static const std::string text = R"(stage "Practice amplifier, output half, 25 W"
rail     vpos  +28V resistance=0R15 tolerance=8%
rail     vneg  -28V resistance=0R15 tolerance=8%
feed     I1 5mA from=vpos into=b_hi
hold     V1 b_lo gnd -1.21V
npn      Q3 c=b_hi b=x e=b_lo type=small-npn on=HS1 washer=2K/W
resistor R8 b_hi t 820R
trimmer  VR2 t x 1k at=35% spare=tied
resistor R9 x b_lo 470R
npn      Q4 c=vpos b=b_hi e=d_hi type=driver-npn on=HS1
pnp      Q5 c=vneg b=b_lo e=d_lo type=driver-pnp on=HS1
resistor R10 d_hi d_lo 150R
npn      Q6 c=vpos b=d_hi e=e_hi type=power-npn on=HS1 washer=0.6K/W
pnp      Q7 c=vneg b=d_lo e=e_lo type=power-pnp on=HS1 washer=0.6K/W
resistor R11 e_hi out 0R22 power=3W
resistor R12 out e_lo 0R22 power=3W
resistor R13 out gnd 1k
load     LS1 out gnd 8R
heatsink HS1 resistance=1.6K/W capacity=380J/K
reading  idle    volts e_hi e_lo
reading  offset  volts out  gnd
limit    offset  -100mV to 100mV
adjust   VR2 until idle reads 22mV within 1mV
type npn small-npn  saturation_current=10fA gain=250 early_voltage=100V junction_to_ambient=200K/W
type npn driver-npn saturation_current=0.1pA gain=100 early_voltage=100V junction_to_case=5K/W
type pnp driver-pnp saturation_current=0.1pA gain=100 early_voltage=100V junction_to_case=5K/W
type npn power-npn  saturation_current=10pA gain=60 early_voltage=80V junction_to_case=1.2K/W
type pnp power-pnp  saturation_current=10pA gain=60 early_voltage=80V junction_to_case=1.2K/W
)";
  return text;
}

}  // namespace idlepoint::tests
