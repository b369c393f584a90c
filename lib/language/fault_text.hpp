// Faults, settings and probes as written on a command line.
#pragma once

#include <string>
#include <string_view>

#include "circuit/circuit.hpp"
#include "circuit/edits.hpp"
#include "complaints/result.hpp"

namespace idlepoint::language {

/// `Q5 short c-e`, `bridge a b`, ...: every form of docs/language.md, "Faults". The complaint's
/// place is ("command line", column in `text`).
[[nodiscard]] complaints::Result<circuit::Edit> read_fault(std::string_view text,
                                                           const circuit::Circuit& circuit);

/// `VR2=40%` of `--at`.
[[nodiscard]] complaints::Result<circuit::Edit> read_setting(std::string_view text,
                                                             const circuit::Circuit& circuit);

/// `Q5` of `--good`: the name of one part.
[[nodiscard]] complaints::Result<circuit::PartId> read_part(std::string_view text,
                                                            const circuit::Circuit& circuit);

/// `Q5` of `--without`.
[[nodiscard]] complaints::Result<circuit::Edit> read_removal(std::string_view text,
                                                             const circuit::Circuit& circuit);

/// `volts A B`, `amps R11`, `watts Q5`, `celsius HS1` of `--reading`.
[[nodiscard]] complaints::Result<circuit::Probe> read_probe(std::string_view text,
                                                            const circuit::Circuit& circuit);

}  // namespace idlepoint::language
