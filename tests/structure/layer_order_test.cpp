// Oracle: the table of layers in docs/architecture.md, written out here once more.
#include <catch2/catch.hpp>
#include <map>
#include <regex>
#include <set>
#include <string>

#include "structure/project_files.hpp"

namespace idlepoint::structure {
namespace {

using Layers = std::set<std::string>;

const std::map<std::string, Layers>& allowed_layers() {
  static const std::map<std::string, Layers> table = {
      {"values", {}},
      {"complaints", {"values"}},
      {"devices", {"values"}},
      {"circuit", {"values", "complaints", "devices"}},
      {"language", {"values", "complaints", "devices", "circuit"}},
      {"solve", {"values", "complaints", "devices", "circuit"}},
      {"answers", {"values", "complaints", "devices", "circuit", "solve"}},
      {"report", {"values", "complaints", "devices", "circuit", "solve", "answers"}},
  };
  return table;
}

/// What stands between the quotes or brackets of each #include, in order.
std::vector<std::string> includes_of(const std::string& text) {
  static const std::regex include(R"(^\s*#\s*include\s*["<]([^">]+)[">])");
  std::vector<std::string> found;
  for (const std::string& line : lines_of(text)) {
    std::smatch match;
    if (std::regex_search(line, match, include)) found.push_back(match[1]);
  }
  return found;
}

std::string first_folder(const std::string& path) { return path.substr(0, path.find('/')); }

}  // namespace

TEST_CASE("No file of a layer includes a layer above its own", "[structure][identity]") {
  for (const auto& [path, text] : project_files({"lib"}, {".hpp", ".cpp"})) {
    const std::string layer = first_folder(path.substr(std::string("lib/").size()));
    CAPTURE(path, layer);
    REQUIRE(allowed_layers().contains(layer));
    for (const std::string& include : includes_of(text)) {
      const std::string other = first_folder(include);
      CAPTURE(include);
      const bool foreign = !allowed_layers().contains(other);
      CHECK((foreign || other == layer || allowed_layers().at(layer).contains(other)));
      CHECK(other != "cli");
    }
  }
}

TEST_CASE("Every layer of the table is a folder of the library", "[structure][identity]") {
  Layers seen;
  for (const auto& [path, text] : project_files({"lib"}, {".hpp"})) {
    seen.insert(first_folder(path.substr(std::string("lib/").size())));
  }
  for (const auto& [layer, below] : allowed_layers()) {
    CAPTURE(layer);
    CHECK(seen.contains(layer));
  }
}

TEST_CASE("The graph library stays inside the circuit's own sources", "[structure][identity]") {
  for (const auto& [path, text] : project_files({"lib", "cli"}, {".hpp", ".cpp"})) {
    const bool may = path.starts_with("lib/circuit/") && path.ends_with(".cpp");
    for (const std::string& include : includes_of(text)) {
      CAPTURE(path, include);
      CHECK((may || !include.starts_with("boost/graph/")));
    }
  }
}

TEST_CASE("Every file is listed by name where its folder is built", "[structure][identity]") {
  for (const auto& [path, text] : project_files({"lib", "cli", "tests"}, {".hpp", ".cpp"})) {
    // Headers of the program and of the tests need no listing: only the library's are installed.
    if (path.ends_with(".hpp") && !path.starts_with("lib/")) continue;
    if (path.starts_with("tests/language/fuzz_")) continue;  // Listed in tests/fuzzing.cmake.
    const std::size_t slash = path.rfind('/');
    const std::string list = project_text(path.substr(0, slash) + "/CMakeLists.txt");
    static const std::regex space(R"([\s()]+)");
    const std::set<std::string> words(
        std::sregex_token_iterator(list.begin(), list.end(), space, -1), {});
    CAPTURE(path);
    CHECK(words.contains(path.substr(slash + 1)));
  }
}

// So every such header is compiled with nothing before it; the preset `headers` compiles the rest.
TEST_CASE("A source includes its own header before any other", "[structure][identity]") {
  for (const auto& [path, text] : project_files({"lib"}, {".cpp"})) {
    const std::string header = path.substr(0, path.rfind('.')) + ".hpp";
    if (!has_file(header)) continue;
    const std::vector<std::string> includes = includes_of(text);
    CAPTURE(path);
    CHECK((!includes.empty() && "lib/" + includes.front() == header));
  }
}

TEST_CASE("A quoted include names a file of the project", "[structure][identity]") {
  static const std::regex quoted(R"re(^\s*#\s*include\s*"([^"]+)")re");
  for (const auto& [path, text] : project_files({"lib", "cli", "tests"}, {".hpp", ".cpp"})) {
    for (const std::string& line : lines_of(text)) {
      std::smatch match;
      if (!std::regex_search(line, match, quoted)) continue;
      const std::string name = match[1];
      CAPTURE(path, name);
      const std::string beside = path.substr(0, path.rfind('/') + 1) + name;
      CHECK((has_file("lib/" + name) || has_file("tests/" + name) || has_file(beside)));
    }
  }
}

}  // namespace idlepoint::structure
