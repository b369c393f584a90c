#include "data_folder.hpp"

#include <filesystem>
#include <system_error>

namespace idlepoint::cli {
namespace {

namespace fs = std::filesystem;

// From the program's own place; empty where the system does not tell it.
fs::path beside_the_program() {
  std::error_code trouble;
  const fs::path program = fs::read_symlink("/proc/self/exe", trouble);
  if (trouble) return {};
  return (program.parent_path() / IDLEPOINT_DATA_FROM_PROGRAM).lexically_normal();
}

}  // namespace

std::string data_folder(const std::string& name) {
  fs::path first;
  for (const fs::path& place : {beside_the_program(),
                                fs::path(IDLEPOINT_DATA_SOURCE),
                                fs::path(IDLEPOINT_DATA_INSTALLED)}) {
    const fs::path folder = place / name;
    std::error_code trouble;
    if (fs::is_directory(folder, trouble)) return folder.string();
    if (first.empty()) first = folder;
  }
  return first.string();
}

}  // namespace idlepoint::cli
