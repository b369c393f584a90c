#include "language/probe_words.hpp"

#include "circuit/sentence.hpp"
#include "language/fields.hpp"
#include "language/node_names.hpp"

namespace idlepoint::language {
namespace {

using circuit::PartId;
using circuit::PartKind;
using circuit::Probe;
using circuit::RailId;
using values::Unit;

void refuse(Draft& draft, const Word& word, std::string headline, std::string instead) {
  complain(draft, "not-for-this-part", word, std::move(headline), "", std::move(instead));
}

// A part, or else the rail at a node of that name.
std::optional<std::variant<PartId, RailId>> part_or_rail(Draft& draft, const Word& word) {
  const auto thing = draft.things.find(word.text);
  if (thing != draft.things.end() && !thing->second.is_heatsink) {
    return PartId{thing->second.index};
  }
  if (const auto node = draft.nodes.find(word.text); node != draft.nodes.end()) {
    if (const auto rail = circuit::find_rail(draft.circuit, circuit::NodeId{node->second})) {
      return *rail;
    }
    refuse(draft,
           word,
           quote(word.text) + " is a point without a rail",
           "Amps and watts are read of a part or of a rail; volts between two points.");
    return std::nullopt;
  }
  if (const auto part = part_named(draft, word)) return *part;
  return std::nullopt;
}

std::optional<Probe> read_volts(Draft& draft, std::span<const Word> words) {
  const auto a = node_named(draft, words[1]);
  const auto b = node_named(draft, words[2]);
  if (!a || !b) return std::nullopt;
  return circuit::VoltsBetween{*a, *b};
}

std::optional<Probe> read_amps(Draft& draft, const Word& word) {
  const auto what = part_or_rail(draft, word);
  if (!what) return std::nullopt;
  const PartId* part = std::get_if<PartId>(&*what);
  if (part != nullptr && draft.circuit.at(*part).kind == PartKind::trimmer) {
    refuse(draft,
           word,
           "the amps of a trimmer are not one number",
           "Read the volts across it, or the amps of a part in its lead.");
    return std::nullopt;
  }
  return circuit::AmpsThrough{*what};
}

std::optional<Probe> read_watts(Draft& draft, const Word& word) {
  const auto what = part_or_rail(draft, word);
  if (!what) return std::nullopt;
  return circuit::WattsIn{*what};
}

std::optional<Probe> read_celsius(Draft& draft, const Word& word) {
  const auto thing = draft.things.find(word.text);
  if (thing != draft.things.end() && thing->second.is_heatsink) {
    return circuit::CelsiusOf{circuit::HeatsinkId{thing->second.index}};
  }
  const auto part = part_named(draft, word);
  if (!part) return std::nullopt;
  const PartKind kind = draft.circuit.at(*part).kind;
  if (!circuit::has_type(kind)) {
    refuse(draft,
           word,
           quote(word.text) + " is " + circuit::a_kind(kind) + " and has no junction",
           "Read the celsius of its heat sink, or of a diode or transistor.");
    return std::nullopt;
  }
  return circuit::CelsiusOf{*part};
}

}  // namespace

std::optional<Probe> read_probe_words(Draft& draft, std::span<const Word> words) {
  if (words.empty()) return std::nullopt;
  const std::string& what = words.front().text;
  const std::size_t wanted = what == "volts" ? 3 : 2;
  const bool known = what == "volts" || what == "amps" || what == "watts" || what == "celsius";
  if (!known) {
    const std::string near = nearest_among(draft, what, {"volts", "amps", "watts", "celsius"});
    complain(
        draft,
        "choice-expected",
        words.front(),
        quote(what) + " is nothing that can be read",
        "",
        near.empty() ? "Write `volts A B`, `amps PART`, `watts PART` or `celsius PART`." : near);
    return std::nullopt;
  }
  if (words.size() < wanted) {
    complain(draft,
             "missing-word",
             words.back(),
             what == "volts" ? "`volts` stops before its two points"
                             : quote(what) + " stops before its part",
             "",
             what == "volts" ? "Write `volts A B`: the red lead on A, the black on B."
                             : "Write " + quote(what + " PART") + ".");
    return std::nullopt;
  }
  if (words.size() > wanted) {
    complain(draft,
             "extra-word",
             words[wanted],
             "the word " + quote(words[wanted].text) + " is one too many",
             "",
             what == "volts" ? "Write `volts A B`." : "Write " + quote(what + " PART") + ".");
  }
  if (what == "volts") return read_volts(draft, words);
  if (what == "amps") return read_amps(draft, words[1]);
  if (what == "watts") return read_watts(draft, words[1]);
  return read_celsius(draft, words[1]);
}

Unit unit_of(const Probe& probe) {
  if (std::holds_alternative<circuit::VoltsBetween>(probe)) return Unit::volt;
  if (std::holds_alternative<circuit::AmpsThrough>(probe)) return Unit::ampere;
  if (std::holds_alternative<circuit::WattsIn>(probe)) return Unit::watt;
  return Unit::temperature;
}

Unit difference_unit_of(const Probe& probe) {
  const Unit unit = unit_of(probe);
  return unit == Unit::temperature ? Unit::kelvin : unit;
}

}  // namespace idlepoint::language
