// All the statements a stage consists of: its own file, the files it is based on, its types files.
//
// Follows `based_on` and `types`, applies `change`, and leaves what means something by itself.
#pragma once

#include <deque>
#include <string>
#include <vector>

#include "language/draft.hpp"
#include "language/lexer.hpp"
#include "language/read_stage.hpp"

namespace idlepoint::language {

/// Texts and statements. Words point into the texts, so neither is ever moved.
struct Gathered {
  std::deque<SourceText> sources;
  std::vector<Statement> statements;  ///< Of the stage files, the oldest first.
  std::vector<Statement> types;       ///< `type` statements of the types files.
  std::deque<Statement> shelf;        ///< `type` statements of the installed shelf, once asked for.
};

/// Chains longer than this are refused: somebody copied a copy of a copy.
inline constexpr std::size_t longest_chain = 8;

/// Gathers into `gathered`; complaints go to the draft.
void gather(Draft& draft,
            Gathered& gathered,
            const std::string& text,
            const std::string& file_name,
            const ReadOptions& options);

/// Applies every `change` statement to the part it names and takes both out of the list.
void apply_changes(Draft& draft, std::vector<Statement>& statements);

}  // namespace idlepoint::language
