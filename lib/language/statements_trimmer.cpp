// The trimmer, with three legs wired or as a variable resistor of two.
#include <array>
#include <utility>

#include "language/fields.hpp"
#include "language/node_names.hpp"
#include "language/statement_table.hpp"

namespace idlepoint::language {
namespace {

using circuit::SpareLeg;
using circuit::TrackEnd;
using values::Unit;

// The legs as written: one end, the wiper, and the other end where it is wired.
struct Legs {
  const Word* a = nullptr;
  const Word* wiper = nullptr;
  const Word* b = nullptr;
};

// clockwise= names an end by the node it is wired to, or by the lead's own name a or b.
std::optional<TrackEnd> read_clockwise(Draft& draft, Pairs& pairs, const Legs& legs) {
  const Word* word = pairs.find("clockwise");
  if (word == nullptr) return std::nullopt;
  const bool is_a = word->text == legs.a->text;
  const bool is_b = legs.b != nullptr && word->text == legs.b->text;
  if (is_a != is_b) return is_a ? TrackEnd::a : TrackEnd::b;
  if (word->text == "a" || word->text == "A") return TrackEnd::a;
  if (word->text == "b" || word->text == "B") return TrackEnd::b;
  complain(draft,
           "choice-expected",
           *word,
           quote("clockwise=" + word->text) + " names no end of this trimmer",
           "",
           "Write `a` for the end named first, `b` for the other.");
  return std::nullopt;
}

SpareLeg read_spare(Draft& draft, Pairs& pairs, const Legs& legs) {
  const bool has_spare = legs.b == nullptr || legs.b->text == "-";
  const Word* word = pairs.find("spare");
  const auto chosen = pairs.choice("spare", {"tied", "free", "unknown"});
  if (!has_spare && word != nullptr) {
    complain(draft,
             "spare-leg",
             *word,
             "`spare=` is written for a trimmer whose three legs are all wired",
             "",
             "Take `spare=` out, or name two legs only: one end and the wiper.");
  }
  if (!has_spare) return SpareLeg::none;
  if (!chosen) return legs.b != nullptr ? SpareLeg::free : SpareLeg::unknown;
  return std::array{SpareLeg::tied, SpareLeg::free, SpareLeg::unknown}[*chosen];
}

}  // namespace

void read_trimmer(Draft& draft, const Statement& statement) {
  if (!has_words(draft, statement, 5, 6, "trimmer NAME A WIPER B VALUE")) return;
  const std::vector<Word>& words = statement.words;
  const bool three_legs = words.size() >= 6;
  const Legs legs{&words[2], &words[3], three_legs ? &words[4] : nullptr};
  circuit::Part part;
  part.kind = circuit::PartKind::trimmer;
  const Word& value = three_legs ? words[5] : words[4];
  part.value = read_part_value(draft, statement, value, Unit::ohm, Range::positive);
  Pairs pairs(draft, statement);
  circuit::TrimmerDetails details;
  details.travel = pairs.number("at", Unit::percent, Range::share).value_or(0.5);
  details.end_resistance_ohm =
      pairs.number("end_resistance", Unit::ohm, Range::not_negative).value_or(1.0);
  details.wiper_resistance_ohm =
      pairs.number("wiper_resistance", Unit::ohm, Range::not_negative).value_or(0.0);
  details.clockwise = read_clockwise(draft, pairs, legs);
  details.turns = pairs.number("turns", Unit::none, Range::positive).value_or(1.0);
  details.spare = read_spare(draft, pairs, legs);
  part.tolerance = pairs.number("tolerance", Unit::tolerance, Range::tolerance).value_or(0.20);
  pairs.finish();
  part.details = details;
  const bool tied = details.spare == SpareLeg::tied;
  const std::array<const Word*, 3> leads = {legs.a, legs.wiper, tied ? legs.wiper : legs.b};
  add_part(draft, std::move(part), words[1], leads);
}

}  // namespace idlepoint::language
