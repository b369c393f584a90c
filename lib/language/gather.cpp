#include "language/gather.hpp"

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <optional>
#include <unordered_set>
#include <utility>

#include "language/fields.hpp"
#include "language/paths.hpp"

namespace idlepoint::language {
namespace {

struct Gathering {
  Draft& draft;
  Gathered& gathered;
  const ReadOptions& options;
  std::string folder;                             // Of the stage file, ending in `/` or empty.
  std::unordered_set<std::string> types_files{};  // Paths inside the folder, read once.
  std::vector<std::string> chain{};  // Paths inside the folder, the asked-for file first.
};

std::optional<std::string> path_of(Gathering& gathering,
                                   const Word& word,
                                   const std::string& from) {
  auto path = path_inside(folder_of(from), word.text);
  if (const auto* refused = std::get_if<PathRefused>(&path)) {
    complain(gathering.draft,
             "path-refused",
             word,
             quote(word.text) + " " + refused->words,
             "A stage reads files of its own folder and of the folders in it, nothing else.",
             "Put the file beside the stage file and write its name.");
    return std::nullopt;
  }
  return std::get<std::string>(std::move(path));
}

const SourceText* load(Gathering& gathering,
                       const Word& word,
                       const std::string& path,
                       std::size_t level) {
  const std::string full = gathering.folder + path;
  FileText text = gathering.options.files(full);
  if (const auto* trouble = std::get_if<FileTrouble>(&text)) {
    complain(gathering.draft,
             "file-unreadable",
             word,
             quote(full) + " " + trouble->words,
             "",
             "A path is written from the file it stands in.");
    return nullptr;
  }
  return &gathering.gathered.sources.emplace_back(
      full, std::get<std::string>(std::move(text)), level);
}

void gather_types_file(Gathering& gathering, const Word& word, const std::string& from) {
  const auto path = path_of(gathering, word, from);
  if (path && !gathering.types_files.insert(*path).second) return;
  const SourceText* source = path ? load(gathering, word, *path, word.source->level()) : nullptr;
  if (source == nullptr) {
    gathering.draft.types_are_missing = true;
    return;
  }
  for (Statement& statement : lex(*source, gathering.draft.complaints)) {
    if (statement.keyword().text == "type") {
      gathering.gathered.types.push_back(std::move(statement));
      continue;
    }
    complain(gathering.draft,
             "statement-not-here",
             statement.keyword(),
             quote(statement.keyword().text) + " does not belong in a types file",
             "A types file holds `type` statements alone.",
             "Move it to the stage file.");
  }
}

void read_types_statement(Gathering& gathering,
                          const Statement& statement,
                          const std::string& from) {
  if (!has_words(gathering.draft, statement, 2, 2, "types \"FILE\"")) return;
  Pairs(gathering.draft, statement).finish();
  const Word& word = statement.words[1];
  if (word.text == "shelf" && !word.quoted) {
    gathering.draft.shelf.asked_at = word;
    return;
  }
  gather_types_file(gathering, word, from);
}

// The word that names the base, if the file is based on one.
std::optional<Word> find_base(Gathering& gathering, const std::vector<Statement>& statements) {
  std::optional<Word> base;
  for (const Statement& statement : statements) {
    if (statement.keyword().text != "based_on") continue;
    if (!has_words(gathering.draft, statement, 2, 2, "based_on \"FILE\"")) continue;
    Pairs(gathering.draft, statement).finish();
    const Saying saying = say(gathering.draft,
                              "based_on " + statement.keyword().source->name(),
                              statement.keyword(),
                              0,
                              "`based_on`");
    if (saying.is_new) base = statement.words[1];
  }
  return base;
}

void refuse_changes(Gathering& gathering, const std::vector<Statement>& statements) {
  for (const Statement& statement : statements) {
    if (statement.keyword().text != "change") continue;
    complain(gathering.draft,
             "change-without-base",
             statement.keyword(),
             "`change` stands in a file that is based on no other",
             "It gives other values to a part of the file named by `based_on`.",
             "Write the values into the part's own statement, or add `based_on \"FILE\"`.");
  }
}

// The source of the base, refused where the chain closes on itself or grows too long.
const SourceText* load_base(Gathering& gathering, const Word& word, const std::string& from) {
  const auto path = path_of(gathering, word, from);
  if (!path) return nullptr;
  auto& chain = gathering.chain;
  if (std::find(chain.begin(), chain.end(), *path) != chain.end()) {
    complain(gathering.draft,
             "based-on-circle",
             word,
             quote(word.text) + " is based, at the end, on itself",
             "",
             "Base it on the file that draws the whole stage.");
    return nullptr;
  }
  if (chain.size() >= longest_chain) {
    complain(gathering.draft,
             "based-on-too-deep",
             word,
             "more than " + std::to_string(longest_chain) + " files are based one on the other",
             "",
             "Base it on the file that draws the whole stage.");
    return nullptr;
  }
  const SourceText* source = load(gathering, word, *path, longest_chain - chain.size());
  chain.push_back(*path);
  return source;
}

void gather_chain(Gathering& gathering, const SourceText* source, const std::string& own_path) {
  gathering.chain.push_back(own_path);
  std::vector<std::vector<Statement>> files;
  while (source != nullptr) {
    const std::string from = gathering.chain.back();
    files.push_back(lex(*source, gathering.draft.complaints));
    for (const Statement& statement : files.back()) {
      if (statement.keyword().text == "types") read_types_statement(gathering, statement, from);
    }
    const auto base = find_base(gathering, files.back());
    if (!base) refuse_changes(gathering, files.back());
    source = base ? load_base(gathering, *base, from) : nullptr;
    if (base && source == nullptr) gathering.draft.base_is_missing = true;
  }
  for (auto file = files.rbegin(); file != files.rend(); ++file) {
    std::move(file->begin(), file->end(), std::back_inserter(gathering.gathered.statements));
  }
}

}  // namespace

void gather(Draft& draft,
            Gathered& gathered,
            const std::string& text,
            const std::string& file_name,
            const ReadOptions& options) {
  Gathering gathering{draft, gathered, options, folder_of(file_name)};
  const SourceText& source = gathered.sources.emplace_back(file_name, text, longest_chain);
  gather_chain(gathering, &source, file_name.substr(gathering.folder.size()));
}

}  // namespace idlepoint::language
