// Oracle: edit distances counted by hand, and by a plain recursion written here.
#include "complaints/nearest.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>
#include <vector>

namespace idlepoint::complaints {
namespace {

using Known = std::vector<std::string>;

// The definition, letter by letter, without a table: insert, drop, replace, exchange neighbours.
std::size_t distance_by_definition(std::string_view a, std::string_view b) {
  if (a.empty() || b.empty()) return std::max(a.size(), b.size());
  const std::size_t replaced =
      distance_by_definition(a.substr(1), b.substr(1)) + (a[0] == b[0] ? 0 : 1);
  std::size_t least = std::min({distance_by_definition(a.substr(1), b) + 1,
                                distance_by_definition(a, b.substr(1)) + 1,
                                replaced});
  if (a.size() > 1 && b.size() > 1 && a[0] == b[1] && a[1] == b[0]) {
    least = std::min(least, distance_by_definition(a.substr(2), b.substr(2)) + 1);
  }
  return least;
}

}  // namespace

TEST_CASE("The nearest name is the one that was meant", "[complaints][identity]") {
  const Known nodes = {"gnd", "vpos", "vneg", "drive", "out", "e_hi", "e_lo"};
  CHECK(nearest_name("drve", nodes) == "drive");
  CHECK(nearest_name("dirve", nodes) == "drive");
  CHECK(nearest_name("DRIVE", nodes) == "drive");
  CHECK(nearest_name("vposs", nodes) == "vpos");
  CHECK(nearest_name("e_hu", nodes) == "e_hi");
  CHECK_FALSE(nearest_name("collector", nodes));
  CHECK_FALSE(nearest_name("", nodes));
}

TEST_CASE("A difference of case alone goes before a letter", "[complaints][identity]") {
  CHECK(nearest_name("q1", Known{"q2", "Q1"}) == "Q1");
}

TEST_CASE("Names of one or two letters are offered one letter away only",
          "[complaints][identity]") {
  CHECK(nearest_name("R8", Known{"R9"}) == "R9");
  CHECK_FALSE(nearest_name("R8", Known{"Q9"}));
  CHECK_FALSE(nearest_name("x", Known{"y"}));
}

TEST_CASE("Of several equally near the first is offered", "[complaints][identity]") {
  CHECK(nearest_name("R15", Known{"R12", "R13", "R14"}) == "R12");
}

TEST_CASE("The table gives the distance of its definition", "[complaints][identity]") {
  std::mt19937 generator(7);
  for (int round = 0; round < 3000; ++round) {
    const auto word = [&generator] {
      std::string text;
      const std::size_t size = 3 + generator() % 4;
      for (std::size_t at = 0; at < size; ++at) text += static_cast<char>('p' + generator() % 3);
      return text;
    };
    const std::string a = word();
    const std::string b = word();
    CAPTURE(a, b);
    const bool near = distance_by_definition(a, b) <= 2;
    CHECK(nearest_name(a, Known{b}).has_value() == near);
  }
}

}  // namespace idlepoint::complaints
