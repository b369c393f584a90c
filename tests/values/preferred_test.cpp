// Oracle: the table of IEC 60063, typed in.
#include "values/preferred.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>
#include <vector>

#include "values/quantity.hpp"

namespace idlepoint::values {
namespace {

// [IEC60063], E24.
const std::vector<double> e24 = {1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0,
                                 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5, 8.2, 9.1};

}  // namespace

TEST_CASE("Every value of the E24 series is its own nearest, in every decade",
          "[values][published]") {
  for (int decade = -2; decade <= 6; ++decade) {
    for (const double mantissa : e24) {
      const double value = mantissa * std::pow(10.0, decade);
      CHECK(nearest_e24(value) == Approx(value).epsilon(1e-12));
    }
  }
}

TEST_CASE("The next of the E24 series is the next line of the table", "[values][published]") {
  for (std::size_t index = 0; index < e24.size(); ++index) {
    const double above = index + 1 < e24.size() ? e24[index + 1] : 10.0;
    CHECK(next_e24(1e3 * e24[index], true) == Approx(1e3 * above).epsilon(1e-12));
    CHECK(next_e24(1e3 * above, false) == Approx(1e3 * e24[index]).epsilon(1e-12));
  }
}

TEST_CASE("Between two of the series the nearer by ratio is taken", "[values][analytic]") {
  // 47 and 51: the geometric middle is 48.96.
  CHECK(nearest_e24(48.9) == Approx(47.0));
  CHECK(nearest_e24(49.0) == Approx(51.0));
  CHECK(next_e24(48.9, true) == Approx(51.0));
  CHECK(next_e24(48.9, false) == Approx(47.0));
}

TEST_CASE("A preferred value is the very number that its text is read as", "[values][identity]") {
  for (const std::string text : {"0R33", "4R7", "820R", "2k2", "1M0", "0R068"}) {
    const double value = std::get<double>(read_value(text, Unit::ohm));
    CHECK(nearest_e24(value * 1.01) == value);
  }
}

}  // namespace idlepoint::values
