// Oracle: the program itself, for every command that README.md and docs/*.md show.
//
// A command is a line of a fenced block marked `sh` that begins with `idlepoint`. Where one such
// line stands alone in its block and the next block is marked `text`, that is its standard output;
// a line of three points there stands for any number of lines.
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <sstream>
#include <vector>

#include "acceptance/commands_program.hpp"

namespace idlepoint::tests {
namespace {

struct Block {
  std::string mark;  // "sh", "text", ...
  std::vector<std::string> lines;
};

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

std::vector<Block> blocks_of(const std::string& text) {
  std::vector<Block> blocks;
  bool inside = false;
  for (const auto& line : lines_of(text)) {
    if (line.starts_with("```")) {
      inside = !inside;
      if (inside) blocks.push_back({line.substr(3), {}});
    } else if (inside) {
      blocks.back().lines.push_back(line);
    }
  }
  return blocks;
}

std::vector<std::string> commands_of(const Block& block) {
  std::vector<std::string> commands;
  for (const auto& line : block.lines) {
    if (block.mark == "sh" && line.starts_with("idlepoint ")) commands.push_back(line);
  }
  return commands;
}

std::vector<std::string> documents() {
  std::vector<std::string> paths;
  const std::filesystem::path root = IDLEPOINT_SOURCE_DIR;
  if (std::filesystem::exists(root / "README.md")) paths.emplace_back("README.md");
  for (const auto& entry : std::filesystem::directory_iterator(root / "docs")) {
    if (entry.path().extension() == ".md")
      paths.push_back("docs/" + entry.path().filename().string());
  }
  std::sort(paths.begin(), paths.end());
  return paths;
}

// Each run of lines between lines of three points stands in the output, in order.
bool matches(const std::vector<std::string>& shown, const std::vector<std::string>& printed) {
  auto from = printed.begin();
  bool skips = false;
  for (auto line = shown.begin(); line != shown.end();) {
    if (*line == "...") {
      skips = true;
      ++line;
      continue;
    }
    const auto run_end = std::find(line, shown.end(), "...");
    const auto found = std::search(from, printed.end(), line, run_end);
    if (found == printed.end() || (!skips && found != from)) return false;
    from = found + (run_end - line);
    line = run_end;
    skips = false;
  }
  return skips || from == printed.end();
}

}  // namespace

TEST_CASE("Every command shown in the documents works and prints what is shown",
          "[acceptance][approval][heavy]") {
  for (const auto& path : documents()) {
    const auto blocks = blocks_of(project_file(path));
    for (std::size_t index = 0; index < blocks.size(); ++index) {
      const auto commands = commands_of(blocks[index]);
      for (const auto& command : commands) {
        CAPTURE(path, command);
        const Ran ran = run_line(command);
        CHECK((ran.status <= 1 || ran.status == 4));  // 4: a stage that finds no rest
        const bool has_output =
            commands.size() == 1 && index + 1 < blocks.size() && blocks[index + 1].mark == "text";
        if (!has_output) continue;
        CAPTURE(ran.out);
        CHECK(matches(blocks[index + 1].lines, lines_of(ran.out)));
      }
    }
  }
}

}  // namespace idlepoint::tests
