#include "language/shelf_files.hpp"

#include <algorithm>
#include <filesystem>
#include <optional>
#include <utility>

#include "language/fields.hpp"

namespace idlepoint::language {
namespace {

namespace fs = std::filesystem;

complaints::Place whole(const std::string& path) {
  return {.file = path, .line = 0, .column = 0, .line_text = {}, .remark = {}};
}

// The types files of the folder, sorted; `trouble` where it cannot be looked through.
std::vector<std::string> types_files(const std::string& folder, std::string& trouble) {
  std::vector<std::string> paths;
  std::error_code error;
  for (fs::directory_iterator entry(folder, error), end; !error && entry != end;
       entry.increment(error)) {
    if (entry->path().extension() == ".types") paths.push_back(entry->path().string());
  }
  if (error) {
    trouble = fs::exists(fs::path(folder), error) ? "cannot be looked through" : "is not there";
  } else if (paths.empty()) {
    trouble = "holds no types file";
  }
  std::sort(paths.begin(), paths.end());
  return paths;
}

std::optional<std::string> text_of(Draft& draft,
                                   const std::string& path,
                                   const ReadOptions& options) {
  FileText text = options.files(path);
  if (auto* read = std::get_if<std::string>(&text)) return std::move(*read);
  complain(draft,
           "file-unreadable",
           {whole(path)},
           "a file of the shelf " + std::get<FileTrouble>(text).words,
           "The shelf of types is installed with the program.",
           "Let the program's user read it, or install the program again.");
  return std::nullopt;
}

void take(Draft& draft, Gathered& gathered, Statement&& statement) {
  if (statement.keyword().text != "type") {
    complain(draft,
             "statement-not-here",
             statement.keyword(),
             quote(statement.keyword().text) + " does not belong on the shelf of types",
             "A types file holds `type` statements alone.",
             "");
    return;
  }
  if (!has_words(draft, statement, 3, 3, "type KIND NAME")) return;
  const Statement& kept = gathered.shelf.emplace_back(std::move(statement));
  const Word& name = kept.words[2];
  const auto [known, is_new] = draft.shelf.statements.try_emplace(name.text, &kept);
  if (is_new) {
    draft.shelf.names.push_back(name.text);
    return;
  }
  complain(draft,
           "type-twice",
           {place_of(name, "the second"), place_of(known->second->words[2], "the first")},
           "type " + quote(name.text) + " stands twice on the shelf",
           "",
           "Leave one of the two.");
}

}  // namespace

void load_shelf(Draft& draft, Gathered& gathered, const ReadOptions& options) {
  draft.shelf.folder = options.shelf_folder;
  if (options.shelf_folder.empty()) {
    if (draft.shelf.asked_at) draft.shelf.trouble = "is not installed";
    return;
  }
  for (const std::string& path : types_files(options.shelf_folder, draft.shelf.trouble)) {
    auto text = text_of(draft, path, options);
    if (!text) continue;
    const SourceText& source = gathered.sources.emplace_back(path, std::move(*text), 0);
    for (Statement& statement : lex(source, draft.complaints)) {
      take(draft, gathered, std::move(statement));
    }
  }
}

bool complain_of_shelf(Draft& draft) {
  Shelf& shelf = draft.shelf;
  if (shelf.trouble.empty()) return false;
  if (shelf.trouble_said) return true;
  shelf.trouble_said = true;
  complain(draft,
           "file-unreadable",
           {shelf.asked_at ? place_of(*shelf.asked_at) : whole(shelf.folder)},
           "the shelf of types " + (shelf.folder.empty() ? "" : quote(shelf.folder) + " ") +
               shelf.trouble,
           "The shelf is a folder of types files that is installed with the program.",
           "Install the program again, or name a types file beside the stage: `types \"FILE\"`.");
  return true;
}

}  // namespace idlepoint::language
