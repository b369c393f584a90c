#include "drafts.hpp"

#include <algorithm>
#include <filesystem>
#include <system_error>
#include <utility>

#include "complaints/render.hpp"
#include "data_folder.hpp"
#include "language/read_stage.hpp"

namespace idlepoint::cli {
namespace {

namespace fs = std::filesystem;

constexpr const char* ending = ".stage";

fs::path folder() { return data_folder("drafts"); }

}  // namespace

std::vector<std::string> draft_names() {
  std::vector<std::string> names;
  std::error_code trouble;
  for (const auto& entry : fs::directory_iterator(folder(), trouble)) {
    if (entry.path().extension() == ending) names.push_back(entry.path().stem().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

std::variant<answers::Draft, std::string> read_draft(const std::string& name) {
  const std::string path = (folder() / (name + ending)).string();
  auto text = language::read_from_disk(path);
  if (const auto* trouble = std::get_if<language::FileTrouble>(&text)) {
    return complaints::render({language::file_trouble(path, *trouble)});
  }
  language::ReadOptions options;
  options.shelf_folder = data_folder("shelf");
  const auto stage = language::read_stage(std::get<std::string>(text), path, options);
  if (!stage.has_value()) return complaints::render(stage.complaints());
  return answers::make_draft(name, std::get<std::string>(std::move(text)), stage->circuit);
}

}  // namespace idlepoint::cli
