// Sentences of a diagnosis: odds, suspects, what is ruled out, what to measure next.
//
// Used by text_diagnosis, by json_diagnosis for its texts, and by `diagnose --ask` between two
// readings. No sentence says what the numbers do not show; no number is made here.
#pragma once

#include <string>
#include <vector>

#include "answers/diagnose.hpp"
#include "report/page.hpp"

namespace idlepoint::report {

/// Suspects less likely than this are counted, not listed.
inline constexpr double worth_a_line = 0.01;

/// "about 6 in 10", "about 1 in 20", "under 1 in 100", "more than 99 in 100".
[[nodiscard]] std::string odds_in_words(double probability);

/// What a suspect is called: its fault, "no fault at all" or "none of these".
[[nodiscard]] std::string suspect_in_words(const answers::Suspect& suspect);

/// Whether a sound amplifier reads like this, and how often.
[[nodiscard]] std::string sound_in_words(const answers::Diagnosis& diagnosis);

/// True where no cause in the list fits: "none of these" leads.
[[nodiscard]] bool fits_nothing(const answers::Diagnosis& diagnosis);

/// The suspects, a line each with what no meter tells from it; those under 1 in 100 counted.
[[nodiscard]] std::string suspects_list(const answers::Diagnosis& diagnosis, const Page& page);

/// "Not it: Q607 open (lower would still show 1.0 mV), ..."; empty for none.
[[nodiscard]] std::string ruled_out_in_words(const answers::Diagnosis& diagnosis);

/// Readings that no cause explains beside the others, a sentence each.
[[nodiscard]] std::vector<std::string> contradictions(const answers::Diagnosis& diagnosis);

/// "MEASURE NEXT" with what each suspect would show there and how to take it.
[[nodiscard]] std::string next_section(const answers::Diagnosis& diagnosis,
                                       std::size_t index,
                                       const Page& page);

/// "Second best: volts hi to gnd: -7.0 V if Q605 open, ..."; `index` from 1.
[[nodiscard]] std::string other_next(const answers::Diagnosis& diagnosis, std::size_t index);

/// Which suspects answer to tapping, to warmth or to freezer spray, and how a reading moves then; a
/// sentence each.
[[nodiscard]] std::vector<std::string> intermittents(const answers::Diagnosis& diagnosis);

/// How to prove the first suspect before it is changed, and where to see what it did to the others;
/// empty where none stands out.
[[nodiscard]] std::vector<std::string> before_it_is_changed(const answers::Diagnosis& diagnosis);

}  // namespace idlepoint::report
