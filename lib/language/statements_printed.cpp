// Voltages that the service sheet prints: between two points, or at the legs of a transistor.
#include <utility>

#include "circuit/sentence.hpp"
#include "language/fields.hpp"
#include "language/node_names.hpp"
#include "language/statement_table.hpp"

namespace idlepoint::language {
namespace {

using values::Unit;

void add_printed(Draft& draft,
                 const std::string& key,
                 const Word& place,
                 circuit::PrintedVolts volts) {
  auto& list = draft.circuit.printed;
  const Saying saying = say(draft, key, place, list.size(), "the printed volts of this place");
  if (saying.replaces)
    list[saying.index] = std::move(volts);
  else if (saying.is_new)
    list.push_back(std::move(volts));
}

void read_printed_volts(Draft& draft, const Statement& statement) {
  if (!has_words(draft, statement, 5, 5, "printed volts A B VALUE")) return;
  Pairs(draft, statement).finish();
  const std::vector<Word>& words = statement.words;
  const auto a = node_named(draft, words[2]);
  const auto b = node_named(draft, words[3]);
  const auto volts = read_number(draft, statement, words[4], "the printed volts", Unit::volt);
  if (!a || !b || !volts) return;
  std::string text = circuit::node_in_words(draft.circuit, *a);
  if (*b != circuit::ground) text += " to " + circuit::node_in_words(draft.circuit, *b);
  add_printed(draft,
              "printed volts " + words[2].text + " " + words[3].text,
              words[2],
              {.a = *a, .b = *b, .volts = *volts, .text = text, .place = place_of(words[2], "")});
}

void read_printed_lead(Draft& draft,
                       const Statement& statement,
                       circuit::PartId id,
                       std::size_t lead,
                       const Word& value) {
  const circuit::Part& part = draft.circuit.at(id);
  const auto volts = read_number(draft, statement, value, "the printed volts", Unit::volt);
  const std::string words = "the " + circuit::lead_in_words(part.kind, lead) + " of " + part.name;
  if (!part.leads[lead]) {
    complain(draft,
             "left-off-lead",
             value,
             words + " is left off",
             "No wire is there to read volts at.",
             "Name the wire at that lead, or take this out.");
    return;
  }
  if (!volts) return;
  const std::string name(circuit::lead_names(part.kind)[lead]);
  add_printed(draft,
              "printed " + part.name + " " + name,
              value,
              {.a = *part.leads[lead],
               .b = circuit::ground,
               .volts = *volts,
               .text = words,
               .place = place_of(value, "")});
}

}  // namespace

void read_printed(Draft& draft, const Statement& statement) {
  if (!has_words(draft, statement, 2, 5, "printed volts A B VALUE")) return;
  const std::vector<Word>& words = statement.words;
  if (words[1].text == "volts") return read_printed_volts(draft, statement);
  if (words.size() > 2) {
    complain(draft,
             "extra-word",
             words[2],
             "the word " + quote(words[2].text) + " is one too many",
             "",
             "Write `printed volts A B VALUE`, or `printed PART c= b= e=`.");
    return;
  }
  const auto id = part_named(draft, words[1]);
  if (!id) return;
  const circuit::PartKind kind = draft.circuit.at(*id).kind;
  if (!circuit::has_type(kind)) {
    complain(draft,
             "not-for-this-part",
             words[1],
             quote(words[1].text) + " is " + circuit::a_kind(kind) + " without named legs",
             "",
             "Write `printed volts A B VALUE`.");
    return;
  }
  Pairs pairs(draft, statement);
  bool any = false;
  const auto names = circuit::lead_names(kind);
  for (std::size_t lead = 0; lead < names.size(); ++lead) {
    const Word* value = pairs.find(names[lead]);
    if (value == nullptr) continue;
    any = true;
    read_printed_lead(draft, statement, *id, lead, *value);
  }
  pairs.finish();
  if (!any && statement.pairs.empty()) {
    complain(draft,
             "missing-key",
             words[1],
             "no volts stand behind " + quote("printed " + words[1].text),
             "",
             "Write the volts at its legs: " + lead_choices(kind) + ", each with `=`.");
  }
}

}  // namespace idlepoint::language
