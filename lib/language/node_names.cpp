#include "language/node_names.hpp"

#include <algorithm>
#include <utility>

#include "circuit/sentence.hpp"

namespace idlepoint::language {
namespace {

using circuit::NodeId;

// How far each use has been followed.
enum class Mark { untouched, on_path, done };

struct Resolving {
  Draft& draft;
  std::vector<Mark> marks;
  std::vector<std::optional<NodeId>> nodes;
};

bool is_lead_reference(const std::string& text) { return text.find('.') != std::string::npos; }

bool is_other_ground(std::string_view text) {
  for (const std::string_view name : {"0", "GND", "Gnd", "ground", "Ground", "GROUND", "0v"}) {
    if (text == name) return true;
  }
  return false;
}

NodeId node_of_name(Draft& draft, const std::string& name, const Word& word) {
  const auto [known, is_new] = draft.nodes.try_emplace(name, draft.circuit.nodes.size());
  if (is_new) {
    draft.circuit.nodes.push_back(
        {.name = name, .is_socket = false, .lifted = false, .place = place_of(word, "")});
  }
  return NodeId{known->second};
}

bool answer_other_ground(Draft& draft, const Word& word) {
  if (!is_other_ground(word.text)) return false;
  complain(draft,
           "write-gnd",
           word,
           quote(word.text) + " is not how the reference point is written",
           "",
           "Write `gnd`.");
  return true;
}

// The lead that `Q603.c` stands for; complains where part or lead do not exist.
struct Lead {
  std::size_t part = 0;
  std::size_t index = 0;
};

std::optional<Lead> referred_lead(Draft& draft, const Word& word) {
  const std::size_t dot = word.text.rfind('.');
  Word part_word = word;
  part_word.text = word.text.substr(0, dot);
  const auto part = part_named(draft, part_word);
  if (!part) return std::nullopt;
  const circuit::PartKind kind = draft.circuit.at(*part).kind;
  const auto lead = lead_index(kind, std::string_view(word.text).substr(dot + 1));
  if (!lead) {
    complain(draft,
             "unknown-lead",
             word,
             quote(part_word.text) + " is " + circuit::a_kind(kind) + " and has no lead " +
                 quote(word.text.substr(dot + 1)),
             "",
             "Its leads are " + lead_choices(kind) + ".");
    return std::nullopt;
  }
  return Lead{part->index, *lead};
}

void complain_of_left_off(Draft& draft, const Word& word) {
  complain(draft,
           "left-off-lead",
           word,
           quote(word.text) + " is a lead that is left off",
           "No wire is there to be joined to.",
           "Name the wire at that lead, or another one here.");
}

// A wire that no name is written at: named after the first of its leads.
std::string wire_name(const Draft& draft, const std::vector<std::size_t>& path) {
  std::size_t first = path.front();
  if (draft.node_uses[first].is_rail) first = *std::min_element(path.begin() + 1, path.end());
  const NodeUse& use = draft.node_uses[first];
  const circuit::Part& part = draft.circuit.parts[use.part];
  return part.name + "." + std::string(circuit::lead_names(part.kind)[use.lead]);
}

// What a use says by itself: a node, or the next use to look at.
struct Look {
  std::optional<NodeId> node;
  std::optional<std::size_t> next;
};

Look look_at(Draft& draft, std::size_t index) {
  const NodeUse& use = draft.node_uses[index];
  if (!use.word || (use.word->text == "-" && !use.is_rail)) return {};
  const Word word = *use.word;
  if (is_lead_reference(word.text)) {
    const auto lead = referred_lead(draft, word);
    if (!lead) return {};
    return {.node = {}, .next = draft.first_use[lead->part] + lead->index};
  }
  if (word.text == "gnd" || word.text == "0V" || answer_other_ground(draft, word)) {
    return {.node = circuit::ground, .next = {}};
  }
  if (!is_good_name(draft, word)) {
    draft.forgiven.insert(word.text);
    return {};
  }
  return {.node = node_of_name(draft, word.text, word), .next = {}};
}

// Follows references from `start` until a name, a left-off lead or a ring, without recursion: a
// chain may be as long as the file.
void follow(Resolving& resolving, std::size_t start) {
  Draft& draft = resolving.draft;
  std::vector<std::size_t> path;
  std::optional<NodeId> node;
  std::size_t at = start;
  while (true) {
    if (resolving.marks[at] == Mark::done) {
      node = resolving.nodes[at];
      if (!node && !path.empty() && draft.node_uses[at].word &&
          draft.node_uses[at].word->text == "-") {
        complain_of_left_off(draft, *draft.node_uses[path.back()].word);
      }
      break;
    }
    if (resolving.marks[at] == Mark::on_path) {
      node = node_of_name(draft, wire_name(draft, path), *draft.node_uses[start].word);
      break;
    }
    resolving.marks[at] = Mark::on_path;
    path.push_back(at);
    const Look step = look_at(draft, at);
    if (!step.next) {
      node = step.node;
      const bool left_off = draft.node_uses[at].word && draft.node_uses[at].word->text == "-";
      if (path.size() > 1 && !node && (left_off || !draft.node_uses[at].word)) {
        complain_of_left_off(draft, *draft.node_uses[path[path.size() - 2]].word);
      }
      break;
    }
    at = *step.next;
  }
  for (const std::size_t index : path) {
    resolving.marks[index] = Mark::done;
    resolving.nodes[index] = node;
  }
}

void complain_of_rail(Draft& draft, const circuit::Rail& rail, const Word& word) {
  if (rail.node != circuit::ground) return;
  complain(draft,
           "rail-on-gnd",
           word,
           "`gnd` cannot be a rail",
           "It is the point that all volts are counted from.",
           "Name the rail's own point.");
}

}  // namespace

std::optional<std::size_t> lead_index(circuit::PartKind kind, std::string_view name) {
  const auto names = circuit::lead_names(kind);
  for (std::size_t index = 0; index < names.size(); ++index) {
    if (names[index] == name) return index;
  }
  if (names.size() == 2 && name == "1") return 0;
  if (names.size() == 2 && name == "2") return 1;
  return std::nullopt;
}

std::string lead_choices(circuit::PartKind kind) {
  std::vector<std::string> names;
  for (const std::string_view name : circuit::lead_names(kind)) names.push_back(quote(name));
  return circuit::list_words(names);
}

circuit::PartId add_part(Draft& draft,
                         circuit::Part part,
                         const Word& name,
                         std::span<const Word* const> leads) {
  const std::size_t index = draft.circuit.parts.size();
  if (is_good_name(draft, name)) register_thing(draft, name, false, index);
  part.name = name.text;
  part.place = place_of(name, "");
  part.leads.resize(leads.size());
  draft.first_use.push_back(draft.node_uses.size());
  for (std::size_t lead = 0; lead < leads.size(); ++lead) {
    NodeUse use{.word = std::nullopt, .part = index, .lead = lead, .is_rail = false};
    if (leads[lead] != nullptr) use.word = *leads[lead];
    part.lead_places.push_back(place_of(use.word ? *use.word : name, ""));
    draft.node_uses.push_back(std::move(use));
  }
  draft.circuit.parts.push_back(std::move(part));
  draft.is_mounted.push_back(false);
  draft.part_levels.push_back(0);
  return circuit::PartId{index};
}

void use_rail_node(Draft& draft, std::size_t rail, const Word& node) {
  draft.node_uses.push_back({.word = node, .part = rail, .lead = 0, .is_rail = true});
}

void resolve_nodes(Draft& draft) {
  const std::size_t count = draft.node_uses.size();
  Resolving resolving{
      draft, std::vector<Mark>(count, Mark::untouched), std::vector<std::optional<NodeId>>(count)};
  std::unordered_map<std::size_t, const Word*> rail_at;
  for (std::size_t index = 0; index < count; ++index) {
    if (resolving.marks[index] == Mark::untouched) follow(resolving, index);
    const NodeUse& use = draft.node_uses[index];
    const auto& node = resolving.nodes[index];
    if (!use.is_rail) {
      draft.circuit.parts[use.part].leads[use.lead] = node;
      continue;
    }
    if (!node) continue;
    circuit::Rail& rail = draft.circuit.rails[use.part];
    rail.node = *node;
    complain_of_rail(draft, rail, *use.word);
    const auto [known, is_new] = rail_at.try_emplace(node->index, &*use.word);
    if (is_new) continue;
    complain(draft,
             "rail-twice",
             {place_of(*use.word, "the second"), place_of(*known->second, "the first")},
             quote(use.word->text) + " is given two rails",
             "One point can have one supply.",
             "Leave one of the two.");
  }
}

std::optional<NodeId> node_named(Draft& draft, const Word& word) {
  if (word.text == "gnd" || word.text == "0V" || answer_other_ground(draft, word)) {
    return circuit::ground;
  }
  if (is_lead_reference(word.text)) {
    const auto lead = referred_lead(draft, word);
    if (!lead) return std::nullopt;
    const auto& node = draft.circuit.parts[lead->part].leads[lead->index];
    if (!node) complain_of_left_off(draft, word);
    return node;
  }
  const auto known = draft.nodes.find(word.text);
  if (known != draft.nodes.end()) return NodeId{known->second};
  if (draft.base_is_missing || draft.forgiven.contains(word.text)) return std::nullopt;
  std::string instead = nearest_known(draft, word.text, Names::node);
  if (draft.things.contains(word.text) && instead.empty()) {
    instead = quote(word.text) + " is a part; name the wire at one of its leads, such as " +
              quote(word.text + ".1") + ".";
  }
  complain(
      draft, "unknown-node", word, "no part meets a point called " + quote(word.text), "", instead);
  return std::nullopt;
}

}  // namespace idlepoint::language
