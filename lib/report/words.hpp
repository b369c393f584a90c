// Sentences that every text report shares: what was asked, under which conditions, what was taken
// as given, and the standing caution.
//
// No number is made here; all come from the answers.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "answers/reading_values.hpp"
#include "circuit/circuit.hpp"
#include "circuit/uncertainty.hpp"
#include "report/page.hpp"
#include "solve/conditions.hpp"

namespace idlepoint::report {

/// "e_hi to out", "amps from vpos", "amps through R11", "collector amps of Q6", "HS1".
[[nodiscard]] std::string probe_in_words(const circuit::Circuit& circuit,
                                         const circuit::Probe& probe);

[[nodiscard]] std::vector<std::string> names_of(const circuit::Circuit& circuit,
                                                const std::vector<circuit::PartId>& parts);

/// "R11", "R11 and R12", "R11, R12 and R13". Empty for none.
[[nodiscard]] std::string list_in_words(const std::vector<std::string>& names);

/// "1 error", "3 errors".
[[nodiscard]] std::string count_in_words(std::size_t count, const char* what);

/// "R11", "vpos", "Q507 Q517": whose numbers these are, a name each.
[[nodiscard]] std::string owners_of(const circuit::Circuit& circuit,
                                    const std::vector<circuit::Parameter>& parameters);

/// True where the answer is given in ohms of a variable resistor: two legs used, or the second end
/// wired to the wiper's own joint.
[[nodiscard]] bool is_variable_resistor(const circuit::Part& trimmer);

/// "VR2 at 354R" where it is a variable resistor, "VR1 66 % from e1" where all legs are used.
[[nodiscard]] std::string setting_in_words(const circuit::Circuit& circuit,
                                           const circuit::Part& trimmer,
                                           double travel);

/// The first line of a report: title, rails, room, load, changes made to the drawing.
[[nodiscard]] std::string opening(const circuit::Circuit& circuit,
                                  const solve::Conditions& conditions,
                                  const std::vector<std::string>& changes,
                                  const Page& page);

/// "Where the trimmers stand: ..."; empty without trimmers.
[[nodiscard]] std::string trimmers_line(const circuit::Circuit& circuit, const Page& page);

/// "Taken as given: ...": what the figures rest on that nobody measured.
[[nodiscard]] std::string taken_as_given(const circuit::Circuit& circuit,
                                         const solve::Conditions& conditions,
                                         const Page& page);

/// What the brackets beside the readings mean, which readings were sampled for them, and which part
/// types they leave out.
[[nodiscard]] std::string bands_in_words(const circuit::Circuit& circuit,
                                         const std::vector<answers::ReadingValue>& readings,
                                         const std::optional<answers::ColdMoment>& cold,
                                         const Page& page);

/// That these are nominal parts, and how far real ones may be: by what a stage with transistors and
/// an `adjust` is known for, in general words for any other.
[[nodiscard]] std::string spread_of_parts(const circuit::Circuit& circuit, const Page& page);

/// "Worth knowing: ..." with one line a warning; empty without warnings.
[[nodiscard]] std::string warnings_list(const std::vector<std::string>& warnings, const Page& page);

/// What every answer that a hand may follow ends with.
[[nodiscard]] std::string standing_caution(const circuit::Circuit& circuit, const Page& page);

}  // namespace idlepoint::report
