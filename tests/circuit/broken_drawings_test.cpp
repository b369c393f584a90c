// Oracle: files of netlists/broken, each spoilt by hand in the one way that it is named for.
#include <catch2/catch.hpp>
#include <set>

#include "circuit/checked_circuit.hpp"
#include "language/read_stage.hpp"

namespace idlepoint::circuit {
namespace {

complaints::Complaints complaints_of(const std::string& name) {
  const std::string path =
      std::string(IDLEPOINT_SOURCE_DIR) + "/netlists/broken/" + name + ".stage";
  auto read = language::read_stage_file(path);
  REQUIRE(read.has_value());
  const auto judged = check_circuit(read->circuit);
  return judged.has_value() ? judged->warnings() : judged.complaints();
}

}  // namespace

TEST_CASE("A drawing spoilt in one way draws complaints of that one kind", "[circuit][identity]") {
  const std::vector<std::string> names = {"blank",
                                          "one-leg",
                                          "unfed-base",
                                          "untied-point",
                                          "part-on-one-point",
                                          "base-on-emitter",
                                          "rails-joined",
                                          "source-loop",
                                          "collector-on-base",
                                          "upside-down",
                                          "rails-of-one-sign",
                                          "unused-rail",
                                          "emitter-resistor",
                                          "diodes-face-to-face",
                                          "odd-value",
                                          "ideal-feed"};
  for (const std::string& name : names) {
    CAPTURE(name);
    std::set<std::string_view> kinds;
    for (const auto& complaint : complaints_of(name)) {
      kinds.insert(complaints::facts(complaint.kind).name);
      CHECK(complaint.places.front().line > 0);
      CHECK(complaint.places.front().column > 0);
    }
    CHECK(kinds == std::set<std::string_view>{name});
  }
}

}  // namespace idlepoint::circuit
