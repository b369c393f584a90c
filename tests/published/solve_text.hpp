// The whole spine inside a test: a stage's text (or a file of netlists/published) read, checked,
// solved, and its points read as a technician would name them.
//
// A complaint, or a state that did not settle, fails the test with its own words.
#pragma once

#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "circuit/checked_circuit.hpp"
#include "circuit/edits.hpp"
#include "complaints/render.hpp"
#include "language/fault_text.hpp"
#include "language/read_stage.hpp"
#include "solve/adjust.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::tests {

using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

/// How near to a figure that the book's own equations give in full.
inline constexpr double exact = 1e-5;

/// kT/q at 25 C, by the exact constants of SI 2019.
inline constexpr double room_thermal_v = 1.380649e-23 / 1.602176634e-19 * 298.15;

/// The temperature of the books that take kT/q as 25 mV.
inline constexpr const char* kelvin_at_25_mv = "290.11295303875204";

/// The value, or a failed test that shows the complaints.
template <class T>
T required(complaints::Result<T> result) {
  if (!result) FAIL(complaints::render(result.complaints()));
  return std::move(result).value();
}

inline circuit::CheckedCircuit drawn(const std::string& text) {
  return required(
      circuit::check_circuit(required(language::read_stage(text, "test.stage")).circuit));
}

/// A file of netlists/published, by its name without the ending.
inline circuit::CheckedCircuit published(const std::string& name) {
  const std::string path = IDLEPOINT_SOURCE_DIR "/netlists/published/" + name + ".stage";
  return required(circuit::check_circuit(required(language::read_stage_file(path)).circuit));
}

/// `change` is written as a fault: "V1 is 10V", "VR1 at 20%", "Q2 gain 60".
inline circuit::CheckedCircuit changed(const circuit::CheckedCircuit& from,
                                       const std::string& change) {
  INFO(change);
  auto edited = circuit::apply(from, required(language::read_fault(change, *from)));
  if (const auto* refusal = std::get_if<std::string>(&edited)) FAIL(*refusal);
  return std::get<circuit::CheckedCircuit>(std::move(edited));
}

/// The story of a solve that found nothing, for a failed test.
inline std::string story(const solve::NotSettled& trouble) {
  std::string words = "not settled: " + trouble.likely;
  for (const solve::Attempt& attempt : trouble.tried) {
    words += "; " + attempt.strategy + " stopped at " + attempt.stopped_at;
  }
  return words;
}

/// A state and the circuit it belongs to.
struct Solved {
  circuit::CheckedCircuit circuit;
  solve::OperatingPoint state;

  /// `probe` as in a `reading` statement: "volts A B", "amps R1", "watts Q1"; SI.
  [[nodiscard]] double operator()(const std::string& probe) const {
    INFO(probe);
    return state.read(*circuit, required(language::read_probe(probe, *circuit)));
  }
};

inline Solved solved(circuit::CheckedCircuit checked, const solve::Conditions& conditions = {}) {
  solve::Outcome outcome = solve::solve_cold(checked, conditions);
  if (const auto* trouble = std::get_if<solve::NotSettled>(&outcome)) FAIL(story(*trouble));
  return {std::move(checked), std::get<solve::OperatingPoint>(std::move(outcome))};
}

inline Solved solved(const std::string& text) { return solved(drawn(text)); }

/// Current into one lead of a part, by the lead's place in `circuit::lead_names`.
inline double lead_current_a(const Solved& stage, const std::string& part, std::size_t lead) {
  const auto id = circuit::find_part(*stage.circuit, part);
  REQUIRE(id.has_value());
  return stage.state.part(*id).lead_current_a.at(lead);
}
inline double base_current_a(const Solved& stage, const std::string& part) {
  return lead_current_a(stage, part, 1);
}
inline double emitter_current_a(const Solved& stage, const std::string& part) {
  return lead_current_a(stage, part, 2);
}

/// All `adjust` statements solved together; every trimmer must reach its target.
inline solve::Adjusted adjusted(const circuit::CheckedCircuit& checked) {
  const solve::SafeEnds none(checked->adjustments.size());
  auto outcome = solve::solve_adjustments(checked, {}, none);
  if (const auto* trouble = std::get_if<solve::NotSettled>(&outcome)) FAIL(story(*trouble));
  solve::Adjusted all = std::get<solve::Adjusted>(std::move(outcome));
  for (const solve::Setting& setting : all.settings) CHECK(setting.reached);
  return all;
}

/// Ohms of track between the first-named end and the wiper where an adjustment ended.
inline double track_ohm(const solve::Adjusted& all, std::size_t adjustment) {
  const solve::Setting& setting = all.settings.at(adjustment);
  return setting.travel * all.circuit->at(setting.trimmer).value;
}

/// One part's value and how far to move it to either side, both in `unit`.
struct Nudge {
  std::string part;
  double value;
  double step;
  std::string unit;
};

/// d(probe)/d(value) by the central difference of two solves: an incremental resistance or a gain.
inline double slope(const circuit::CheckedCircuit& checked,
                    const Nudge& nudge,
                    const std::string& probe) {
  const auto read_at = [&](double value) {
    return solved(changed(checked, fmt::format("{} is {}{}", nudge.part, value, nudge.unit)))(
        probe);
  };
  return (read_at(nudge.value + nudge.step) - read_at(nudge.value - nudge.step)) /
         (2.0 * nudge.step);
}

}  // namespace idlepoint::tests
