#include "circuit/part_value.hpp"

namespace idlepoint::circuit {

using values::Unit;

Unit unit_of_value(PartKind kind) {
  switch (kind) {
    case PartKind::capacitor:
      return Unit::farad;
    case PartKind::inductor:
      return Unit::henry;
    case PartKind::fuse:
    case PartKind::feed:
      return Unit::ampere;
    case PartKind::hold:
      return Unit::volt;
    default:
      return Unit::ohm;
  }
}

}  // namespace idlepoint::circuit
