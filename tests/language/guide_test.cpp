// Oracle: docs/language.md itself: what it shows as a stage must be one.
#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>

#include "circuit/checked_circuit.hpp"
#include "complaints/render.hpp"
#include "language/job_statements.hpp"
#include "language/read_job.hpp"
#include "language/read_points.hpp"
#include "language/reading.hpp"
#include "language/statement_table.hpp"

namespace idlepoint::language {
namespace {

std::string guide() {
  std::ifstream file(IDLEPOINT_SOURCE_DIR "/docs/language.md");
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

// The texts between ``` and ```, in order.
std::vector<std::string> blocks(const std::string& text) {
  std::vector<std::string> found;
  std::size_t at = 0;
  while ((at = text.find("```\n", at)) != std::string::npos) {
    const std::size_t end = text.find("```\n", at + 4);
    found.push_back(text.substr(at + 4, end - at - 4));
    at = end + 4;
  }
  return found;
}

}  // namespace

TEST_CASE("The stages of the guide read and pass their checks", "[language][identity]") {
  const std::vector<std::string> shown = blocks(guide());
  REQUIRE(shown.size() == 5);
  const Files files = {{"practice.stage", shown[0]}, {"practice.types", shown[1]}};
  const auto practice = sound(shown[0], files);
  CHECK(practice.parts.size() == 15);
  const auto checked = circuit::check_circuit(practice);
  if (!checked) FAIL(complaints::render(checked.complaints()));
  const auto right = sound(shown[2], files);
  CHECK(right.title == "Practice amplifier, right channel");
  CHECK(part(right, "R9").value == 475.0);
  CHECK(circuit::check_circuit(right).has_value());
}

TEST_CASE("The points file of the guide can be read", "[language][identity]") {
  const auto read = read_points(blocks(guide()).at(3), "guide.points");
  if (!read) FAIL(complaints::render(read.complaints()));
  CHECK(read->points.size() == 5);
}

TEST_CASE("The job of the guide, and the one among the demonstrations, can be read",
          "[language][identity]") {
  const auto read = read_job(blocks(guide()).at(4), "netlists/guide.job", in_project());
  if (!read) FAIL(complaints::render(read.complaints()));
  CHECK(read->channels.size() == 2);
  const auto demo = read_job_file("netlists/quarry-bench.job", in_project());
  if (!demo) FAIL(complaints::render(demo.complaints()));
  CHECK(demo->channels.size() == 2);
}

TEST_CASE("The guide explains every statement", "[language][identity]") {
  const std::string text = guide();
  std::vector<std::string> keywords;
  for (const StatementFacts& facts : all_statements()) keywords.emplace_back(facts.keyword);
  for (const JobStatementFacts& facts : all_job_statements()) keywords.emplace_back(facts.keyword);
  for (const std::string& keyword : keywords) {
    CAPTURE(keyword);
    CHECK((text.find("`" + keyword + " ") != std::string::npos ||
           text.find("`" + keyword + "`") != std::string::npos));
  }
}

}  // namespace idlepoint::language
