// Oracle: docs/commands.md, what every answer must say of its conditions.
#include <algorithm>

#include "answers/asked.hpp"

namespace idlepoint::tests {
namespace {

bool any_says(const std::vector<std::string>& warnings, const std::string& words) {
  return std::any_of(warnings.begin(), warnings.end(), [&](const std::string& warning) {
    return warning.find(words) != std::string::npos;
  });
}

const std::string plain = R"(stage "Plain"
rail     vcc 10V
resistor R1 vcc gnd 10k
)";

}  // namespace

TEST_CASE("A stage that can heat is usually answered warm, any other cold", "[answers][identity]") {
  CHECK(answers::usual_state(*drawn(practice_stage()).stage) == solve::HeatState::warm);
  CHECK(answers::usual_state(*drawn(plain).stage) == solve::HeatState::cold);
}

TEST_CASE("That nothing can heat is said where warm is asked for", "[answers][identity]") {
  CHECK(any_says(answers::standing_warnings(drawn(plain, when_warm)), "Nothing here can heat"));
  CHECK(answers::standing_warnings(drawn(plain)).empty());
  CHECK_FALSE(any_says(answers::standing_warnings(drawn(practice_stage(), when_warm)), "Nothing"));
}

TEST_CASE("Stand-in sources are said not to follow the rails", "[answers][identity]") {
  CHECK(any_says(answers::standing_warnings(drawn(practice_stage(), {.rails = 0.5})), "I1, V1"));
  CHECK_FALSE(any_says(answers::standing_warnings(drawn(practice_stage())), "--rails"));
  CHECK(answers::standing_warnings(drawn(plain, {.rails = 0.5})).empty());
}

}  // namespace idlepoint::tests
