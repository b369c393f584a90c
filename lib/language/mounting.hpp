// Where a part sits: the pairs on=, washer= and coupling= of a part or of `mounted`.
#pragma once

#include "circuit/part.hpp"
#include "language/draft.hpp"
#include "language/fields.hpp"

namespace idlepoint::language {

/// Reads the pairs into `mounting`; null where no `on=` is written. A `?` is noted as a blank.
const Word* read_mounting(Draft& draft,
                          const Statement& statement,
                          Pairs& pairs,
                          circuit::Mounting& mounting);

}  // namespace idlepoint::language
