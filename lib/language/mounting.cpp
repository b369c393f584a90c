#include "language/mounting.hpp"

namespace idlepoint::language {

using values::Unit;

const Word* read_mounting(Draft& draft,
                          const Statement& statement,
                          Pairs& pairs,
                          circuit::Mounting& mounting) {
  const Word* on = pairs.find("on");
  mounting.washer_k_per_w =
      pairs.number("washer", Unit::kelvin_per_watt, Range::not_negative).value_or(0.0);
  mounting.coupling = pairs.number("coupling", Unit::percent, Range::share).value_or(1.0);
  if (on == nullptr) return nullptr;
  if (on->text == "?") {
    note_blank(draft, statement, *on, "the heat sink");
  } else {
    mounting.heatsink = heatsink_named(draft, *on);
  }
  return on;
}

}  // namespace idlepoint::language
