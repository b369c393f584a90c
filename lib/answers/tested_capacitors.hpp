// The capacitors of one channel that were on a tester: each beside its limits and its place.
//
// Made by cli/capacitor from a command line or a job, and by the owner's page; rendered by
// report/text_capacitor and report/json_capacitor.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "answers/capacitor_leaks.hpp"
#include "answers/capacitor_limits.hpp"
#include "circuit/job.hpp"

namespace idlepoint::answers {

struct TestedCapacitor {
  std::string name;                         ///< Empty for one that is in no drawing.
  std::optional<CapacitorVerdict> verdict;  ///< None where nothing is known of its value.
  std::optional<std::size_t> place = {};    ///< Among `CapacitorLeaks::capacitors` of the stage.
};

/// The figures of a job's test; value and rated voltage as the test says, else as drawn. None where
/// neither tells the value.
[[nodiscard]] std::optional<CapacitorFigures> figures_of(const circuit::CapacitorTest& test,
                                                         const circuit::Circuit& circuit);

/// Every test of a channel, in the order of the job; `leaks` where its stage could be solved.
[[nodiscard]] std::vector<TestedCapacitor> judge_tests(const circuit::Channel& channel,
                                                       const CapacitorLeaks* leaks);

/// Index among `leaks.capacitors`; none where no such capacitor is drawn.
[[nodiscard]] std::optional<std::size_t> place_of_capacitor(const CapacitorLeaks& leaks,
                                                            std::string_view name);

/// True where none is to be replaced.
[[nodiscard]] bool all_keep(const std::vector<TestedCapacitor>& tested) noexcept;

}  // namespace idlepoint::answers
