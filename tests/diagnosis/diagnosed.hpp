// Readings given in words and the diagnosis of them, for the tests.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "answers/asked.hpp"
#include "answers/diagnose.hpp"

namespace idlepoint::tests {

/// `readings` as on a command line, "upper=7.8mV" or "volts a b=1.2V".
[[nodiscard]] std::vector<circuit::BenchReading> taken(const circuit::CheckedCircuit& stage,
                                                       const std::vector<std::string>& readings);

[[nodiscard]] answers::Diagnosis diagnosed(answers::DiagnoseAsked asked);
[[nodiscard]] answers::Diagnosis diagnosed(const answers::Setup& sound,
                                           const std::vector<std::string>& readings);

/// The suspect that has this fault among its words, sizes left out; fails the test where none has.
[[nodiscard]] const answers::Suspect& suspect_of(const answers::Diagnosis& diagnosis,
                                                 const std::string& fault);

/// Every voltage and current reading that the file names, of the stage with the fault, exact.
[[nodiscard]] std::vector<circuit::BenchReading> readings_with(const answers::Setup& sound,
                                                               const std::string& fault);

/// The file's own readings of a copy with the fault, drawn from its tolerances, with a meter's
/// error.
[[nodiscard]] std::vector<circuit::BenchReading> drawn_readings(const answers::Setup& sound,
                                                                const std::string& fault,
                                                                std::uint64_t copy);

}  // namespace idlepoint::tests
