// Every single fault that the readings of a stage are compared with.
//
// One entry a fault; where the fault has a size (a drifted value, a leak, a gain, a travel) one
// entry with its range, whose size the diagnosis fits. Used by the diagnosis and its blind trials.
#pragma once

#include <optional>
#include <vector>

#include "answers/diagnose.hpp"
#include "answers/fault_odds.hpp"
#include "circuit/checked_circuit.hpp"
#include "circuit/edits.hpp"

namespace idlepoint::answers {

/// The size of a fault: between `low` and `high`, even on a logarithmic scale; a travel even as it
/// is. SI; travel 0 to 1.
struct SizeRange {
  double low = 0.0;
  double high = 0.0;
  bool is_logarithmic = true;

  /// From -1 at `low` to 1 at `high`.
  [[nodiscard]] double at(double t) const;
};

struct SuspectedFault {
  circuit::Edit edit;  ///< With the size in the middle of the range, where it has one.
  FaultKind kind = FaultKind::open;
  double weight = 0.0;  ///< Against the other faults of the list; see fault_odds.
  std::optional<SizeRange> size = {};
  std::vector<circuit::Edit> same = {};  ///< Other words for the very same drawing.
  std::optional<circuit::PartId> part = {};
};

/// All of them but those inside parts that are `good`; leads off, bridges and lost rails stay. The
/// types that a part may have been replaced by are those of `stage` of the same kind.
[[nodiscard]] std::vector<SuspectedFault> suspects(const circuit::CheckedCircuit& stage,
                                                   const std::vector<circuit::PartId>& good);

/// The edit with its size at `t`, -1 to 1; as it is where it has none.
[[nodiscard]] circuit::Edit edit_at(const SuspectedFault& fault, double t);

/// Puts the size of a fault that is in the circuit at `t`, in place.
void set_size(circuit::Circuit& circuit, const SuspectedFault& fault, double t);

/// What makes a fault of that kind come and go.
[[nodiscard]] AnswersTo answers_to(FaultKind kind) noexcept;

}  // namespace idlepoint::answers
