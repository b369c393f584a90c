// What a hand meter shows on a dead stage, in words; used by `poweroff` and `preset`.
#pragma once

#include <string>
#include <vector>

#include "answers/poweroff.hpp"
#include "circuit/circuit.hpp"

namespace idlepoint::report {

/// "150R", "560 mV", "open".
[[nodiscard]] std::string off_value(answers::OffRange range, const std::optional<double>& value);

/// The same with its band: "150R (143R to 158R)", "open", "15M (11M to open)".
[[nodiscard]] std::string off_figure_in_words(answers::OffRange range,
                                              const answers::OffFigure& figure);

/// "x2 to lo reads 67R", two pairs joined by "and"; with the leads exchanged where a meter can tell
/// that.
[[nodiscard]] std::string all_legs_in_words(const circuit::Circuit& circuit,
                                            const std::vector<answers::LegsInCircuit>& legs);

/// "Q606 b to e", "D601", "R611": a part between two points, its leads in the points' order where
/// it has more than two.
[[nodiscard]] std::string part_between(const circuit::Part& part,
                                       const circuit::VoltsBetween& points);

/// What the likeliest suspects would show instead, at most `most` of them, those that show the same
/// together: "0 mV: Q606 short b-e; open: R609 open". Those that `leave_out` names are passed over.
/// Empty without any.
[[nodiscard]] std::string suspects_in_words(const answers::OffPoint& point,
                                            std::size_t most,
                                            const std::vector<std::string>& leave_out = {});

}  // namespace idlepoint::report
