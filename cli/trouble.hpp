// What is wrong with a command line, for the places where no complaint about a file fits.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace idlepoint::cli {

/// One thing, in the layout of the complaints: a headline, and what to do.
struct Trouble {
  std::string headline;  ///< A sentence without its full stop.
  std::string instead;   ///< A sentence; may be empty.
};

/// What was made, or why it could not be.
template <class T>
using Tried = std::variant<T, Trouble>;

/// "idlepoint: HEADLINE." and, after a blank line, "  Do    INSTEAD", folded to 100 characters.
/// Control characters of the user's words are shown as `?`.
[[nodiscard]] std::string render(const Trouble& trouble);

/// "`--rail` is no option of `readings`" with the nearest known name and the list of all.
[[nodiscard]] Trouble unknown_word(std::string_view headline,
                                   std::string_view written,
                                   std::string_view what_they_are,
                                   const std::vector<std::string>& known);

}  // namespace idlepoint::cli
