#include "answers/tested_capacitors.hpp"

#include <algorithm>
#include <utility>

namespace idlepoint::answers {

std::optional<CapacitorFigures> figures_of(const circuit::CapacitorTest& test,
                                           const circuit::Circuit& circuit) {
  CapacitorFigures figures;
  figures.rated_v = test.rated_v;
  if (test.part) {
    const circuit::Part& part = circuit.at(*test.part);
    figures.value_f = part.value;
    const auto* details = std::get_if<circuit::CapacitorDetails>(&part.details);
    if (details != nullptr && !figures.rated_v) figures.rated_v = details->rated_v;
  }
  if (test.value_f) figures.value_f = *test.value_f;
  if (figures.value_f <= 0.0) return std::nullopt;
  figures.capacitance_f = test.capacitance_f;
  figures.esr_ohm = test.esr_ohm;
  figures.frequency_hz = test.frequency_hz;
  figures.leakage_a = test.leakage_a;
  figures.leakage_at_v = test.leakage_at_v;
  return figures;
}

std::vector<TestedCapacitor> judge_tests(const circuit::Channel& channel,
                                         const CapacitorLeaks* leaks) {
  std::vector<TestedCapacitor> tested;
  for (const auto& test : channel.capacitor_tests) {
    TestedCapacitor one{test.name, {}};
    if (const auto figures = figures_of(test, channel.circuit)) one.verdict = judge(*figures);
    if (leaks != nullptr) one.place = place_of_capacitor(*leaks, test.name);
    tested.push_back(std::move(one));
  }
  return tested;
}

std::optional<std::size_t> place_of_capacitor(const CapacitorLeaks& leaks, std::string_view name) {
  for (std::size_t k = 0; k < leaks.capacitors.size(); ++k) {
    if (leaks.stage->at(leaks.capacitors[k].part).name == name) return k;
  }
  return std::nullopt;
}

bool all_keep(const std::vector<TestedCapacitor>& tested) noexcept {
  return std::all_of(tested.begin(), tested.end(), [](const TestedCapacitor& one) {
    return !one.verdict || one.verdict->keep;
  });
}

}  // namespace idlepoint::answers
