// Oracle: central differences of full solves, by every number of every stage file in netlists/,
// cold and warm, of readings, powers, temperatures and trimmer positions.
#include <algorithm>
#include <filesystem>

#include "heat/adjoint_checks.hpp"
#include "warm_text.hpp"

namespace idlepoint::tests {
namespace {

const std::string folder = IDLEPOINT_SOURCE_DIR "/netlists/";

std::vector<std::string> stage_files() {
  std::vector<std::string> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() == ".stage") files.push_back(entry.path().filename().string());
  }
  std::sort(files.begin(), files.end());
  return files;
}

/// Trimmers at their presets, where every position is a solution; as drawn where there are none.
circuit::CheckedCircuit at_preset(const std::string& file, const solve::Conditions& conditions) {
  const auto stage =
      required(circuit::check_circuit(required(language::read_stage_file(folder + file)).circuit));
  if (stage->adjustments.empty()) return stage;
  auto found =
      solve::solve_adjustments(stage, conditions, solve::SafeEnds(stage->adjustments.size()));
  REQUIRE(std::holds_alternative<solve::Adjusted>(found));
  return std::get<solve::Adjusted>(std::move(found)).circuit;
}

}  // namespace

TEST_CASE("The adjoint of every stage file equals differences of full solves",
          "[heat][identity][heavy]") {
  const std::string file = GENERATE(from_range(stage_files()));
  solve::Conditions conditions;
  conditions.heat = GENERATE(solve::HeatState::cold, solve::HeatState::warm);
  CAPTURE(file, conditions.heat == solve::HeatState::warm);
  const MovedStage stage(at_preset(file, conditions), conditions);
  check_parameters(stage);
  check_heat(stage);
}

}  // namespace idlepoint::tests
