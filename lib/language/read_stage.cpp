#include "language/read_stage.hpp"

#include <utility>

#include "language/draft.hpp"
#include "language/gather.hpp"
#include "language/node_names.hpp"
#include "language/shelf_files.hpp"
#include "language/statement_table.hpp"
#include "language/type_lookup.hpp"

namespace idlepoint::language {
namespace {

using complaints::Complaint;
using complaints::Complaints;

Draft new_draft(const std::string& file_name) {
  Draft draft;
  draft.circuit.file = file_name;
  circuit::Node ground;
  ground.name = "gnd";
  ground.place.file = file_name;
  draft.circuit.nodes.push_back(std::move(ground));
  draft.nodes.emplace("gnd", 0);
  return draft;
}

void read_step(Draft& draft,
               const std::vector<Statement>& statements,
               const std::vector<const StatementFacts*>& facts,
               Step step) {
  for (std::size_t index = 0; index < statements.size(); ++index) {
    if (facts[index] == nullptr || facts[index]->step != step) continue;
    if (draft.complaints.size() > most_complaints) return;
    facts[index]->read(draft, statements[index]);
  }
}

// A type that the stage defines itself wins over one of the same name in a types file.
void read_types_files(Draft& draft, const std::vector<Statement>& types) {
  const auto of_the_stage = draft.types;
  for (const Statement& statement : types) {
    if (draft.complaints.size() > most_complaints) return;
    const bool named = statement.words.size() > 2;
    if (named && of_the_stage.contains(statement.words[2].text)) continue;
    read_type(draft, statement);
  }
}

void take_wanted_types(Draft& draft, const std::vector<std::string>& wanted) {
  for (const std::string& name : wanted) {
    if (name == "*") {
      take_whole_shelf(draft);
      continue;
    }
    if (find_type_anywhere(draft, name) || draft.shelf.trouble_said) continue;
    complain(draft,
             "unknown-type",
             {{.file = "command line", .line = 0, .column = 0, .line_text = name, .remark = {}}},
             "no part type is called " + quote(name),
             "",
             nearest_known(draft, name, Names::type));
  }
}

void read_all(Draft& draft, const Gathered& gathered, const ReadOptions& options) {
  const std::vector<Statement>& statements = gathered.statements;
  std::vector<const StatementFacts*> facts;
  facts.reserve(statements.size());
  for (const Statement& statement : statements) {
    facts.push_back(find_statement(statement.keyword().text));
    if (facts.back() == nullptr && draft.complaints.size() <= most_complaints) {
      complain_of_unknown_statement(draft, statement);
    }
  }
  read_step(draft, statements, facts, Step::things);
  read_types_files(draft, gathered.types);
  read_step(draft, statements, facts, Step::parts);
  take_wanted_types(draft, options.wanted_types);
  for (const std::string& name : options.types_if_known) {
    static_cast<void>(find_type_anywhere(draft, name));
  }
  resolve_nodes(draft);
  read_step(draft, statements, facts, Step::remarks);
  read_step(draft, statements, facts, Step::targets);
}

void complain_of_nothing(Draft& draft) {
  if (!draft.circuit.parts.empty() || !draft.complaints.empty()) return;
  complain(draft,
           "nothing-drawn",
           {{.file = draft.circuit.file, .line = 0, .column = 0, .line_text = {}, .remark = {}}},
           "the file draws no part",
           "",
           "Write one statement for each part of the schematic, such as `resistor R8 b t 820R`.");
}

}  // namespace

Complaint file_trouble(const std::string& path, const FileTrouble& trouble) {
  return {.kind = complaints::kind("file-unreadable"),
          .headline = "the file " + trouble.words,
          .places = {{.file = path, .line = 0, .column = 0, .line_text = {}, .remark = {}}},
          .why = {},
          .instead = {}};
}

complaints::Result<StageFile> read_stage(const std::string& text,
                                         const std::string& file_name,
                                         const ReadOptions& options) {
  Gathered gathered;
  Draft draft = new_draft(file_name);
  draft.load_shelf = [&gathered, &options](Draft& asking) {
    load_shelf(asking, gathered, options);
  };
  gather(draft, gathered, text, file_name, options);
  apply_changes(draft, gathered.statements);
  read_all(draft, gathered, options);
  complain_of_nothing(draft);
  complaints::sort_by_place(draft.complaints);
  cap_complaints(draft.complaints);
  if (complaints::has_error(draft.complaints)) return std::move(draft.complaints);
  return StageFile{std::move(draft.circuit), std::move(draft.complaints)};
}

complaints::Result<StageFile> read_stage_file(const std::string& path, const ReadOptions& options) {
  FileText text = options.files(path);
  if (const auto* trouble = std::get_if<FileTrouble>(&text)) return file_trouble(path, *trouble);
  return read_stage(std::get<std::string>(text), path, options);
}

}  // namespace idlepoint::language
