// What is said of several parts at once: matched, mounted.
#include <utility>

#include "circuit/sentence.hpp"
#include "language/fields.hpp"
#include "language/mounting.hpp"
#include "language/statement_table.hpp"

namespace idlepoint::language {
namespace {

using circuit::Part;
using circuit::PartId;
using circuit::PartKind;
using values::Unit;

bool may_be_matched(Draft& draft, const Word& word, PartKind kind, PartKind first) {
  const bool fits = circuit::has_type(kind) && kind == first;
  if (fits) return true;
  complain(draft,
           "not-for-this-part",
           word,
           circuit::has_type(kind) ? quote(word.text) + " is " + circuit::a_kind(kind) +
                                         ", and the first named is " + circuit::a_kind(first)
                                   : quote(word.text) + " is " + circuit::a_kind(kind) +
                                         ": only diodes and transistors are matched here",
           "",
           circuit::has_type(kind) ? "Name parts of one kind."
                                   : "Give it a narrower `tolerance=` instead.");
  return false;
}

void read_within(Draft& draft,
                 const Statement& statement,
                 Pairs& pairs,
                 circuit::Matched& matched) {
  const Word* within = pairs.find("within");
  if (within == nullptr) {
    matched.within_fraction = 0.01;
  } else if (within->text.find('%') != std::string::npos) {
    matched.within_fraction =
        read_number(draft, statement, *within, "`within`", Unit::percent, Range::tolerance);
  } else {
    matched.within_v =
        read_number(draft, statement, *within, "`within`", Unit::volt, Range::not_negative);
  }
}

// Diodes and transistors sit on a heat sink; a thermistor may, and takes its temperature.
bool may_be_mounted(Draft& draft, const Word& word, PartKind kind, const Statement& statement) {
  const bool bare_on = statement.pairs.size() <= 1;
  if (circuit::has_type(kind) || (kind == PartKind::thermistor && bare_on)) return true;
  complain(draft,
           "not-for-this-part",
           word,
           quote(word.text) + " is " + circuit::a_kind(kind) +
               (kind == PartKind::thermistor ? " and takes `on=` alone"
                                             : ", and is not mounted on a heat sink here"),
           "",
           kind == PartKind::thermistor ? "Give it a `mounted` line of its own."
                                        : "Name diodes, transistors and thermistors.");
  return false;
}

complaints::Place with_remark(complaints::Place place, std::string remark) {
  place.remark = std::move(remark);
  return place;
}

void mount(Draft& draft, const Word& word, PartId id, const circuit::Mounting& mounting) {
  const std::size_t level = word.source->level();
  const bool is_mounted = draft.is_mounted[id.index];
  if (is_mounted && draft.part_levels[id.index] == level) {
    complain(draft,
             "part-twice",
             {place_of(word), with_remark(draft.circuit.at(id).place, "the first")},
             "the mounting of " + quote(word.text) + " is given twice",
             "",
             "Leave `on=` in its own statement, or name it here, not both.");
    return;
  }
  if (is_mounted && draft.part_levels[id.index] > level) return;  // Changed in a later file.
  draft.circuit.parts[id.index].mounting = mounting;
  draft.is_mounted[id.index] = true;
  draft.part_levels[id.index] = level;
}

}  // namespace

void read_matched(Draft& draft, const Statement& statement) {
  if (!has_words(draft, statement, 3, statement.words.size(), "matched PART PART")) return;
  circuit::Matched matched;
  matched.place = place_of(statement.words[1], "");
  const std::vector<Word>& words = statement.words;
  std::optional<PartKind> first;
  for (std::size_t index = 1; index < words.size(); ++index) {
    const auto part = part_named(draft, words[index]);
    if (!part) continue;
    const PartKind kind = draft.circuit.at(*part).kind;
    if (!first) first = kind;
    if (!may_be_matched(draft, words[index], kind, *first)) continue;
    const std::string what = "matched " + words[index].text;
    const auto [known, is_new] = draft.said.try_emplace(what, Said{words[index], 0, 0});
    if (is_new) {
      matched.parts.push_back(*part);
      continue;
    }
    complain(draft,
             "part-twice",
             {place_of(words[index]), place_of(known->second.place, "the first")},
             quote(words[index].text) + " is matched twice",
             "",
             "Name all that were chosen alike in one `matched` line.");
  }
  Pairs pairs(draft, statement);
  read_within(draft, statement, pairs, matched);
  pairs.finish();
  if (matched.parts.size() > 1) draft.circuit.matched.push_back(std::move(matched));
}

void read_mounted(Draft& draft, const Statement& statement) {
  if (!has_words(draft, statement, 2, statement.words.size(), "mounted PART PART on=HEATSINK")) {
    return;
  }
  Pairs pairs(draft, statement);
  pairs.require("on");
  circuit::Mounting mounting;
  const Word* on = read_mounting(draft, statement, pairs, mounting);
  pairs.finish();
  for (std::size_t index = 1; index < statement.words.size(); ++index) {
    const Word& word = statement.words[index];
    const auto part = part_named(draft, word);
    if (!part || on == nullptr) continue;
    if (!may_be_mounted(draft, word, draft.circuit.at(*part).kind, statement)) continue;
    mount(draft, word, *part, mounting);
  }
}

}  // namespace idlepoint::language
