// `change PART key=value ...` and `change PART absent`: a statement of the base file, altered
// before anybody has read it.
#include <algorithm>
#include <utility>

#include "language/fields.hpp"
#include "language/gather.hpp"
#include "language/statement_table.hpp"

namespace idlepoint::language {
namespace {

struct Changing {
  Draft& draft;
  std::vector<Statement>& statements;
  std::unordered_map<std::string, std::size_t> parts{};  // Name to statement.
  std::vector<bool> gone{};
};

bool names_a_thing(const Statement& statement) {
  const StatementFacts* facts = find_statement(statement.keyword().text);
  if (facts == nullptr || statement.words.size() < 2) return false;
  const bool is_part = facts->step == Step::parts && facts->keyword != "rail";
  return is_part || facts->keyword == "heatsink";
}

// The word that `value=` stands for; null where the part has no VALUE.
Word* value_word(Statement& statement) {
  const std::string& keyword = statement.keyword().text;
  std::vector<Word>& words = statement.words;
  if (keyword == "feed") return words.size() > 2 ? &words[2] : nullptr;
  if (keyword == "trimmer") return words.size() > 4 ? &words[words.size() > 5 ? 5 : 4] : nullptr;
  for (const std::string_view one :
       {"resistor", "capacitor", "inductor", "fuse", "thermistor", "hold", "load"}) {
    if (keyword == one) return words.size() > 4 ? &words[4] : nullptr;
  }
  return nullptr;
}

void alter(Changing& changing, Statement& part, const Statement& change) {
  for (const Pair& pair : change.pairs) {
    Word* value = pair.key.text == "value" ? value_word(part) : nullptr;
    if (value != nullptr) {
      *value = pair.value;
      continue;
    }
    const auto written = std::find_if(part.pairs.begin(), part.pairs.end(), [&](const Pair& other) {
      return other.key.text == pair.key.text;
    });
    if (written == part.pairs.end()) {
      part.pairs.push_back(pair);
    } else {
      *written = pair;
    }
  }
  if (change.words.size() > 2) {
    complain(changing.draft,
             "choice-expected",
             change.words[2],
             quote(change.words[2].text) + " is no change",
             "",
             "Write `key=value`, `value=` for the part's value, or `absent`.");
  } else if (change.pairs.empty()) {
    complain(changing.draft,
             "missing-key",
             change.keyword(),
             "this `change` says nothing",
             "",
             "Write `key=value`, `value=` for the part's value, or `absent`.");
  }
}

void complain_of_unknown_part(Changing& changing, const Word& word) {
  Draft& draft = changing.draft;
  if (draft.base_is_missing) return;
  std::vector<std::string> names;
  if (changing.parts.size() <= draft.comparisons_left) {
    for (const auto& [name, index] : changing.parts) names.push_back(name);
    std::sort(names.begin(), names.end());
  }
  complain(draft,
           "unknown-part",
           word,
           "no part of the file below is called " + quote(word.text),
           "",
           nearest_among(draft, word.text, names));
}

void apply(Changing& changing, std::size_t index) {
  const Statement& change = changing.statements[index];
  if (!has_words(changing.draft, change, 2, 3, "change PART key=value")) return;
  const Word& name = change.words[1];
  const auto part = changing.parts.find(name.text);
  if (part == changing.parts.end()) {
    complain_of_unknown_part(changing, name);
    return;
  }
  if (change.words.size() > 2 && change.words[2].text == "absent") {
    Pairs(changing.draft, change).finish();
    changing.gone[part->second] = true;
    changing.draft.removed.insert_or_assign(name.text, name);
    changing.parts.erase(part);
    return;
  }
  alter(changing, changing.statements[part->second], change);
}

}  // namespace

void apply_changes(Draft& draft, std::vector<Statement>& statements) {
  Changing changing{draft, statements};
  changing.gone.resize(statements.size(), false);
  for (std::size_t index = 0; index < statements.size(); ++index) {
    const Statement& statement = statements[index];
    if (names_a_thing(statement)) {
      changing.parts.try_emplace(statement.words[1].text, index);
      draft.removed.erase(statement.words[1].text);
    } else if (statement.keyword().text == "change") {
      apply(changing, index);
      changing.gone[index] = true;
    }
  }
  std::size_t kept = 0;
  for (std::size_t index = 0; index < statements.size(); ++index) {
    if (changing.gone[index]) continue;
    if (kept != index) statements[kept] = std::move(statements[index]);
    ++kept;
  }
  statements.erase(statements.begin() + static_cast<std::ptrdiff_t>(kept), statements.end());
}

}  // namespace idlepoint::language
