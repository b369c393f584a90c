// Quick fields: one reading from a tester in place of a law's own number.
//
// `vbe=0.58V vbe_at=50mA` sets a saturation current, `vf=` that of a diode, `vgs=` a threshold,
// `idss=` a current factor. Source: docs/models.md, "Quick fields".
#pragma once

#include "circuit/part_type.hpp"
#include "language/fields.hpp"

namespace idlepoint::language {

/// What the reader of a type has found besides its plain fields.
struct QuickFields {
  /// True where a plain field was written; the quick one must then be absent.
  bool has_saturation_current = false;
  bool has_threshold = false;
  bool has_current_factor = false;
};

/// Reads the quick fields of the type's kind into its law and spreads, once the plain fields stand
/// there; complains where neither or both are written.
void read_quick_fields(Draft& draft,
                       const Statement& statement,
                       Pairs& pairs,
                       circuit::PartType& type,
                       const QuickFields& found);

}  // namespace idlepoint::language
