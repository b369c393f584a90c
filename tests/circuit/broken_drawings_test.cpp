// Oracle: files of netlists/broken, each spoilt by hand in the one way that it is named for, and
// their approved texts, each read and accepted by a person.
#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>
#include <set>
#include <sstream>

#include "circuit/checked_circuit.hpp"
#include "complaints/render.hpp"
#include "language/read_stage.hpp"

namespace idlepoint::circuit {
namespace {

const std::vector<std::string> kinds_of_drawing = {"blank",
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

std::string text_of(const std::string& path) {
  std::ifstream file(std::string(IDLEPOINT_SOURCE_DIR) + "/" + path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

complaints::Complaints complaints_of(const std::string& name) {
  const std::string path = "netlists/broken/" + name + ".stage";
  auto read = language::read_stage(text_of(path), path);
  REQUIRE(read.has_value());
  CHECK(read->warnings.empty());
  const auto judged = check_circuit(read->circuit);
  return judged.has_value() ? judged->warnings() : judged.complaints();
}

}  // namespace

TEST_CASE("Each broken drawing says what has been approved, and nothing else",
          "[circuit][approval]") {
  for (const std::string& name : kinds_of_drawing) {
    CAPTURE(name);
    CHECK(complaints::render(complaints_of(name)) ==
          text_of("netlists/broken/approved/" + name + ".txt"));
  }
}

TEST_CASE("A drawing spoilt in one way draws complaints of that one kind", "[circuit][identity]") {
  for (const std::string& name : kinds_of_drawing) {
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

TEST_CASE("What is wrong with a drawing is said in words of the bench", "[circuit][identity]") {
  const std::vector<std::string> words_to_leave = {"rror:",
                                                   "arning:",
                                                   "nvalid",
                                                   "llegal",
                                                   "floating",
                                                   " node",
                                                   " pin",
                                                   " net ",
                                                   "duplicate",
                                                   "fatal",
                                                   "reference",
                                                   "singular",
                                                   "component",
                                                   "vertex"};
  for (const std::string& name : kinds_of_drawing) {
    const std::string text = text_of("netlists/broken/approved/" + name + ".txt");
    for (const std::string& word : words_to_leave) {
      CAPTURE(name, word);
      CHECK(text.find(word) == std::string::npos);
    }
  }
}

TEST_CASE("Every kind that the drawing's checks know has its broken drawing",
          "[circuit][identity]") {
  std::size_t errors = 0;
  for (const complaints::KindFacts& kind : complaints::all_kinds()) {
    if (kind.gravity != complaints::Gravity::drawing_error) continue;
    ++errors;
    CAPTURE(kind.name);
    CHECK(std::ranges::count(kinds_of_drawing, kind.name) == 1);
  }
  CHECK(errors == 8);
}

}  // namespace idlepoint::circuit
