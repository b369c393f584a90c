#include "language/type_lookup.hpp"

#include "circuit/sentence.hpp"
#include "language/fields.hpp"
#include "language/shelf_files.hpp"
#include "language/statement_table.hpp"

namespace idlepoint::language {
namespace {

using circuit::TypeId;

std::optional<TypeId> known_type(const Draft& draft, const std::string& name) {
  const auto known = draft.types.find(name);
  if (known == draft.types.end()) return std::nullopt;
  return TypeId{known->second};
}

void load_shelf_once(Draft& draft) {
  if (draft.shelf.loaded) return;
  draft.shelf.loaded = true;
  if (draft.load_shelf) draft.load_shelf(draft);
}

std::optional<TypeId> type_from_shelf(Draft& draft, const std::string& name) {
  load_shelf_once(draft);
  if (complain_of_shelf(draft)) return std::nullopt;
  const auto found = draft.shelf.statements.find(name);
  if (found == draft.shelf.statements.end()) return std::nullopt;
  read_type(draft, *found->second);
  return known_type(draft, name);
}

void complain_of_unknown_type(Draft& draft, const Word& word) {
  const bool may_be_known =
      draft.base_is_missing || draft.types_are_missing || draft.shelf.trouble_said;
  if (may_be_known || draft.forgiven.contains(word.text)) return;
  load_shelf_once(draft);
  std::string instead;
  if (draft.shelf.statements.contains(word.text)) {
    instead = "It stands on the installed shelf: add the line `types shelf`.";
  } else {
    instead = nearest_known(draft, word.text, Names::type);
    const bool on_shelf =
        !instead.empty() && instead == nearest_among(draft, word.text, draft.shelf.names);
    if (on_shelf && !draft.shelf.asked_at) {
      instead += " It stands on the installed shelf: add the line `types shelf` too.";
    }
  }
  if (instead.empty()) {
    instead = "Add a `type` line for it, or a `types \"FILE\"` line with the file that holds it.";
  }
  complain(draft, "unknown-type", word, "no part type is called " + quote(word.text), "", instead);
}

}  // namespace

std::optional<TypeId> find_type_anywhere(Draft& draft, const std::string& name) {
  if (const auto known = known_type(draft, name)) return known;
  return type_from_shelf(draft, name);
}

void take_whole_shelf(Draft& draft) {
  load_shelf_once(draft);
  if (complain_of_shelf(draft)) return;
  for (const std::string& name : draft.shelf.names) {
    if (!known_type(draft, name)) static_cast<void>(type_from_shelf(draft, name));
  }
}

std::optional<TypeId> type_of_part(Draft& draft,
                                   const Statement& statement,
                                   const Word& word,
                                   circuit::PartKind kind) {
  if (word.text == "?") {
    note_blank(draft, statement, word, "the type");
    return std::nullopt;
  }
  std::optional<TypeId> found = known_type(draft, word.text);
  if (!found && draft.shelf.asked_at) found = type_from_shelf(draft, word.text);
  if (!found) {
    complain_of_unknown_type(draft, word);
    return std::nullopt;
  }
  const circuit::PartType& type = draft.circuit.at(*found);
  if (type.kind == kind) return found;
  complain(draft,
           "type-kind",
           {place_of(word), type.place},
           quote(word.text) + " is the type of " + circuit::a_kind(type.kind) + ", and " +
               quote(statement.words[1].text) + " is " + circuit::a_kind(kind),
           "",
           "Name a type of its own kind, or mend the word that begins the statement.");
  return std::nullopt;
}

}  // namespace idlepoint::language
