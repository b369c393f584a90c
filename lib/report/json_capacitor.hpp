// Keep or replace, and what leakage does, as JSON. Keys and meaning: docs/commands.md.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "answers/tested_capacitors.hpp"

namespace idlepoint::report {

/// One capacitor, with or without a stage around it; `leaks` null: none.
[[nodiscard]] std::string json_of(const answers::TestedCapacitor& tested,
                                  const answers::CapacitorLeaks* leaks);

/// All capacitors of a stage.
[[nodiscard]] std::string json_of(const answers::CapacitorLeaks& leaks);

/// Every test of a job, channel by channel; `leaks` null where a stage could not be solved.
struct ChannelTests {
  const circuit::Channel* channel = nullptr;
  const answers::CapacitorLeaks* leaks = nullptr;
  std::vector<answers::TestedCapacitor> tested;
};
[[nodiscard]] std::string json_of(const circuit::Job& job,
                                  const std::vector<ChannelTests>& channels);

}  // namespace idlepoint::report
