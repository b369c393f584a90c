// Oracle: netlists/broken/approved, each text read and accepted by a person.
#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>

#include "complaints/render.hpp"
#include "language/fault_text.hpp"
#include "language/read_job.hpp"
#include "language/read_points.hpp"
#include "language/reading.hpp"

namespace idlepoint::language {
namespace {

std::string text_of(const std::string& path) {
  std::ifstream file(std::string(IDLEPOINT_SOURCE_DIR) + "/" + path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

// What the first line of a file asks for: --fault "R8 gain 30".
complaints::Complaints asked_for(const std::string& text, const circuit::Circuit& circuit) {
  const std::string line = text.substr(0, text.find('\n'));
  const std::size_t open = line.find('"');
  const std::size_t close = line.rfind('"');
  if (open == std::string::npos || close == open) return {};
  const std::string words = line.substr(open + 1, close - open - 1);
  const bool is_fault = line.find("--fault ") != std::string::npos;
  const auto edit = is_fault ? read_fault(words, circuit) : read_setting(words, circuit);
  return edit ? complaints::Complaints{} : edit.complaints();
}

// The complaints of a broken file, of the kind it is named for and of any other.
struct SaidOfOne {
  complaints::Complaints of_its_kind;
  complaints::Complaints others;
};

complaints::Complaints said_of_stage(const std::string& path) {
  const std::string text = text_of(path);
  const auto read = read_stage(text, path, in_project());
  complaints::Complaints all = read ? read->warnings : read.complaints();
  if (read && all.empty()) all = asked_for(text, read->circuit);
  return all;
}

complaints::Complaints said_of_points(const std::string& path) {
  const auto read = read_points(text_of(path), path);
  return read ? complaints::Complaints{} : read.complaints();
}

complaints::Complaints said_of_job(const std::string& path) {
  const auto read = read_job(text_of(path), path, in_project());
  return read ? complaints::Complaints{} : read.complaints();
}

complaints::Complaints all_said_of(const std::string& path) {
  if (!text_of(path + ".points").empty()) return said_of_points(path + ".points");
  if (!text_of(path + ".job").empty()) return said_of_job(path + ".job");
  return said_of_stage(path + ".stage");
}

SaidOfOne said_of_file(const std::string& name) {
  const complaints::Complaints all = all_said_of("netlists/broken/" + name);
  SaidOfOne said;
  for (const complaints::Complaint& complaint : all) {
    const bool own = complaints::facts(complaint.kind).name == name;
    (own ? said.of_its_kind : said.others).push_back(complaint);
  }
  return said;
}

// The kinds that reading finds: those before the first that is found in the drawing.
std::vector<std::string> kinds_of_reading() {
  std::vector<std::string> names;
  for (const complaints::KindFacts& kind : complaints::all_kinds()) {
    if (kind.gravity == complaints::Gravity::drawing_error) break;
    names.emplace_back(kind.name);
  }
  return names;
}

}  // namespace

TEST_CASE("Each broken file says what has been approved, and nothing else",
          "[language][approval]") {
  const auto names = kinds_of_reading();
  CHECK(names.size() > 60);
  for (const std::string& name : names) {
    CAPTURE(name);
    const SaidOfOne said = said_of_file(name);
    CHECK(complaints::render(said.of_its_kind) ==
          text_of("netlists/broken/approved/" + name + ".txt"));
    if (name != "too-many-complaints") CHECK(complaints::render(said.others).empty());
  }
}

TEST_CASE("No complaint uses a word that is not the bench's", "[language][identity]") {
  const char* const words_to_leave[] = {"Error:",
                                        "Warning:",
                                        "invalid",
                                        "illegal",
                                        "syntax",
                                        "token",
                                        "parse",
                                        "floating",
                                        "undriven",
                                        " pin ",
                                        " net ",
                                        "duplicate",
                                        "fatal",
                                        "abort",
                                        "singular",
                                        "ignored",
                                        "reference"};
  for (const std::string& name : kinds_of_reading()) {
    for (const complaints::Complaint& complaint : said_of_file(name).of_its_kind) {
      const std::string words =
          " " + complaint.headline + " " + complaint.why + " " + complaint.instead + " ";
      for (const char* word : words_to_leave) {
        CAPTURE(name, words, word);
        const bool of_gnd = std::string_view(word) == "reference" && name == "write-gnd";
        CHECK((of_gnd || words.find(word) == std::string::npos));
      }
    }
  }
}

TEST_CASE("Every complaint of reading has a place, a headline and a reason or a way out",
          "[language][identity]") {
  std::size_t without_a_way = 0;
  for (const std::string& name : kinds_of_reading()) {
    CAPTURE(name);
    const SaidOfOne said = said_of_file(name);
    REQUIRE_FALSE(said.of_its_kind.empty());
    for (const complaints::Complaint& complaint : said.of_its_kind) {
      REQUIRE_FALSE(complaint.places.empty());
      CHECK_FALSE(complaint.headline.empty());
      CHECK(complaint.headline.back() != '.');
      if (complaint.instead.empty() && complaint.why.empty()) ++without_a_way;
    }
  }
  CHECK(without_a_way == 0);
}

}  // namespace idlepoint::language
