// The circuit in the making: what the statements have said so far, by name, and what is still open.
//
// Filled by the statement handlers in the order of statement_table.hpp; becomes a circuit::Circuit
// in read_stage.cpp. Nothing outside lib/language sees it.
#pragma once

#include <cstddef>
#include <deque>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "circuit/circuit.hpp"
#include "complaints/complaint.hpp"
#include "language/lexer.hpp"

namespace idlepoint::language {

/// A part or a heat sink: they share one set of names.
struct NamedThing {
  bool is_heatsink = false;
  std::size_t index = 0;  ///< Into Circuit::parts or Circuit::heatsinks.
  Word name;
};

/// What a lead or a rail is joined to, as written. Empty: the lead is left off and nothing is said.
struct NodeUse {
  std::optional<Word> word;
  std::size_t part = 0;  ///< Or the rail.
  std::size_t lead = 0;
  bool is_rail = false;
};

/// A statement that may stand once, or once for one thing: remembered to be found again.
struct Said {
  Word place;
  std::size_t level = 0;
  std::size_t index = 0;
};

/// Types of the installed shelf, read only when one is asked for.
struct Shelf {
  bool loaded = false;
  std::optional<Word> asked_at;  ///< The `shelf` of `types shelf`, where it stands in a file.
  std::string folder;            ///< As the program gave it.
  std::string trouble;           ///< Why the folder gives no types: "is not there".
  bool trouble_said = false;
  std::unordered_map<std::string, const Statement*> statements;
  std::vector<std::string> names;
};

enum class Names { part, heatsink, node, type, reading };

struct Draft {
  circuit::Circuit circuit;
  complaints::Complaints complaints;  ///< Errors and warnings alike.

  std::unordered_map<std::string, NamedThing> things;
  std::unordered_map<std::string, std::size_t> nodes;
  std::unordered_map<std::string, std::size_t> types;
  std::unordered_map<std::string, std::size_t> readings;
  std::unordered_map<std::string, Said> said;
  std::unordered_map<std::string, Word> removed;  ///< By `change PART absent`.

  std::vector<NodeUse> node_uses;        ///< In the order written.
  std::vector<std::size_t> first_use;    ///< Of each part: index into node_uses; leads follow.
  std::vector<std::size_t> part_levels;  ///< Level at which each part's mounting was said.
  std::vector<bool> is_mounted;

  Shelf shelf;
  std::function<void(Draft&)> load_shelf;  ///< Fills `shelf`; empty where there is none.

  /// A file of names could not be read: names that may stand in it are not complained of.
  bool base_is_missing = false;
  bool types_are_missing = false;

  /// Words of statements that could not be understood: an unknown name among them is not complained
  /// of a second time.
  std::unordered_set<std::string> forgiven;

  /// Names still to be compared in search of the nearest: a sound file never gets near it, and a
  /// file of ten thousand slips is answered at once.
  std::size_t comparisons_left = 2'000'000;
  std::unordered_map<int, std::vector<std::string>> known_names;
};

/// A draft in which the names of a finished circuit are known: for words of the command line.
[[nodiscard]] Draft draft_of(const circuit::Circuit& circuit);

/// Adds a complaint. `places` must not be empty.
void complain(Draft& draft,
              std::string_view kind,
              std::vector<complaints::Place> places,
              std::string headline,
              std::string why,
              std::string instead);

/// The same at one word.
void complain(Draft& draft,
              std::string_view kind,
              const Word& word,
              std::string headline,
              std::string why,
              std::string instead);

/// Drops all beyond `most_complaints` and says so. They stand in the order of their places.
void cap_complaints(complaints::Complaints& complaints);

/// "Nearest known: `drive`." or nothing, within the draft's budget. Names must be complete.
[[nodiscard]] std::string nearest_known(Draft& draft, std::string_view written, Names names);

/// The same among the few names of `known`.
[[nodiscard]] std::string nearest_among(Draft& draft,
                                        std::string_view written,
                                        const std::vector<std::string>& known);

/// Complains of a name that is not letters, digits, `_`, `-`, `+`, `/` (types also `.`).
bool is_good_name(Draft& draft, const Word& word, bool dots_allowed = false);

/// Registers a part or a heat sink; complains and returns false where the name stands already.
bool register_thing(Draft& draft, const Word& name, bool is_heatsink, std::size_t index);

/// Remembers that `what` was said at `place`. Where it was said before: at the same level a
/// complaint "stands twice" and nothing; at a lower level the earlier is replaced, and returned.
struct Saying {
  bool is_new = false;    ///< Never said before.
  bool replaces = false;  ///< Said in a file that this one is based on.
  std::size_t index = 0;  ///< As given when it was first said.
};
[[nodiscard]] Saying say(Draft& draft,
                         const std::string& what,
                         const Word& place,
                         std::size_t index,
                         std::string_view in_words);

/// The part of that name; complains where there is none.
[[nodiscard]] std::optional<circuit::PartId> part_named(Draft& draft, const Word& word);
[[nodiscard]] std::optional<circuit::HeatsinkId> heatsink_named(Draft& draft, const Word& word);
[[nodiscard]] std::optional<circuit::ReadingId> reading_named(Draft& draft, const Word& word);

}  // namespace idlepoint::language
