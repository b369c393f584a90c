// The demonstration stages as a newcomer meets them: they read, they check, they settle, and what
// the rails give comes out as heat.
//
// Oracle: conservation of energy; what docs/stages.md and the files themselves promise.
#include <algorithm>
#include <cmath>

#include "acceptance/stages_demo.hpp"
#include "answers/check.hpp"
#include "answers/readings.hpp"

namespace idlepoint::tests {
namespace {

std::string words_of(const complaints::Complaints& complaints) {
  return complaints.empty() ? "" : complaints::render(complaints);
}

answers::Setup on_the_bench(const std::string& file) {
  language::StageFile read = read_demo(file);
  complaints::Complaints warnings = read.warnings;
  auto stage = required(circuit::check_circuit(std::move(read.circuit)));
  warnings.insert(warnings.end(), stage.warnings().begin(), stage.warnings().end());
  return {std::move(stage), {}, std::move(warnings), {}};
}

bool is_stand_in(const circuit::Part& part) {
  return part.kind == circuit::PartKind::hold || part.kind == circuit::PartKind::feed;
}

bool is_whole(const circuit::Circuit& stage) {
  const auto has = [&](circuit::PartKind kind) {
    return std::any_of(stage.parts.begin(), stage.parts.end(), [&](const circuit::Part& part) {
      return part.kind == kind;
    });
  };
  const bool has_stand_in = std::any_of(stage.parts.begin(), stage.parts.end(), is_stand_in);
  return !has_stand_in && has(circuit::PartKind::load) && stage.signal.input;
}

std::ptrdiff_t transistors_in(const circuit::Circuit& stage) {
  return std::count_if(stage.parts.begin(), stage.parts.end(), [](const circuit::Part& part) {
    return circuit::is_transistor(part.kind);
  });
}

std::vector<circuit::PartId> trimmers_of(const circuit::Circuit& stage) {
  std::vector<circuit::PartId> trimmers;
  for (std::size_t index = 0; index < stage.parts.size(); ++index) {
    if (stage.parts[index].kind == circuit::PartKind::trimmer) trimmers.push_back({index});
  }
  return trimmers;
}

}  // namespace

// Oracle: the files' own printed volts and limits; a drawing without a slip has no complaint.
TEST_CASE("Every demonstration stage passes the checks without a complaint",
          "[acceptance][identity]") {
  const std::string file = GENERATE(from_range(demo_files()));
  CAPTURE(file);
  const answers::Setup setup = on_the_bench(file);
  CHECK(words_of(setup.warnings) == "");

  const auto outcome = answers::ask_check(setup);
  REQUIRE(std::holds_alternative<answers::Check>(outcome));
  const auto& check = std::get<answers::Check>(outcome);
  CHECK(words_of(check.complaints) == "");
  for (const answers::PrintedComparison& printed : check.printed) {
    CAPTURE(printed.text, printed.printed_v, printed.calculated_v);
    CHECK_FALSE(printed.disagrees);
  }
  CHECK(answers::is_good(check));
}

// Oracle: docs/stages.md.
TEST_CASE("Seven demonstration stages are whole amplifiers and one is large",
          "[acceptance][identity]") {
  int whole = 0;
  std::ptrdiff_t most_transistors = 0;
  std::size_t most_points = 0;
  for (const std::string& file : demo_files()) {
    const auto stage = demo_stage(file);
    if (file.find("-right") == std::string::npos && is_whole(*stage)) ++whole;
    most_transistors = std::max(most_transistors, transistors_in(*stage));
    most_points = std::max(most_points, stage->nodes.size());
  }
  CHECK(whole >= 7);
  CHECK(most_transistors >= 12);
  CHECK(most_points >= 50);
}

// Oracle: the ratings in the types file; a sound stage asks no part for more than it may give.
TEST_CASE("No part of a sound demonstration stage is over-stressed", "[acceptance][identity]") {
  const std::string file = GENERATE(from_range(demo_files()));
  const auto stage = demo_stage(file);
  const auto state = settled(stage);
  for (std::size_t index = 0; index < stage->parts.size(); ++index) {
    CAPTURE(file, stage->parts[index].name);
    CHECK_FALSE(state.part({index}).over_stressed);
  }
}

// Oracle: the limits written in the files.
TEST_CASE("Every demonstration stage as drawn reads within its own limits",
          "[acceptance][identity]") {
  const std::string file = GENERATE(from_range(demo_files()));
  CAPTURE(file);
  const auto outcome = answers::ask_readings(on_the_bench(file));
  REQUIRE(std::holds_alternative<answers::Readings>(outcome));
  for (const answers::ReadingValue& reading : std::get<answers::Readings>(outcome).readings) {
    CAPTURE(reading.name, reading.value);
    CHECK(reading.within_limit.value_or(true));
  }
}

// Oracle: conservation of energy (Tellegen's theorem).
TEST_CASE("What the rails of a demonstration stage give comes out as heat",
          "[acceptance][identity]") {
  const std::string file = GENERATE(from_range(demo_files()));
  const double rails = GENERATE(0.1, 0.5, 1.0, 1.1);
  CAPTURE(file, rails);
  const auto stage = demo_stage(file);
  const PowerBalance balance = power_balance(stage, settled(stage, {.rails = rails}));
  CAPTURE(balance.given_w, balance.left_over_w);
  CHECK(balance.given_w > 0.0);
  CHECK(std::abs(balance.left_over_w) <= 1e-9 * balance.given_w);
}

// Oracle: conservation of energy, at the ends of every track.
TEST_CASE("A demonstration stage settles at both ends of every trimmer", "[acceptance][identity]") {
  const std::string file = GENERATE(from_range(demo_files()));
  const auto stage = demo_stage(file);
  for (const circuit::PartId trimmer : trimmers_of(*stage)) {
    for (const double travel : {0.0, 1.0}) {
      CAPTURE(file, stage->at(trimmer).name, travel);
      const auto set = edited(stage, circuit::SetTravel{trimmer, travel});
      const PowerBalance balance = power_balance(set, settled(set));
      CHECK(std::abs(balance.left_over_w) <= 1e-9 * balance.given_w);
    }
  }
}

// Oracle: conservation of energy, from a freezing bench to a hot case.
TEST_CASE("A demonstration stage settles from -10 C to 60 C", "[acceptance][identity]") {
  const std::string file = GENERATE(from_range(demo_files()));
  const double ambient_c = GENERATE(-10.0, 5.0, 40.0, 60.0);
  CAPTURE(file, ambient_c);
  const auto stage = demo_stage(file).edited(
      [&](circuit::Circuit& circuit) { circuit.ambient_k = ambient_c + 273.15; });
  const PowerBalance balance = power_balance(stage, settled(stage));
  CHECK(std::abs(balance.left_over_w) <= 1e-9 * balance.given_w);
}

}  // namespace idlepoint::tests
