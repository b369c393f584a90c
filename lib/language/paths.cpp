#include "language/paths.hpp"

#include <algorithm>
#include <cstddef>
#include <vector>

namespace idlepoint::language {

std::string folder_of(std::string_view path) {
  const std::size_t slash = path.rfind('/');
  return slash == std::string_view::npos ? std::string() : std::string(path.substr(0, slash + 1));
}

std::variant<std::string, PathRefused> path_inside(std::string_view from_folder,
                                                   std::string_view written,
                                                   std::string_view asked_for) {
  if (written.empty()) return PathRefused{"names no file"};
  if (written.find('\\') != std::string_view::npos) {
    return PathRefused{"holds a backslash: folders are parted by `/`"};
  }
  const bool has_drive = written.size() > 1 && written[1] == ':';
  if (written.front() == '/' || has_drive) {
    return PathRefused{
        "begins at the root of the disk: a path is written from the file it stands in"};
  }
  std::string whole = std::string(from_folder) + std::string(written);
  std::vector<std::string> steps;
  std::size_t at = 0;
  while (at <= whole.size()) {
    const std::size_t slash = std::min(whole.find('/', at), whole.size());
    const std::string step = whole.substr(at, slash - at);
    at = slash + 1;
    if (step.empty() || step == ".") continue;
    if (step != "..") {
      steps.push_back(step);
    } else if (steps.empty()) {
      return PathRefused{"climbs above the " + std::string(asked_for) + " file's folder"};
    } else {
      steps.pop_back();
    }
  }
  if (steps.empty()) return PathRefused{"names a folder"};
  std::string inside;
  for (const std::string& step : steps) inside += (inside.empty() ? "" : "/") + step;
  return inside;
}

}  // namespace idlepoint::language
