// What is wrong with a file or a command, as data with places.
//
// Made by every layer that reads or checks; rendered by complaints/render.hpp and by the reports.
#pragma once

#include <string>
#include <vector>

#include "complaints/kinds.hpp"

namespace idlepoint::complaints {

/// One place in a user's text. Lines and columns count from 1, columns in characters.
struct Place {
  std::string file;       ///< As the user named it; "command line" for an option.
  int line = 0;           ///< 0: the file as a whole.
  int column = 0;         ///< 0: the line as a whole.
  std::string line_text;  ///< The line itself, for the reader's eye.
  std::string remark;     ///< What is to be seen there; said after "here:". May be empty.
};

/// One complaint: headline in the user's words, places, one sentence of physics, what to do.
struct Complaint {
  Kind kind;
  std::string headline;       ///< A sentence without the file's name.
  std::vector<Place> places;  ///< First the one to mend; at least one.
  std::string why;            ///< May be empty.
  std::string instead;        ///< What to write or do; may be empty.
};

using Complaints = std::vector<Complaint>;

/// Sorts by file (in order of first mention), line and column, and drops exact repetitions.
void sort_by_place(Complaints& complaints);

/// True where at least one is an error: the circuit may not be solved.
[[nodiscard]] bool has_error(const Complaints& complaints) noexcept;

/// True where at least one says that the text itself cannot be read (`check` then exits 2).
[[nodiscard]] bool has_unreadable(const Complaints& complaints) noexcept;

}  // namespace idlepoint::complaints
