// What a command line says of a capacitor: `capacitance=92u esr=0R31 frequency=1kHz`.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers/capacitor_limits.hpp"
#include "trouble.hpp"

namespace idlepoint::cli {

/// The words of a command line, sorted.
struct CapacitorWords {
  std::vector<std::string> names;     ///< Those without `=`: a file, a capacitor.
  answers::CapacitorFigures figures;  ///< `value_f` is 0 where it was not written.
  bool has_figures = false;           ///< Any was measured.
};

/// Refuses a key that is not known, one written twice, a value that cannot be read, an ESR without
/// its frequency, a leakage without its volts.
[[nodiscard]] Tried<CapacitorWords> read_capacitor_words(const std::vector<std::string>& words);

}  // namespace idlepoint::cli
