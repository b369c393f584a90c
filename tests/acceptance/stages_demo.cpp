#include "acceptance/stages_demo.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>

namespace idlepoint::tests {
namespace {

const std::string netlists = IDLEPOINT_SOURCE_DIR "/netlists/";
constexpr double point_to_ground_s = 0.5e-12;  // of every point to ground, docs/models.md
constexpr double promised_balance_a = 0.5e-12;

}  // namespace

std::vector<std::string> demo_files() {
  std::vector<std::string> files;
  for (const auto& entry : std::filesystem::directory_iterator(netlists)) {
    if (entry.path().extension() == ".stage") files.push_back(entry.path().filename().string());
  }
  std::sort(files.begin(), files.end());
  return files;
}

language::StageFile read_demo(const std::string& file) {
  return required(language::read_stage_file(netlists + file));
}

circuit::CheckedCircuit demo_stage(const std::string& file) {
  return required(circuit::check_circuit(read_demo(file).circuit));
}

std::string story(const circuit::Circuit& circuit, const solve::NotSettled& trouble) {
  std::string words = trouble.likely;
  if (trouble.node) words += " (at " + circuit::node_in_words(circuit, *trouble.node) + ")";
  for (const solve::Attempt& attempt : trouble.tried) {
    words += "; " + attempt.strategy + " stopped at " + attempt.stopped_at;
  }
  return words;
}

solve::OperatingPoint settled(const circuit::CheckedCircuit& stage,
                              const solve::Conditions& conditions) {
  auto outcome = solve::solve_cold(stage, conditions);
  if (const auto* trouble = std::get_if<solve::NotSettled>(&outcome)) FAIL(story(*stage, *trouble));
  return std::get<solve::OperatingPoint>(std::move(outcome));
}

circuit::CheckedCircuit edited(const circuit::CheckedCircuit& stage, const circuit::Edit& edit) {
  auto after = circuit::apply(stage, edit);
  if (const auto* refusal = std::get_if<std::string>(&after)) FAIL(*refusal);
  return std::get<circuit::CheckedCircuit>(std::move(after));
}

PowerBalance power_balance(const circuit::CheckedCircuit& stage,
                           const solve::OperatingPoint& state) {
  PowerBalance balance;
  double taken_w = 0.0;
  for (std::size_t index = 0; index < stage->rails.size(); ++index) {
    const solve::RailState& rail = state.rail(circuit::RailId{index});
    balance.given_w += rail.power_w;
    taken_w += stage->rails[index].resistance_ohm * rail.delivered_a * rail.delivered_a;
  }
  for (std::size_t index = 0; index < stage->parts.size(); ++index) {
    const double power_w = state.part(circuit::PartId{index}).power_w;
    taken_w += power_w;
    balance.given_w += std::max(0.0, -power_w);
    taken_w += std::max(0.0, -power_w);
  }
  for (std::size_t index = 0; index < stage->nodes.size(); ++index) {
    const double volts = state.voltage_v(circuit::NodeId{index});
    taken_w += point_to_ground_s * volts * volts;
    balance.least_w += promised_balance_a * std::abs(volts);
  }
  balance.left_over_w = balance.given_w - taken_w;
  return balance;
}

bool is_accounted_for(const PowerBalance& balance) {
  return std::abs(balance.left_over_w) <= 1e-9 * balance.given_w + balance.least_w;
}

}  // namespace idlepoint::tests
