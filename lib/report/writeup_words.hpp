// A job told to its owner: what was found, done, left, and what is advised; in plain words.
//
// Used by the owner's page and by its JSON, so that both say the same. No number is made here.
#pragma once

#include <string>
#include <vector>

#include "answers/writeup.hpp"

namespace idlepoint::report {

using Sentences = std::vector<std::string>;

/// "Channel right"; empty where the job parts no channels.
[[nodiscard]] std::string channel_heading(const answers::WrittenChannel& channel);

/// "Idling current, as volts across R611".
[[nodiscard]] std::string meaning_in_words(const circuit::Circuit& circuit,
                                           const answers::WrittenReading& reading);

/// "7.2 mV", "about 2.2 V", "will not stand still"; empty where nothing was read.
[[nodiscard]] std::string taken_in_words(const answers::WrittenReading& reading,
                                         const std::optional<circuit::BenchReading>& taken);

/// "6 mV to 15 mV"; empty where nothing is expected.
[[nodiscard]] std::string expected_in_words(const answers::WrittenReading& reading);

/// What was agreed.
[[nodiscard]] std::string scope_in_words(const std::optional<circuit::Scope>& scope);

[[nodiscard]] Sentences found_words(const answers::Writeup& writeup);
[[nodiscard]] Sentences done_words(const answers::Writeup& writeup);
[[nodiscard]] Sentences not_done_words(const answers::Writeup& writeup);
[[nodiscard]] Sentences advice_words(const answers::Writeup& writeup);
[[nodiscard]] Sentences caution_words();

/// What stands under "should read", and that it is calculated.
[[nodiscard]] Sentences where_figures_come_from(const answers::Writeup& writeup);

/// "to be replaced", "replaced", "kept".
[[nodiscard]] std::string fate_in_words(const circuit::Channel& channel,
                                        const answers::TestedCapacitor& tested);

/// A command for each channel that reads outside as it was left, or as it was found where nothing
/// was done: it ranks what may be wrong.
[[nodiscard]] Sentences diagnose_commands(const answers::Writeup& writeup);

}  // namespace idlepoint::report
