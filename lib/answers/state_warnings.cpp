// The words that a solved state needs beside its numbers. Declared in answers/readings.hpp.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "answers/fault_dangers.hpp"
#include "answers/readings.hpp"

namespace idlepoint::answers {
namespace {

using circuit::PartKind;

void warn_of_fuse(const circuit::Part& part, double current_a, std::vector<std::string>& warnings) {
  const double times = std::abs(current_a) / part.value;
  if (times > fuse_blows_at) {
    warnings.push_back(fmt::format(
        "{} carries {:.1f} times its rating and blows within minutes or sooner; the figures are "
        "those of the moment before.",
        part.name,
        times));
  } else if (times > 1.0) {
    warnings.push_back(
        fmt::format("{} carries {:.1f} times its rating: it may blow.", part.name, times));
  }
}

}  // namespace

std::vector<std::string> state_warnings(const circuit::Circuit& circuit,
                                        const solve::OperatingPoint& state) {
  std::vector<std::string> warnings;
  if (state.has_other_states()) {
    warnings.emplace_back(
        "This stage has more than one DC state; the one given is a stable one. Feedback copied to "
        "the wrong base does this.");
  }
  std::vector<std::string> over_stressed;
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    const auto& part = circuit.parts[index];
    const auto& found = state.part(circuit::PartId{index});
    if (found.over_stressed) over_stressed.push_back(part.name);
    if (part.kind == PartKind::fuse && part.value > 0.0 && !found.lead_current_a.empty()) {
      warn_of_fuse(part, found.lead_current_a.front(), warnings);
    }
  }
  if (!over_stressed.empty()) {
    warnings.push_back(fmt::format("Beyond what they are made for: {}. Do not leave the stage so.",
                                   fmt::join(over_stressed, ", ")));
  }
  return warnings;
}

std::vector<std::string> warnings_of_both(const circuit::Circuit& circuit,
                                          const solve::OperatingPoint& warm,
                                          const std::optional<ColdMoment>& cold) {
  auto warnings = state_warnings(circuit, warm);
  if (!cold) return warnings;
  const std::size_t of_warm = warnings.size();
  for (const auto& text : state_warnings(circuit, cold->state)) {
    const auto end = warnings.begin() + static_cast<std::ptrdiff_t>(of_warm);
    if (std::find(warnings.begin(), end, text) == end) {
      warnings.push_back("Just switched on: " + text);
    }
  }
  return warnings;
}

}  // namespace idlepoint::answers
