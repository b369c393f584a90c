// A file's text with its name, and places in it as people count them: lines, columns in characters.
//
// Every word of a statement remembers its offset here, so that a complaint found much later can
// still show the line.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "complaints/complaint.hpp"

namespace idlepoint::language {

class SourceText {
 public:
  /// `level` is 0 for the oldest file of a `based_on` chain and grows towards the file that was
  /// asked for: a statement of a higher level may replace one of a lower.
  SourceText(std::string name, std::string text, std::size_t level);

  [[nodiscard]] const std::string& name() const noexcept { return name_; }
  [[nodiscard]] const std::string& text() const noexcept { return text_; }
  [[nodiscard]] std::size_t level() const noexcept { return level_; }
  /// Number of lines; a last line without an end counts.
  [[nodiscard]] std::size_t line_count() const noexcept { return line_starts_.size(); }
  /// Offsets of a line's first byte and of the byte behind its last, without CR and LF. From 0.
  [[nodiscard]] std::size_t line_start(std::size_t line) const { return line_starts_[line]; }
  [[nodiscard]] std::size_t line_end(std::size_t line) const;

  /// The place of the byte at `offset`. Of a very long line only the neighbourhood is shown.
  /// Cost: a search for the line; of a long line, once its length.
  [[nodiscard]] complaints::Place place(std::size_t offset, std::string remark) const;
  [[nodiscard]] std::size_t line_of(std::size_t offset) const;

 private:
  [[nodiscard]] std::size_t column_of(std::size_t line, std::size_t offset) const;

  std::string name_;
  std::string text_;
  std::size_t level_;
  std::vector<std::size_t> line_starts_;
  // Columns along the line asked for last, one each `block` bytes: a line may be as long as a file,
  // and hold thousands of complaints.
  struct Columns {
    std::size_t line = static_cast<std::size_t>(-1);
    std::vector<std::size_t> at_block;
  };
  mutable Columns columns_;
};

}  // namespace idlepoint::language
