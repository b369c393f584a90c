#include "language/substitution_words.hpp"

#include "circuit/sentence.hpp"

namespace idlepoint::language {

using circuit::TypeId;

std::optional<TypeId> known_type(Draft& draft, const Word& word) {
  const auto type = draft.types.find(word.text);
  if (type != draft.types.end()) return TypeId{type->second};
  if (draft.types_are_missing) return std::nullopt;
  const std::string near = nearest_known(draft, word.text, Names::type);
  complain(draft,
           "unknown-type",
           word,
           "no part type is called " + quote(word.text),
           "",
           near.empty() ? "`idlepoint shelf FILE PART` lists what is at hand." : near);
  return std::nullopt;
}

void complain_of_kind(Draft& draft,
                      const Word& word,
                      const circuit::PartType& type,
                      const std::string& wanted,
                      const std::string& instead) {
  complain(draft,
           "type-kind",
           word,
           quote(type.name) + " is the type of " + circuit::a_kind(type.kind) + ", and " + wanted,
           "",
           instead);
}

std::optional<circuit::SetType> read_other_type(Draft& draft, const Word& part, const Word& word) {
  const auto id = part_named(draft, part);
  if (!id) return std::nullopt;
  const circuit::PartKind kind = draft.circuit.at(*id).kind;
  if (!circuit::has_type(kind)) {
    complain(draft,
             "fault-does-not-fit",
             part,
             quote(part.text) + " is " + circuit::a_kind(kind) + " and has no type",
             "",
             "Only diodes and transistors have one.");
    return std::nullopt;
  }
  const auto type = known_type(draft, word);
  if (!type) return std::nullopt;
  const circuit::PartType& found = draft.circuit.at(*type);
  if (found.kind == kind) return circuit::SetType{*id, *type};
  complain_of_kind(draft,
                   word,
                   found,
                   quote(part.text) + " is " + circuit::a_kind(kind),
                   "Name a type of its own kind.");
  return std::nullopt;
}

}  // namespace idlepoint::language
