// Slips in the prefix or unit of a value; see quantity_slips.hpp.
//
// Each function knows one slip and returns nothing where the text is another.
#pragma once

#include "values/slip_words.hpp"

namespace idlepoint::values {

/// 1MEG
[[nodiscard]] Slip three_letter_mega(std::string_view text, Unit unit);
/// 100MFD
[[nodiscard]] Slip old_microfarad(std::string_view text, Unit unit);
/// 2K2 where it is no resistance.
[[nodiscard]] Slip capital_kilo(std::string_view text, Unit unit);
/// 47ohms, 25 degrees with their sign, 2C/W.
[[nodiscard]] Slip unit_spelling(std::string_view text, Unit unit);
/// 28V for a resistor.
[[nodiscard]] Slip wrong_unit(std::string_view text, Unit unit);
/// 470P, 10v, 0r33.
[[nodiscard]] Slip letter_case(std::string_view text, Unit unit);

}  // namespace idlepoint::values
