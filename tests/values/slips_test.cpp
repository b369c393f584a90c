// Oracle: the slips that printed schematics invite, each with what a person would have meant.
#include <catch2/catch.hpp>
#include <string>

#include "values/quantity.hpp"

namespace idlepoint::values {
namespace {

struct Slip {
  const char* text;
  Unit unit;
  const char* kind;
  const char* meant;  // Is to be found in what the complaint says to write.
};

}  // namespace

TEST_CASE("Each slip of the pen is answered with what to write", "[values][identity]") {
  const Slip slips[] = {{".47", Unit::ohm, "bare-point", "`0R47`"},
                        {"4.", Unit::volt, "bare-point", "`4.0`"},
                        {"0,47", Unit::ohm, "decimal-comma", "`0R47`"},
                        {"10,000", Unit::ohm, "decimal-comma", "without the comma"},
                        {"1,2V", Unit::volt, "decimal-comma", "`1.2V`"},
                        {"1MEG", Unit::ohm, "three-letter-mega", "`1M`"},
                        {"2.2meg", Unit::ohm, "three-letter-mega", "`2.2M`"},
                        {"4k7J", Unit::ohm, "tolerance-behind-value", "`4k7 tolerance=5%`"},
                        {"470J", Unit::ohm, "tolerance-behind-value", "`470 tolerance=5%`"},
                        {"4R7F", Unit::ohm, "tolerance-behind-value", "tolerance=1%"},
                        {"100nK", Unit::farad, "tolerance-behind-value", "`100n`"},
                        {"47/50", Unit::farad, "two-values", "`47u voltage=50V`"},
                        {"47u50V", Unit::farad, "two-values", "`47u voltage=50V`"},
                        {"47u/50V", Unit::farad, "two-values", "`47u voltage=50V`"},
                        {"0.33(5W)", Unit::ohm, "two-values", "`0.33 power=5W`"},
                        {"470P", Unit::farad, "letter-case", "`470p`"},
                        {"0r33", Unit::ohm, "letter-case", "`0R33`"},
                        {"10v", Unit::volt, "letter-case", "`10V`"},
                        {"2K2", Unit::volt, "capital-kilo", "`2k2`"},
                        {"100MFD", Unit::farad, "old-microfarad", "`100u`"},
                        {"100mfd", Unit::farad, "old-microfarad", "`100u`"},
                        {"0.5", Unit::percent, "percent-sign", "`50%`"},
                        {"5", Unit::tolerance, "percent-sign", "`5%`"},
                        {"25\u00b0C", Unit::temperature, "unit-spelling", "`25C`"},
                        {"2C/W", Unit::kelvin_per_watt, "unit-spelling", "`2K/W`"},
                        {"47ohms", Unit::ohm, "unit-spelling", "`47R`"},
                        {"\u221233V", Unit::volt, "minus-sign", "`-33V`"},
                        {"10V", Unit::ohm, "wrong-unit", "4k7"},
                        {"10F", Unit::ohm, "wrong-unit", "4k7"},
                        {"4.7K", Unit::farad, "wrong-unit", "2u2"},
                        {"2K", Unit::kelvin_per_watt, "wrong-unit", "1.2K/W"},
                        {"1e999", Unit::ohm, "value-size", ""},
                        {"1e-400", Unit::ampere, "value-size", ""},
                        {"abc", Unit::ohm, "value-unreadable", "0R33"},
                        {"", Unit::ohm, "value-unreadable", "0R33"},
                        {"4.7k7", Unit::ohm, "value-unreadable", ""},
                        {"4R7R", Unit::ohm, "value-unreadable", ""},
                        {"0x10", Unit::ohm, "value-unreadable", ""},
                        {"inf", Unit::ohm, "value-unreadable", ""},
                        {"nan", Unit::volt, "value-unreadable", ""},
                        {"1 k", Unit::ohm, "value-unreadable", ""},
                        {"-", Unit::volt, "value-unreadable", ""},
                        {"+-5", Unit::volt, "value-unreadable", ""}};
  for (const Slip& slip : slips) {
    CAPTURE(slip.text);
    const auto read = read_value(slip.text, slip.unit);
    REQUIRE(std::holds_alternative<ValueProblem>(read));
    const ValueProblem& problem = std::get<ValueProblem>(read);
    CHECK(problem.kind == slip.kind);
    CHECK_THAT(problem.instead, Catch::Matchers::Contains(slip.meant));
    CHECK_FALSE(problem.headline.empty());
  }
}

TEST_CASE("A wrong unit is named together with the right one", "[values][identity]") {
  const auto read = read_value("28V", Unit::ohm);
  const ValueProblem& problem = std::get<ValueProblem>(read);
  CHECK_THAT(problem.headline, Catch::Matchers::Contains("volts"));
  CHECK_THAT(problem.headline, Catch::Matchers::Contains("ohms"));
}

TEST_CASE("A value as long as a book is refused at once and not repeated", "[values][identity]") {
  const std::string digits(2'000'000, '1');
  for (const std::string& text : {digits, digits + "x", "0," + digits, std::string(100'000, 'k')}) {
    const auto read = read_value(text, Unit::ohm);
    REQUIRE(std::holds_alternative<ValueProblem>(read));
    CHECK(std::get<ValueProblem>(read).headline.size() < 200);
    CHECK(std::get<ValueProblem>(read).instead.size() < 200);
  }
}

}  // namespace idlepoint::values
