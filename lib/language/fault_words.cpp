#include "language/fault_words.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include "language/fault_verbs.hpp"
#include "language/node_names.hpp"

namespace idlepoint::language {
namespace {

using Words = std::span<const Word>;
using MaybeEdit = std::optional<circuit::Edit>;

MaybeEdit complain_of_verb(Draft& draft, const Word& word) {
  std::vector<std::string> names;
  std::string list;
  for (const FaultVerb& verb : all_fault_verbs()) {
    names.emplace_back(verb.word);
    list += (list.empty() ? "`" : ", `") + names.back() + "`";
  }
  const std::string near = nearest_among(draft, word.text, names);
  complain(draft,
           "fault-unreadable",
           word,
           quote(word.text) + " is no fault",
           "",
           near.empty() ? "Known are " + list + "." : near);
  return std::nullopt;
}

MaybeEdit read_bridge(Draft& draft, Words words) {
  if (words.size() != 3) {
    complain(draft,
             "fault-unreadable",
             words.back(),
             "a bridge joins two points",
             "",
             "Write `bridge A B`.");
    return std::nullopt;
  }
  const auto a = node_named(draft, words[1]);
  const auto b = node_named(draft, words[2]);
  if (!a || !b) return std::nullopt;
  if (*a != *b) return circuit::Bridge{*a, *b};
  complain(draft,
           "fault-does-not-fit",
           words[2],
           quote(words[1].text) + " and " + quote(words[2].text) + " are one point",
           "",
           "A bridge joins two.");
  return std::nullopt;
}

MaybeEdit read_rail_lost(Draft& draft, Words words) {
  if (words.size() != 3 || words[2].text != "lost") {
    complain(draft,
             "fault-unreadable",
             words.back(),
             "a rail is only ever lost here",
             "",
             "Write `rail NODE lost`.");
    return std::nullopt;
  }
  const auto node = node_named(draft, words[1]);
  if (!node) return std::nullopt;
  if (const auto rail = circuit::find_rail(draft.circuit, *node)) return circuit::LoseRail{*rail};
  complain(draft,
           "fault-does-not-fit",
           words[1],
           quote(words[1].text) + " is a point without a rail",
           "",
           "Name the point of a `rail`.");
  return std::nullopt;
}

}  // namespace

MaybeEdit read_fault_words(Draft& draft, Words words, const SourceText& source) {
  if (words.empty()) {
    complain(draft,
             "fault-unreadable",
             {source.place(0, "")},
             "a fault is missing here",
             "",
             "Write one such as `R12 open`, `Q5 short c-e` or `VR2 wiper open`.");
    return std::nullopt;
  }
  const bool is_part = draft.things.contains(words[0].text);
  if (words[0].text == "bridge" && !is_part) return read_bridge(draft, words);
  if (words[0].text == "rail" && !is_part) return read_rail_lost(draft, words);
  const auto part = part_named(draft, words[0]);
  if (!part) return std::nullopt;
  if (words.size() < 2) {
    complain(draft,
             "fault-unreadable",
             words[0],
             "what happens to " + quote(words[0].text) + " is missing",
             "",
             "Write a fault such as `" + words[0].text + " open`.");
    return std::nullopt;
  }
  const auto verbs = all_fault_verbs();
  const auto verb = std::find_if(
      verbs.begin(), verbs.end(), [&](const FaultVerb& one) { return one.word == words[1].text; });
  if (verb == verbs.end()) return complain_of_verb(draft, words[1]);
  return verb->read(Fault{draft, *part, words[0], words[1], words.subspan(2)});
}

}  // namespace idlepoint::language
