#include "acceptance/commands_program.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace idlepoint::tests {
namespace {

namespace fs = std::filesystem;

std::string text_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  INFO("reading " << path);
  REQUIRE(file);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

// A folder of this process alone: test cases may run side by side.
const fs::path& own_folder() {
  static const fs::path folder = [] {
    fs::path made = fs::temp_directory_path() / ("idlepoint-commands-" + std::to_string(getpid()));
    fs::create_directories(made);
    return made;
  }();
  return folder;
}

}  // namespace

Ran run_program(const std::string& words, const std::string& input) {
  const fs::path out = own_folder() / "out";
  const fs::path err = own_folder() / "err";
  const fs::path in = own_folder() / "in";
  std::ofstream(in, std::ios::binary) << input;
  const std::string line = "cd '" IDLEPOINT_SOURCE_DIR "' && '" IDLEPOINT_PROGRAM "' " + words +
                           " >'" + out.string() + "' 2>'" + err.string() + "' <'" + in.string() +
                           "'";
  const int ended = std::system(line.c_str());
  REQUIRE(WIFEXITED(ended));
  return {WEXITSTATUS(ended), text_of(out), text_of(err)};
}

Ran run_line(const std::string& line) {
  const std::string program = "idlepoint";
  REQUIRE(line.starts_with(program));
  return run_program(line.substr(program.size()));
}

std::string project_file(const std::string& path) {
  return text_of(fs::path(IDLEPOINT_SOURCE_DIR) / path);
}

}  // namespace idlepoint::tests
