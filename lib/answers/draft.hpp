// Which stage files can be had with their values left blank, and what is asked in each?
//
// Taken from the drafts that are installed with the program: a draft's first comment says what kind
// of stage it is, the one that begins "On the drawing:" how to recognise it. Used by `draft`.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "circuit/circuit.hpp"

namespace idlepoint::answers {

struct Draft {
  std::string name;            ///< As it is asked for: "quasi".
  std::string kind;            ///< "Quasi-complementary outputs, two diodes and a preset, ...".
  std::string on_the_drawing;  ///< What to look for, one sentence or two.
  std::string text;            ///< The stage file itself.
  std::vector<circuit::Blank> blanks;
};

/// The draft called `name`, from its text and the circuit that was read from it.
[[nodiscard]] Draft make_draft(std::string name, std::string text, const circuit::Circuit& circuit);

/// What the comment lines at the head of `text` say, paragraph by paragraph, each on one line.
[[nodiscard]] std::vector<std::string> head_paragraphs(std::string_view text);

}  // namespace idlepoint::answers
