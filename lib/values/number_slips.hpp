// Slips in the digits and marks of a value; see quantity_slips.hpp.
//
// Each function knows one slip and returns nothing where the text is another.
#pragma once

#include "values/slip_words.hpp"

namespace idlepoint::values {

/// Nothing stands where a value belongs.
[[nodiscard]] Slip missing(std::string_view text, Unit unit);
/// 1e999: digits that could be read but for their size.
[[nodiscard]] Slip out_of_size(std::string_view text, Unit unit);
/// 0,33
[[nodiscard]] Slip decimal_comma(std::string_view text, Unit unit);
/// A printed dash for a minus.
[[nodiscard]] Slip wrong_minus(std::string_view text, Unit unit);
/// .47 and 4.
[[nodiscard]] Slip bare_point(std::string_view text, Unit unit);
/// 47/50, 0.33(5W), 47u50V: two of the sheet's values in one word.
[[nodiscard]] Slip two_values(std::string_view text, Unit unit);
/// 4k7J
[[nodiscard]] Slip tolerance_behind(std::string_view text, Unit unit);
/// 0.5 where a percentage belongs.
[[nodiscard]] Slip percent_sign(std::string_view text, Unit unit);

}  // namespace idlepoint::values
