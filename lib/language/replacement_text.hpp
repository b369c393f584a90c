// What takes a part's place, as written on a command line: another type, or another way to make its
// volts.
//
// Used for `--with` and by `swap`.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "circuit/circuit.hpp"
#include "circuit/edits.hpp"
#include "circuit/stand_in.hpp"
#include "complaints/result.hpp"

namespace idlepoint::language {

/// `Q5=TYPE` of `--with`; the type must be in `circuit.types` (see ReadOptions::wanted_types) and
/// of the part's kind.
[[nodiscard]] complaints::Result<circuit::Edit> read_substitution(std::string_view text,
                                                                  const circuit::Circuit& circuit);

/// Another type, or a stand-in for a diode, a stack or a thermistor.
using Replacement = std::variant<circuit::SetType, circuit::StandIn>;

/// `Q5=TYPE`, `D601=3 TYPE + 22R`, `D601=TYPE + 22R`, `TH1=47R`, `D601=spreader TYPE 1k2 560R`
/// (from collector to base, from base to emitter). A count may be written `3x`. The types must be
/// in `circuit.types`.
[[nodiscard]] complaints::Result<Replacement> read_replacement(std::string_view text,
                                                               const circuit::Circuit& circuit);

/// The names of types in such a text, known or not: for ReadOptions::wanted_types.
[[nodiscard]] std::vector<std::string> types_named_in(std::string_view text);

}  // namespace idlepoint::language
