#include "language/draft.hpp"

#include <algorithm>
#include <utility>

#include "complaints/nearest.hpp"
#include "language/text_encoding.hpp"

namespace idlepoint::language {
namespace {

std::vector<std::string> names_of(const Draft& draft, Names names) {
  std::vector<std::string> known;
  const auto add_all = [&known](const auto& list) {
    for (const auto& item : list) known.push_back(item.name);
  };
  switch (names) {
    case Names::part:
      add_all(draft.circuit.parts);
      add_all(draft.circuit.heatsinks);
      break;
    case Names::heatsink:
      add_all(draft.circuit.heatsinks);
      break;
    case Names::node:
      add_all(draft.circuit.nodes);
      break;
    case Names::type:
      add_all(draft.circuit.types);
      known.insert(known.end(), draft.shelf.names.begin(), draft.shelf.names.end());
      break;
    case Names::reading:
      add_all(draft.circuit.readings);
      break;
  }
  return known;
}

std::string joined(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "`" : ", `") + name + "`";
  return text;
}

void unknown_name(Draft& draft,
                  std::string_view kind,
                  const Word& word,
                  const std::string& headline,
                  Names names,
                  const std::string& none_yet) {
  if (draft.base_is_missing || draft.forgiven.contains(word.text)) return;
  std::string instead = nearest_known(draft, word.text, names);
  if (const auto gone = draft.removed.find(word.text); gone != draft.removed.end()) {
    complain(draft,
             kind,
             {place_of(word), place_of(gone->second, "taken out here")},
             quote(word.text) + " was taken out by `change " + word.text + " absent`",
             "",
             "Take out this statement too, or leave the part in.");
    return;
  }
  if (instead.empty()) {
    const auto& known = draft.known_names[static_cast<int>(names)];
    if (known.empty()) instead = none_yet;
    if (!known.empty() && known.size() <= 12) instead = "Known are " + joined(known) + ".";
  }
  complain(draft, kind, word, headline, "", instead);
}

}  // namespace

Draft draft_of(const circuit::Circuit& circuit) {
  Draft draft;
  draft.circuit = circuit;
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    const NamedThing part{.is_heatsink = false, .index = index, .name = {}};
    draft.things.try_emplace(circuit.parts[index].name, part);
  }
  for (std::size_t index = 0; index < circuit.heatsinks.size(); ++index) {
    const NamedThing sink{.is_heatsink = true, .index = index, .name = {}};
    draft.things.try_emplace(circuit.heatsinks[index].name, sink);
  }
  const auto index_names = [](const auto& list, auto& names) {
    for (std::size_t index = 0; index < list.size(); ++index) {
      names.try_emplace(list[index].name, index);
    }
  };
  index_names(circuit.nodes, draft.nodes);
  index_names(circuit.types, draft.types);
  index_names(circuit.readings, draft.readings);
  return draft;
}

void complain(Draft& draft,
              std::string_view kind,
              std::vector<complaints::Place> places,
              std::string headline,
              std::string why,
              std::string instead) {
  if (draft.complaints.size() > most_complaints) return;
  draft.complaints.push_back({.kind = complaints::kind(kind),
                              .headline = std::move(headline),
                              .places = std::move(places),
                              .why = std::move(why),
                              .instead = std::move(instead)});
}

void complain(Draft& draft,
              std::string_view kind,
              const Word& word,
              std::string headline,
              std::string why,
              std::string instead) {
  complain(draft, kind, {place_of(word)}, std::move(headline), std::move(why), std::move(instead));
}

void cap_complaints(complaints::Complaints& complaints) {
  if (complaints.size() <= most_complaints) return;
  complaints.resize(most_complaints);
  complaints::Place place = complaints.back().places.front();
  complaints.push_back({.kind = complaints::kind("too-many-complaints"),
                        .headline = "more than " + std::to_string(most_complaints) +
                                    " complaints: the rest is not listed",
                        .places = {std::move(place)},
                        .why = "A file with so many slips is likely something else than a stage.",
                        .instead = "Mend the first ones and look again."});
}

std::string nearest_among(Draft& draft,
                          std::string_view written,
                          const std::vector<std::string>& known) {
  if (known.size() > draft.comparisons_left) return {};
  draft.comparisons_left -= known.size();
  const auto nearest = complaints::nearest_name(written, known);
  return nearest ? "Nearest known: `" + *nearest + "`." : std::string();
}

std::string nearest_known(Draft& draft, std::string_view written, Names names) {
  const auto [known, is_new] = draft.known_names.try_emplace(static_cast<int>(names));
  if (is_new) known->second = names_of(draft, names);
  return nearest_among(draft, written, known->second);
}

bool is_good_name(Draft& draft, const Word& word, bool dots_allowed) {
  std::string_view rest = word.text;
  bool good = !rest.empty() && rest != "?" && rest != "-";
  while (good && !rest.empty()) {
    std::size_t size = 1;
    const bool mark = std::string_view("_-+/").find(rest.front()) != std::string_view::npos ||
                      (dots_allowed && rest.front() == '.');
    good = mark || begins_with_letter(rest, size);
    rest.remove_prefix(size);
  }
  if (!good) {
    const std::string marks = dots_allowed ? "`_`, `-`, `+`, `/` and `.`" : "`_`, `-`, `+` and `/`";
    complain(draft,
             "name-letters",
             word,
             quote(word.text) + " cannot be a name",
             "",
             "Names are letters, digits, " + marks + ".");
  }
  return good;
}

bool register_thing(Draft& draft, const Word& name, bool is_heatsink, std::size_t index) {
  const auto [known, is_new] = draft.things.try_emplace(name.text);
  if (is_new) {
    known->second = {.is_heatsink = is_heatsink, .index = index, .name = name};
    return true;
  }
  complaints::Place here = place_of(name, "the second");
  complaints::Place there = place_of(known->second.name, "the first");
  // Heat sinks are understood before parts, whichever stands first.
  if (here.file == there.file && here.line < there.line) {
    std::swap(here, there);
    std::swap(here.remark, there.remark);
  }
  const bool one_file = here.file == there.file;
  complain(
      draft,
      "name-twice",
      {here, there},
      quote(name.text) + " stands twice: " +
          (one_file ? "lines " + std::to_string(there.line) + " and " + std::to_string(here.line)
                    : "in " + there.file + " line " + std::to_string(there.line) + " and here"),
      "Parts and heat sinks share one set of names.",
      one_file ? "Give one of them another name, or take one out."
               : "To alter the part of the other file write `change " + name.text + " ...`.");
  return false;
}

Saying say(Draft& draft,
           const std::string& what,
           const Word& place,
           std::size_t index,
           std::string_view in_words) {
  const std::size_t level = place.source->level();
  const auto [known, is_new] = draft.said.try_emplace(what, Said{place, level, index});
  if (is_new) return {.is_new = true, .replaces = false, .index = index};
  Said& earlier = known->second;
  if (earlier.level < level) {
    earlier.place = place;
    earlier.level = level;
    return {.is_new = false, .replaces = true, .index = earlier.index};
  }
  const complaints::Place here = place_of(place, "the second");
  const complaints::Place there = place_of(earlier.place, "the first");
  complain(draft,
           what.starts_with("rail ") ? "rail-twice" : "statement-twice",
           {here, there},
           std::string(in_words) + " stands twice: lines " + std::to_string(there.line) + " and " +
               std::to_string(here.line),
           "",
           "Leave one of the two.");
  return {};
}

std::optional<circuit::PartId> part_named(Draft& draft, const Word& word) {
  const auto known = draft.things.find(word.text);
  if (known != draft.things.end() && !known->second.is_heatsink) {
    return circuit::PartId{known->second.index};
  }
  if (known != draft.things.end()) {
    complain(draft,
             "unknown-part",
             {place_of(word)},
             quote(word.text) + " is a heat sink, and a part belongs here",
             "",
             "Name a part.");
    return std::nullopt;
  }
  unknown_name(draft,
               "unknown-part",
               word,
               "no part is called " + quote(word.text),
               Names::part,
               "The file draws no part yet.");
  return std::nullopt;
}

std::optional<circuit::HeatsinkId> heatsink_named(Draft& draft, const Word& word) {
  const auto known = draft.things.find(word.text);
  if (known != draft.things.end() && known->second.is_heatsink) {
    return circuit::HeatsinkId{known->second.index};
  }
  unknown_name(draft,
               "unknown-heatsink",
               word,
               "no heat sink is called " + quote(word.text),
               Names::heatsink,
               "Add a line such as `heatsink HS1 resistance=1.6K/W capacity=380J/K`.");
  return std::nullopt;
}

std::optional<circuit::ReadingId> reading_named(Draft& draft, const Word& word) {
  const auto known = draft.readings.find(word.text);
  if (known != draft.readings.end()) return circuit::ReadingId{known->second};
  unknown_name(draft,
               "unknown-reading",
               word,
               "no reading is called " + quote(word.text),
               Names::reading,
               "Add a line such as `reading idle volts e_hi e_lo`.");
  return std::nullopt;
}

}  // namespace idlepoint::language
