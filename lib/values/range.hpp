// Which numbers a quantity may be at all.
//
// Said once beside each field, asked by the reader, the writer and the spreads.
#pragma once

namespace idlepoint::values {

enum class Range {
  any,
  not_negative,
  positive,
  share,      ///< 0 to 1: a travel, a coupling.
  tolerance,  ///< 0 up to, but not, 1.
};

}  // namespace idlepoint::values
