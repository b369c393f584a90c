// Whether a settled state is one the laws vouch for.
//
// Newton may settle where a law was only continued: beyond the Early voltage, on the tangent that
// guards an exponential, or megavolts away on insulation alone. Such a state is refused.
#pragma once

#include <optional>

#include "solve/assembly.hpp"

namespace idlepoint::solve {

/// What a state breaks; the first found.
struct OutsideLaw {
  std::optional<Index> point;           ///< Beyond 1 MV.
  std::optional<circuit::PartId> part;  ///< Device outside its law's range.
};

/// Empty where all is well. `work` holds the assembled state.
[[nodiscard]] std::optional<OutsideLaw> find_outside_law(const System& system,
                                                         const Numbers& numbers,
                                                         const State& state,
                                                         const Work& work);

}  // namespace idlepoint::solve
