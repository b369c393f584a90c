#include "language/source_text.hpp"

#include <algorithm>
#include <utility>

namespace idlepoint::language {
namespace {

constexpr std::size_t longest_shown = 160;  // Bytes of a line in a complaint.
constexpr std::size_t block = 1024;         // Bytes from one remembered column to the next.

bool continues_character(char c) { return (static_cast<unsigned char>(c) & 0xc0U) == 0x80U; }

}  // namespace

SourceText::SourceText(std::string name, std::string text, std::size_t level)
    : name_(std::move(name)), text_(std::move(text)), level_(level) {
  if (std::string_view(text_).starts_with("\xef\xbb\xbf")) text_.erase(0, 3);
  line_starts_.push_back(0);
  for (std::size_t at = 0; at < text_.size(); ++at) {
    if (text_[at] == '\n' && at + 1 < text_.size()) line_starts_.push_back(at + 1);
  }
}

std::size_t SourceText::line_end(std::size_t line) const {
  std::size_t end = line + 1 < line_starts_.size() ? line_starts_[line + 1] : text_.size();
  if (end > line_starts_[line] && text_[end - 1] == '\n') --end;
  if (end > line_starts_[line] && text_[end - 1] == '\r') --end;
  return end;
}

std::size_t SourceText::line_of(std::size_t offset) const {
  const auto after = std::upper_bound(line_starts_.begin(), line_starts_.end(), offset);
  return static_cast<std::size_t>(after - line_starts_.begin()) - 1;
}

std::size_t SourceText::column_of(std::size_t line, std::size_t offset) const {
  const std::size_t start = line_starts_[line];
  const std::size_t into_line = std::min(offset, text_.size()) - start;
  const auto count = [this](std::size_t from, std::size_t to) {
    return static_cast<std::size_t>(std::count_if(text_.begin() + static_cast<std::ptrdiff_t>(from),
                                                  text_.begin() + static_cast<std::ptrdiff_t>(to),
                                                  [](char c) { return !continues_character(c); }));
  };
  if (into_line < block) return 1 + count(start, start + into_line);
  if (columns_.line != line) {
    columns_ = {line, {1}};
    for (std::size_t at = start; at + block <= line_end(line); at += block) {
      columns_.at_block.push_back(columns_.at_block.back() + count(at, at + block));
    }
  }
  const std::size_t index = std::min(into_line / block, columns_.at_block.size() - 1);
  return columns_.at_block[index] + count(start + index * block, start + into_line);
}

complaints::Place SourceText::place(std::size_t offset, std::string remark) const {
  const std::size_t line = line_of(offset);
  const std::size_t start = line_starts_[line];
  const std::size_t end = line_end(line);
  std::size_t from = start;
  std::size_t to = end;
  if (end - start > longest_shown) {
    const std::size_t into_line = offset - start;
    from = into_line > longest_shown / 2 ? offset - longest_shown / 2 : start;
    to = std::min(end, from + longest_shown);
    while (from > start && continues_character(text_[from])) --from;
    while (to < end && continues_character(text_[to])) ++to;
  }
  std::string shown = text_.substr(from, to - from);
  if (from > start) shown.insert(0, "...");
  if (to < end) shown += "...";
  return {.file = name_,
          .line = static_cast<int>(line + 1),
          .column = static_cast<int>(column_of(line, offset)),
          .line_text = std::move(shown),
          .remark = std::move(remark)};
}

}  // namespace idlepoint::language
