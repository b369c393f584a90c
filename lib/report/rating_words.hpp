// What the stage asks of a part beside what its type allows, a sentence a rating.
//
// Used by `swap` and `shelf`. No number is made here.
#pragma once

#include <string>
#include <vector>

#include "answers/demands.hpp"
#include "circuit/circuit.hpp"

namespace idlepoint::report {

/// A demand or a limit with its unit.
[[nodiscard]] std::string rating_figure(answers::Rating rating, double value);

/// "must stand 71 V with the mains high, 60 V allowed: too little", or that the sheet gives no
/// limit.
[[nodiscard]] std::string rating_clause(const answers::RatingCheck& check);

/// "Q606 must stand 71 V with the mains high, 60 V allowed: too little." Each
/// names its number and its limit, or says that the sheet gives none.
[[nodiscard]] std::string rating_sentence(const circuit::Circuit& circuit,
                                          const std::vector<circuit::PartId>& parts,
                                          const answers::RatingCheck& check);

/// One rating of parts that are asked much the same.
struct AskedAlike {
  std::vector<circuit::PartId> parts;
  answers::RatingCheck check;  ///< Of the one that is asked most.
};

/// `checks` of one rating, in their order; alike: the same limit, demands within 3 %.
[[nodiscard]] std::vector<AskedAlike> asked_alike(const std::vector<answers::RatingCheck>& checks);

}  // namespace idlepoint::report
