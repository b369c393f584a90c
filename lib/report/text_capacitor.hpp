// Keep or replace, and what a capacitor's leakage does to the readings, in words.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers/tested_capacitors.hpp"
#include "report/page.hpp"

namespace idlepoint::report {

/// The verdict, its figures beside their limits, and what they cannot show. `name` may be empty.
[[nodiscard]] std::string verdict_text(const std::string& name,
                                       const answers::CapacitorVerdict& verdict,
                                       const std::optional<circuit::Scope>& scope,
                                       const Page& page);

/// What leakage of that capacitor does to each reading; `measured_a` as a tester showed it.
[[nodiscard]] std::string place_text(const answers::CapacitorLeaks& leaks,
                                     std::size_t capacitor,
                                     const std::optional<double>& measured_a,
                                     const Page& page);

/// All capacitors of the stage, the most sensitive place first.
[[nodiscard]] std::string text_of(const answers::CapacitorLeaks& leaks, const Page& page);

/// One of them with what was measured.
[[nodiscard]] std::string text_of(const answers::CapacitorLeaks& leaks,
                                  const answers::TestedCapacitor& tested,
                                  const Page& page);

/// Every capacitor that was tested in a channel; `leaks` where its stage could be solved.
[[nodiscard]] std::string channel_text(const circuit::Channel& channel,
                                       const answers::CapacitorLeaks* leaks,
                                       const std::vector<answers::TestedCapacitor>& tested,
                                       const std::optional<circuit::Scope>& scope,
                                       const Page& page);

}  // namespace idlepoint::report
