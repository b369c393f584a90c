#include "language/fault_text.hpp"

#include <utility>

#include "circuit/sentence.hpp"
#include "language/command_text.hpp"
#include "language/draft.hpp"
#include "language/fault_words.hpp"
#include "language/fields.hpp"
#include "language/node_names.hpp"
#include "language/probe_words.hpp"

namespace idlepoint::language {
namespace {

using circuit::Circuit;
using circuit::Edit;
using complaints::Result;

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

}  // namespace

Result<Edit> read_fault(std::string_view text, const Circuit& circuit) {
  const CommandText command(text);
  Draft draft = draft_of(circuit);
  auto edit = read_fault_words(draft, command.words, command.source);
  return answer(draft, std::move(edit), "fault-unreadable", command);
}

Result<Edit> read_setting(std::string_view text, const Circuit& circuit) {
  const CommandText command(text);
  Draft draft = draft_of(circuit);
  std::optional<Edit> edit;
  if (const auto sides = sides_of(draft, command, "VR2=40%")) edit = setting(draft, *sides);
  return answer(draft, std::move(edit), "setting-unreadable", command);
}

Result<circuit::PartId> read_part(std::string_view text, const Circuit& circuit) {
  const CommandText command(text);
  Draft draft = draft_of(circuit);
  std::optional<circuit::PartId> part;
  if (command.words.size() == 1) {
    part = part_named(draft, command.words[0]);
  } else {
    complain(draft,
             "setting-unreadable",
             {command.source.place(0, "")},
             quote(command.source.text()) + " is not the name of one part",
             "",
             "Name one part, such as `Q5`; write the option once for each.");
  }
  return answer(draft, std::move(part), "setting-unreadable", command);
}

Result<Edit> read_removal(std::string_view text, const Circuit& circuit) {
  const auto part = read_part(text, circuit);
  if (!part) return part.complaints();
  return Edit(circuit::OpenPart{*part, true});
}

Result<circuit::Probe> read_probe(std::string_view text, const Circuit& circuit) {
  const CommandText command(text);
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
