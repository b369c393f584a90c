// Oracle: the house's written rules on size, sources and self-containment (DEVELOPERS.md).
#include <catch2/catch.hpp>
#include <map>
#include <regex>
#include <string>
#include <vector>

#include "structure/project_files.hpp"

namespace idlepoint::structure {
namespace {

using Places = std::vector<std::string>;  // What breaks a rule, as path or path:line.
const Places none;

constexpr std::size_t longest_file_lines = 400;
constexpr std::size_t longest_line_characters = 100;

/// Characters, not bytes: continuation bytes of UTF-8 do not count.
std::size_t characters(const std::string& line) {
  std::size_t count = 0;
  for (const char byte : line) count += (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U;
  return count;
}

/// Names of the types that a file defines for others to link against, with their namespace.
std::vector<std::string> linked_types(const std::string& text) {
  static const std::regex opening(R"(^namespace ([\w:]*) ?\{$)");
  static const std::regex type(
      R"(^(?:struct|class|enum class) (\w+)(?: final)?(?: : [^;]*)? \{.*$)");
  std::vector<std::string> names;
  std::string space;
  bool is_own = false;
  std::smatch match;
  for (const std::string& line : lines_of(text)) {
    if (std::regex_match(line, match, opening)) {
      is_own = match[1].length() == 0;
      if (!is_own) space = match[1];
    } else if (line == "}  // namespace") {
      is_own = false;
    } else if (!is_own && std::regex_match(line, match, type)) {
      names.push_back(space + "::" + match[1].str());
    }
  }
  return names;
}

}  // namespace

// Two that share one are one to the linker, which keeps the copies of either's members as it likes.
TEST_CASE("No two types of one namespace share a name", "[structure][identity]") {
  std::map<std::string, std::string> first;
  Places offenders;
  for (const auto& [path, text] : project_files({"lib", "cli"}, {".hpp", ".cpp"})) {
    for (const std::string& name : linked_types(text)) {
      const auto [known, is_new] = first.try_emplace(name, path);
      if (!is_new) offenders.push_back(name + ": " + known->second + ", " + path);
    }
  }
  CHECK(first.contains("idlepoint::answers::Diagnosis"));
  CHECK(offenders == none);
}

TEST_CASE("No source file is longer than four hundred lines", "[structure][identity]") {
  Places offenders;
  for (const auto& [path, text] : project_files({"lib", "cli", "tests"}, {".hpp", ".cpp"})) {
    if (lines_of(text).size() > longest_file_lines) offenders.push_back(path);
  }
  CHECK(offenders == none);
}

TEST_CASE("No line of a source file is wider than a hundred characters", "[structure][identity]") {
  Places offenders;
  for (const auto& [path, text] : project_files({"lib", "cli", "tests"}, {".hpp", ".cpp"})) {
    const std::vector<std::string> lines = lines_of(text);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      // A raw string cannot be broken; nothing else is wider.
      const bool raw = lines[i].find("R\"") != std::string::npos;
      if (characters(lines[i]) > longest_line_characters && !raw) {
        offenders.push_back(path + ":" + std::to_string(i + 1));
      }
    }
  }
  CHECK(offenders == none);
}

// ctest parts a list of names at its semicolons: such a test would never run, and be called passed.
TEST_CASE("No test's name holds a semicolon", "[structure][identity]") {
  static const std::regex named(R"re(TEST_CASE\("([^"]*)")re");
  Places offenders;
  std::size_t count = 0;
  for (const auto& [path, text] : project_files({"tests"}, {".cpp"})) {
    for (std::sregex_iterator match(text.begin(), text.end(), named), end; match != end; ++match) {
      ++count;
      const std::string name = (*match)[1];
      if (name.find(';') != std::string::npos) offenders.push_back(path + ": " + name);
    }
  }
  CHECK(count > 0);
  CHECK(offenders == none);
}

TEST_CASE("Every source cited in the code stands in the list of sources", "[structure][identity]") {
  static const std::regex key(R"(\[([A-Z][A-Za-z]*[0-9]{4}[a-z]?)\])");
  const std::string sources = project_text("docs/sources.md");
  Places offenders;
  for (const auto& [path, text] : project_files({"lib", "cli", "tests", "netlists", "docs"},
                                                {".hpp", ".cpp", ".md", ".stage", ".types"})) {
    for (std::sregex_iterator match(text.begin(), text.end(), key), end; match != end; ++match) {
      const std::string cited = (*match)[1];
      if (sources.find(cited) == std::string::npos) offenders.push_back(path + ": " + cited);
    }
  }
  CHECK(offenders == none);
}

TEST_CASE("Every header opens with what it is for and is included once", "[structure][identity]") {
  for (const auto& [path, text] : project_files({"lib", "cli"}, {".hpp"})) {
    CAPTURE(path);
    CHECK(text.starts_with("// "));
    CHECK(text.find("#pragma once") != std::string::npos);
  }
}

TEST_CASE("Nothing in the project points at a folder outside it", "[structure][identity]") {
  static const std::regex outside(R"((^|[^\w.\-/])(/(work|home|root|tmp)/|(\.\./)+shared/))");
  Places offenders;
  for (const auto& [path, text] : project_files({"lib", "cli", "tests", "docs", "netlists"},
                                                {".hpp",
                                                 ".cpp",
                                                 ".md",
                                                 ".stage",
                                                 ".types",
                                                 ".job",
                                                 ".txt",
                                                 ".cmake",
                                                 ".sh",
                                                 ".mjs",
                                                 ".html"})) {
    if (path == "tests/structure/standing_rules_test.cpp") continue;
    for (const std::string& line : lines_of(text)) {
      if (std::regex_search(line, outside)) offenders.push_back(path + ": " + line);
    }
  }
  CHECK(offenders == none);
}

}  // namespace idlepoint::structure
