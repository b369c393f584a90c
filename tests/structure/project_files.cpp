#include "structure/project_files.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>

namespace idlepoint::structure {
namespace {

namespace fs = std::filesystem;

fs::path root() { return IDLEPOINT_SOURCE_DIR; }

std::string read(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  INFO("reading " << path);
  REQUIRE(file);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

bool ends_with_any(const std::string& name, std::initializer_list<std::string_view> endings) {
  return std::any_of(endings.begin(), endings.end(), [&](std::string_view ending) {
    return name.ends_with(ending);
  });
}

}  // namespace

std::vector<ProjectFile> project_files(std::initializer_list<std::string_view> folders,
                                       std::initializer_list<std::string_view> endings) {
  std::vector<ProjectFile> found;
  for (const std::string_view folder : folders) {
    INFO("folder " << folder);
    REQUIRE(fs::is_directory(root() / folder));
    for (const auto& entry : fs::recursive_directory_iterator(root() / folder)) {
      const std::string path = fs::relative(entry.path(), root()).generic_string();
      if (entry.is_regular_file() && ends_with_any(path, endings)) {
        found.push_back({path, read(entry.path())});
      }
    }
  }
  std::sort(found.begin(), found.end(), [](const ProjectFile& a, const ProjectFile& b) {
    return a.path < b.path;
  });
  return found;
}

std::string project_text(const std::string& path) { return read(root() / path); }

bool has_file(const std::string& path) { return fs::is_regular_file(root() / path); }

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

}  // namespace idlepoint::structure
