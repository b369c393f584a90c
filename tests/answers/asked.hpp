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
#include "practice_stage.hpp"

namespace idlepoint::tests {

using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

inline constexpr double room_thermal_v = 0.025692579;  // kT/q at 25 C [SI2019]

template <class T>
T required(complaints::Result<T> result) {
  if (!result) FAIL(complaints::render(result.complaints()));
  return std::move(result).value();
}

inline answers::Setup setup_of(language::StageFile file, const solve::Conditions& conditions = {}) {
  auto stage = required(circuit::check_circuit(std::move(file.circuit)));
  auto warnings = std::move(file.warnings);
  warnings.insert(warnings.end(), stage.warnings().begin(), stage.warnings().end());
  return {std::move(stage), conditions, std::move(warnings), {}};
}

inline answers::Setup drawn(const std::string& text, const solve::Conditions& conditions = {}) {
  return setup_of(required(language::read_stage(text, "test.stage")), conditions);
}

/// A file of netlists/ by its name with the ending.
inline answers::Setup demo(const std::string& name, const solve::Conditions& conditions = {}) {
  return setup_of(required(language::read_stage_file(IDLEPOINT_SOURCE_DIR "/netlists/" + name)),
                  conditions);
}

/// The part of that name, which must be there.
inline circuit::PartId part_named(const answers::Setup& setup, const std::string& name) {
  return circuit::find_part(*setup.stage, name).value();
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

template <class Answer, class... Stories>
Answer settled(std::variant<Answer, Stories...> outcome) {
  if (const auto* story = std::get_if<solve::NotSettled>(&outcome)) FAIL(story->likely);
  REQUIRE(std::holds_alternative<Answer>(outcome));
  return std::get<Answer>(std::move(outcome));
}

/// The thermal trouble that an answer must meet.
template <class Answer>
answers::ThermalStory troubled(
    std::variant<Answer, solve::NotSettled, answers::ThermalStory> outcome) {
  REQUIRE(std::holds_alternative<answers::ThermalStory>(outcome));
  return std::get<answers::ThermalStory>(std::move(outcome));
}

inline constexpr solve::Conditions when_warm{.heat = solve::HeatState::warm};

inline answers::Readings readings_of(const answers::Setup& setup) {
  return settled(answers::ask_readings(setup));
}
inline answers::Preset preset_of(const answers::Setup& setup) {
  return settled(answers::ask_preset(setup));
}
inline answers::Check check_of(const answers::Setup& setup) {
  return settled(answers::ask_check(setup));
}

}  // namespace idlepoint::tests
