#include "report/page.hpp"

#include <algorithm>

namespace idlepoint::report {

std::string fold(std::string_view text,
                 const Page& page,
                 std::size_t first_indent,
                 std::size_t indent) {
  std::string out(first_indent, ' ');
  std::size_t column = first_indent;
  bool line_is_empty = true;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    const std::string_view word = text.substr(at, end - at);
    at = end + 1;
    if (word.empty()) continue;
    if (!line_is_empty && column + 1 + width_of(word) > page.width) {
      out += "\n" + std::string(indent, ' ');
      column = indent;
      line_is_empty = true;
    }
    if (!line_is_empty) out += ' ';
    out += word;
    column += width_of(word) + (line_is_empty ? 0 : 1);
    line_is_empty = false;
  }
  return out + "\n";
}

std::string emphasised(const std::string& text, const Page& page) {
  return page.bold ? "\x1b[1m" + text + "\x1b[0m" : text;
}

std::string in_capitals(std::string_view text) {
  std::string capitals(text);
  for (char& letter : capitals) {
    if (letter >= 'a' && letter <= 'z') letter = static_cast<char>(letter - 'a' + 'A');
  }
  return capitals;
}

std::size_t width_of(std::string_view text) noexcept {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xc0U) != 0x80U;
  }));
}

std::string padded_right(std::string_view text, std::size_t width) {
  const std::size_t used = width_of(text);
  return std::string(text) + std::string(used < width ? width - used : 0, ' ');
}

std::string padded_left(std::string_view text, std::size_t width) {
  const std::size_t used = width_of(text);
  return std::string(used < width ? width - used : 0, ' ') + std::string(text);
}

std::string table_of(const std::vector<TableRow>& rows) {
  std::vector<std::size_t> widths;
  for (const TableRow& row : rows) {
    widths.resize(std::max(widths.size(), row.size()));
    for (std::size_t column = 0; column < row.size(); ++column) {
      widths[column] = std::max(widths[column], width_of(row[column]));
    }
  }
  std::string text;
  for (const TableRow& row : rows) {
    std::string line = "  " + padded_right(row.front(), widths.front());
    for (std::size_t column = 1; column < row.size(); ++column) {
      line += "   " + padded_left(row[column], widths[column]);
    }
    text += line.substr(0, line.find_last_not_of(' ') + 1) + "\n";
  }
  return text;
}

}  // namespace idlepoint::report
