// The project's own files as text, for tests that read them.
#pragma once

#include <filesystem>
#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

namespace idlepoint::structure {

struct ProjectFile {
  std::string path;  ///< From the project's root, with `/`: "lib/values/unit.hpp".
  std::string text;
};

/// Every file below those folders whose name ends in one of `endings`, sorted by path. A folder
/// that does not exist fails the test that asks.
[[nodiscard]] std::vector<ProjectFile> project_files(
    std::initializer_list<std::string_view> folders,
    std::initializer_list<std::string_view> endings);

/// One file's text; fails the test where there is no such file.
[[nodiscard]] std::string project_text(const std::string& path);

/// True where the project has that file.
[[nodiscard]] bool has_file(const std::string& path);

/// The lines of a text, without their ends.
[[nodiscard]] std::vector<std::string> lines_of(const std::string& text);

}  // namespace idlepoint::structure
