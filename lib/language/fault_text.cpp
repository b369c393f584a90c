#include "language/fault_text.hpp"

#include <algorithm>
#include <cstddef>
#include <utility>
#include <vector>

#include "circuit/sentence.hpp"
#include "language/draft.hpp"
#include "language/fault_words.hpp"
#include "language/fields.hpp"
#include "language/node_names.hpp"
#include "language/probe_words.hpp"
#include "language/text_encoding.hpp"

namespace idlepoint::language {
namespace {

using circuit::Circuit;
using circuit::Edit;
using complaints::Complaints;
using complaints::Result;

// A text of the command line, taken apart at its blanks.
struct Command {
  explicit Command(std::string_view text) : source("command line", only_text(text), 0) {
    const std::string& whole = source.text();
    std::size_t at = 0;
    while ((at = whole.find_first_not_of(" \t\r\n", at)) != std::string::npos) {
      const std::size_t end = std::min(whole.find_first_of(" \t\r\n", at), whole.size());
      words.push_back({whole.substr(at, end - at), &source, at, false});
      at = end;
    }
  }
  SourceText source;
  std::vector<Word> words;
};

// A command line has columns but no lines.
Complaints without_lines(Complaints complaints) {
  for (complaints::Complaint& complaint : complaints) {
    for (complaints::Place& place : complaint.places) {
      if (place.file == "command line") place.line = 0;
    }
  }
  return complaints;
}

template <class T>
Result<T> answer(Draft& draft,
                 std::optional<T> found,
                 std::string_view kind,
                 const Command& command) {
  if (draft.complaints.empty() && !found) {
    complain(draft,
             kind,
             {command.source.place(0, "")},
             quote(command.source.text()) + " cannot be read",
             "",
             "");
  }
  if (!draft.complaints.empty()) return without_lines(std::move(draft.complaints));
  return Result<T>(std::move(*found));
}

// The two sides of `VR2=40%`; complains where there are not two.
struct Sides {
  Word left;
  Word right;
};

std::optional<Sides> sides_of(Draft& draft, const Command& command, std::string_view form) {
  const std::string& text = command.source.text();
  const std::size_t equals = text.find('=');
  if (equals != std::string::npos && equals > 0 && equals + 1 < text.size() &&
      command.words.size() == 1) {
    return Sides{{text.substr(0, equals), &command.source, 0, false},
                 {text.substr(equals + 1), &command.source, equals + 1, false}};
  }
  complain(draft,
           "setting-unreadable",
           {command.source.place(0, "")},
           quote(text) + " is not " + quote(form),
           "",
           "Write it as " + quote(form) + ", without spaces.");
  return std::nullopt;
}

std::optional<Edit> setting(Draft& draft, const Sides& sides) {
  const auto part = part_named(draft, sides.left);
  if (!part) return std::nullopt;
  const circuit::PartKind kind = draft.circuit.at(*part).kind;
  if (kind != circuit::PartKind::trimmer) {
    complain(draft,
             "fault-does-not-fit",
             sides.left,
             quote(sides.left.text) + " is " + circuit::a_kind(kind) + " and has no travel",
             "",
             "Name a trimmer.");
    return std::nullopt;
  }
  const auto travel = read_number(draft, {}, sides.right, "", values::Unit::percent, Range::share);
  if (!travel) return std::nullopt;
  return circuit::SetTravel{*part, *travel};
}

std::optional<Edit> substitution(Draft& draft, const Sides& sides) {
  const auto part = part_named(draft, sides.left);
  if (!part) return std::nullopt;
  const circuit::PartKind kind = draft.circuit.at(*part).kind;
  if (!circuit::has_type(kind)) {
    complain(draft,
             "fault-does-not-fit",
             sides.left,
             quote(sides.left.text) + " is " + circuit::a_kind(kind) + " and has no type",
             "",
             "Only diodes and transistors have one.");
    return std::nullopt;
  }
  const auto type = draft.types.find(sides.right.text);
  if (type == draft.types.end()) {
    complain(draft,
             "unknown-type",
             sides.right,
             "no part type is called " + quote(sides.right.text),
             "",
             nearest_known(draft, sides.right.text, Names::type));
    return std::nullopt;
  }
  const circuit::PartType& found = draft.circuit.types[type->second];
  if (found.kind != kind) {
    complain(draft,
             "type-kind",
             sides.right,
             quote(found.name) + " is the type of " + circuit::a_kind(found.kind) + ", and " +
                 quote(sides.left.text) + " is " + circuit::a_kind(kind),
             "",
             "Name a type of its own kind.");
    return std::nullopt;
  }
  return circuit::SetType{*part, circuit::TypeId{type->second}};
}

}  // namespace

Result<Edit> read_fault(std::string_view text, const Circuit& circuit) {
  const Command command(text);
  Draft draft = draft_of(circuit);
  auto edit = read_fault_words(draft, command.words, command.source);
  return answer(draft, std::move(edit), "fault-unreadable", command);
}

Result<Edit> read_setting(std::string_view text, const Circuit& circuit) {
  const Command command(text);
  Draft draft = draft_of(circuit);
  std::optional<Edit> edit;
  if (const auto sides = sides_of(draft, command, "VR2=40%")) edit = setting(draft, *sides);
  return answer(draft, std::move(edit), "setting-unreadable", command);
}

Result<Edit> read_substitution(std::string_view text, const Circuit& circuit) {
  const Command command(text);
  Draft draft = draft_of(circuit);
  std::optional<Edit> edit;
  if (const auto sides = sides_of(draft, command, "Q5=TYPE")) edit = substitution(draft, *sides);
  return answer(draft, std::move(edit), "setting-unreadable", command);
}

Result<Edit> read_removal(std::string_view text, const Circuit& circuit) {
  const Command command(text);
  Draft draft = draft_of(circuit);
  std::optional<Edit> edit;
  if (command.words.size() == 1) {
    if (const auto part = part_named(draft, command.words[0])) edit = circuit::OpenPart{*part};
  } else {
    complain(draft,
             "setting-unreadable",
             {command.source.place(0, "")},
             quote(command.source.text()) + " is not the name of one part",
             "",
             "Name one part, such as `Q5`; write the option once for each.");
  }
  return answer(draft, std::move(edit), "setting-unreadable", command);
}

Result<circuit::Probe> read_probe(std::string_view text, const Circuit& circuit) {
  const Command command(text);
  Draft draft = draft_of(circuit);
  std::optional<circuit::Probe> probe;
  if (command.words.empty()) {
    complain(draft,
             "choice-expected",
             {command.source.place(0, "")},
             "a reading is missing here",
             "",
             "Write `volts A B`, `amps PART`, `watts PART` or `celsius PART`.");
  } else {
    probe = read_probe_words(draft, command.words);
  }
  return answer(draft, std::move(probe), "choice-expected", command);
}

}  // namespace idlepoint::language
