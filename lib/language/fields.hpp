// Words and pairs of one statement as values: units, ranges, choices, blanks.
//
// The statement handlers read everything through here, so that a missing word, an unknown key or a
// value out of range is answered in the same way everywhere.
#pragma once

#include <cstddef>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "language/draft.hpp"
#include "language/lexer.hpp"
#include "values/range.hpp"
#include "values/unit.hpp"

namespace idlepoint::language {

using values::Range;

/// True where the statement has `least` to `most` words, its keyword among them; else complains
/// with its form, such as "resistor NAME A B VALUE".
bool has_words(Draft& draft,
               const Statement& statement,
               std::size_t least,
               std::size_t most,
               std::string_view form);

/// The SI number of `word`. Complains and returns nothing where it is none or out of range. A `?`
/// is noted as a blank of the circuit, described by `what` ("the value", "`resistance`").
[[nodiscard]] std::optional<double> read_number(Draft& draft,
                                                const Statement& statement,
                                                const Word& word,
                                                std::string_view what,
                                                values::Unit unit,
                                                Range range = Range::any);

/// The same for the VALUE of a part; 1 where it cannot be known, so that reading can go on.
[[nodiscard]] double read_part_value(
    Draft& draft, const Statement& statement, const Word& word, values::Unit unit, Range range);

/// Complains where `value` is out of range.
bool is_in_range(Draft& draft, const Word& word, double value, values::Unit unit, Range range);

/// Notes a `?`: "the value of R8 (resistor, b_hi to t)".
void note_blank(Draft& draft, const Statement& statement, const Word& word, std::string_view what);

/// The pairs of one statement: each key that is asked for is a known one, the rest are complained
/// of by `finish`, with the nearest of those asked for.
class Pairs {
 public:
  Pairs(Draft& draft, const Statement& statement);

  /// The value written for a key; null where it is not written.
  const Word* find(std::string_view key);
  /// As `find`; complains where it is not written.
  const Word* require(std::string_view key);

  std::optional<double> number(std::string_view key, values::Unit unit, Range range = Range::any);

  /// The index of the word in `choices`; complains of any other.
  std::optional<std::size_t> choice(std::string_view key,
                                    std::initializer_list<std::string_view> choices);

  void finish();

 private:
  Draft& draft_;
  const Statement& statement_;
  std::vector<bool> used_;
  std::vector<std::string> asked_;
};

}  // namespace idlepoint::language
