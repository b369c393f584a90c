// Oracle: files of netlists/broken, each spoilt by hand in the one way that it is named for, and
// their approved texts, each read and accepted by a person.
#include <algorithm>
#include <fstream>
#include <sstream>

#include "answers/asked.hpp"

namespace idlepoint::tests {
namespace {

const std::vector<std::string> kinds_of_state = {"reversed-transistor",
                                                 "idle-transistor",
                                                 "more-than-one-state",
                                                 "trimmer-without-effect",
                                                 "adjust-out-of-reach"};

std::string text_of(const std::string& path) {
  std::ifstream file(std::string(IDLEPOINT_SOURCE_DIR) + "/" + path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

complaints::Complaints complaints_of(const std::string& name) {
  const std::string path = "netlists/broken/" + name + ".stage";
  return check_of(setup_of(required(language::read_stage(text_of(path), path)))).complaints;
}

}  // namespace

TEST_CASE("Each stage that only its state betrays says what has been approved, and nothing else",
          "[answers][approval]") {
  for (const std::string& name : kinds_of_state) {
    CAPTURE(name);
    CHECK(complaints::render(complaints_of(name)) ==
          text_of("netlists/broken/approved/" + name + ".txt"));
  }
}

TEST_CASE("A stage spoilt in one way draws complaints of that one kind once it is solved",
          "[answers][identity]") {
  for (const std::string& name : kinds_of_state) {
    CAPTURE(name);
    const auto complaints = complaints_of(name);
    REQUIRE(complaints.size() == 1);
    CHECK(complaints::facts(complaints.front().kind).name == name);
    CHECK(complaints::facts(complaints.front().kind).gravity == complaints::Gravity::warning);
  }
}

}  // namespace idlepoint::tests
