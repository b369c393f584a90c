// Oracle: the rule that a kind of complaint exists only with its broken file, its approved text and
// its entry in the guide.
#include <catch2/catch.hpp>
#include <set>
#include <string>

#include "complaints/kinds.hpp"
#include "structure/project_files.hpp"

namespace idlepoint::structure {
namespace {

/// "netlists/broken/unknown-key.stage" -> "unknown-key".
std::string stem(const std::string& path) {
  return std::filesystem::path(path).stem().generic_string();
}

}  // namespace

TEST_CASE("Every kind of complaint has a broken file, an approved text and an entry",
          "[structure][identity]") {
  const std::string guide = project_text("docs/complaints.md");
  std::set<std::string> broken;
  for (const auto& [path, text] :
       project_files({"netlists/broken"}, {".stage", ".types", ".points", ".job"})) {
    broken.insert(stem(path));
  }
  for (const complaints::KindFacts& kind : complaints::all_kinds()) {
    const std::string name(kind.name);
    CAPTURE(name);
    CHECK(broken.contains(name));
    CHECK(has_file("netlists/broken/approved/" + name + ".txt"));
    CHECK(guide.find("`" + name + "`") != std::string::npos);
  }
}

TEST_CASE("No approved complaint is left without the broken file it belongs to",
          "[structure][identity]") {
  for (const auto& [path, text] : project_files({"netlists/broken/approved"}, {".txt"})) {
    const std::string name = "netlists/broken/" + stem(path);
    CAPTURE(path);
    CHECK((has_file(name + ".stage") || has_file(name + ".types") || has_file(name + ".points") ||
           has_file(name + ".job")));
  }
}

TEST_CASE("No two kinds of complaint share a name", "[structure][identity]") {
  std::set<std::string_view> names;
  for (const complaints::KindFacts& kind : complaints::all_kinds()) {
    CAPTURE(kind.name);
    CHECK(names.insert(kind.name).second);
  }
}

}  // namespace idlepoint::structure
