// A capacitor's figures, limits and place in words.
//
// Used by report/text_capacitor and by the owner's page.
#pragma once

#include <string>
#include <vector>

#include "answers/capacitor_leaks.hpp"
#include "answers/capacitor_limits.hpp"
#include "circuit/job.hpp"

namespace idlepoint::report {

/// "100 uF, 40 V" or "100 uF".
[[nodiscard]] std::string printed_on(const answers::CapacitorFigures& figures);

/// "capacitance", "ESR", "leakage".
[[nodiscard]] std::string quantity_in_words(answers::CapacitorQuantity what);

/// "92 uF", "0R31 at 1 kHz", "4 uA at 16 V".
[[nodiscard]] std::string measured_in_words(const answers::CapacitorLimit& limit,
                                            const answers::CapacitorFigures& figures);

/// "80 uF to 120 uF", "at most 1R59 at 120 Hz", "at most 40 uA at 40 V, after 2 minutes".
[[nodiscard]] std::string limit_in_words(const answers::CapacitorLimit& limit,
                                         const answers::CapacitorFigures& figures);

/// What the figures that keep their limits cannot show, and how to find it out; a sentence or two
/// each.
[[nodiscard]] std::vector<std::string> what_is_not_shown(const answers::CapacitorVerdict& verdict);

/// What to do with it in a job of that scope; one sentence or two.
[[nodiscard]] std::string recommended(const answers::CapacitorVerdict& verdict,
                                      const std::optional<circuit::Scope>& scope);

/// Where the limits come from: the table's row and the loss it allows.
[[nodiscard]] std::string where_limits_come_from(const answers::CapacitorFigures& figures);

/// "50 mV of offset", "a twentieth of it": why a shift of a reading begins to matter.
[[nodiscard]] std::string why_it_matters(const answers::CapacitorLeaks& leaks,
                                         const answers::LeakEffect& effect);

/// "480 uA", or "none in reason".
[[nodiscard]] std::string leakage_in_words(const std::optional<double>& leakage_a);

}  // namespace idlepoint::report
