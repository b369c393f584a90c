// Diodes and transistors: leads by name, a type, a mounting.
#include <charconv>
#include <cmath>
#include <utility>

#include "circuit/sentence.hpp"
#include "language/fields.hpp"
#include "language/mounting.hpp"
#include "language/node_names.hpp"
#include "language/statement_table.hpp"
#include "language/type_lookup.hpp"

namespace idlepoint::language {
namespace {

using circuit::Part;
using circuit::PartKind;

std::string form_of(PartKind kind) {
  std::string form = std::string(circuit::keyword(kind)) + " NAME";
  for (const std::string_view lead : circuit::lead_names(kind)) {
    form += " " + std::string(lead) + "=";
  }
  return form + " type=TYPE";
}

// `npn Q4 vpos b out`: the order of the legs differs from case to case, so none is assumed.
bool complain_of_bare_leads(Draft& draft, const Statement& statement, PartKind kind) {
  if (statement.words.size() < 3) return false;
  for (const Word& word : statement.words) draft.forgiven.insert(word.text);
  complain(draft,
           "leads-by-name",
           statement.words[2],
           "the leads of " + circuit::a_kind(kind) + " are written with their names",
           kind == PartKind::diode ? "Which end comes first is easily exchanged on paper."
                                   : "The order of the legs differs from case to case.",
           "Write `" + form_of(kind) + "`.");
  return true;
}

void read_device(Draft& draft, const Statement& statement, Part part) {
  const PartKind kind = part.kind;
  if (complain_of_bare_leads(draft, statement, kind)) return;
  if (!has_words(draft, statement, 2, 2, form_of(kind))) return;
  Pairs pairs(draft, statement);
  std::vector<const Word*> leads;
  for (const std::string_view lead : circuit::lead_names(kind)) {
    leads.push_back(pairs.require(lead));
  }
  if (const Word* type = pairs.require("type"))
    part.type = type_of_part(draft, statement, *type, kind);
  if (auto* details = std::get_if<circuit::DiodeDetails>(&part.details)) {
    const auto count = pairs.number("junctions", values::Unit::none, Range::positive);
    const bool whole = !count || (*count == std::floor(*count) && *count <= 1000.0);
    if (!whole) {
      const Word& word = *pairs.find("junctions");
      complain(draft,
               "out-of-range",
               word,
               quote(word.text) + " is no number of junctions",
               "",
               "Write a whole number from 1.");
    }
    if (count && whole) details->junctions = static_cast<int>(*count);
  }
  const Word* on = read_mounting(draft, statement, pairs, part.mounting);
  pairs.finish();
  add_part(draft, std::move(part), statement.words[1], leads);
  draft.is_mounted.back() = on != nullptr;
  if (on != nullptr) draft.part_levels.back() = on->source->level();
}

}  // namespace

void read_diode(Draft& draft, const Statement& statement) {
  Part part;
  part.kind = PartKind::diode;
  part.details = circuit::DiodeDetails{};
  read_device(draft, statement, std::move(part));
}

void read_transistor(Draft& draft, const Statement& statement) {
  Part part;
  part.kind = *circuit::part_kind(statement.keyword().text);
  read_device(draft, statement, std::move(part));
}

}  // namespace idlepoint::language
