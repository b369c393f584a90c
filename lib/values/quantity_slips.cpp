#include "values/quantity_slips.hpp"

#include <array>

#include "values/number_slips.hpp"
#include "values/slip_words.hpp"
#include "values/unit_slips.hpp"

namespace idlepoint::values {

ValueProblem explain_slip(std::string_view text, Unit expected) {
  if (const auto slip = out_of_size(text, expected)) return *slip;
  if (text.size() <= longest_explained) {
    static constexpr std::array slips = {missing,
                                         decimal_comma,
                                         wrong_minus,
                                         bare_point,
                                         three_letter_mega,
                                         old_microfarad,
                                         percent_sign,
                                         two_values,
                                         tolerance_behind,
                                         capital_kilo,
                                         unit_spelling,
                                         wrong_unit,
                                         letter_case};
    for (const auto slip_of : slips) {
      if (const auto slip = slip_of(text, expected)) return *slip;
    }
  }
  return ValueProblem{
      "value-unreadable",
      quoted(text) + " is no value that can be read",
      "",
      "Write " + std::string(in_words(expected)) + ", such as " + example(expected) + "."};
}

}  // namespace idlepoint::values
