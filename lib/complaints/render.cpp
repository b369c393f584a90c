#include "complaints/render.hpp"

#include <algorithm>
#include <cstddef>
#include <string_view>
#include <vector>

namespace idlepoint::complaints {
namespace {

constexpr std::size_t paper_width = 100;  // Characters; longer sentences are folded.

// The user's bytes without anything that could move the cursor of a terminal.
std::string printable(std::string_view text) {
  std::string shown(text);
  for (std::size_t at = 0; at < shown.size(); ++at) {
    const unsigned char c = static_cast<unsigned char>(shown[at]);
    if (c < 0x20 || c == 0x7f) shown[at] = c == '\t' ? ' ' : '?';
    // C1 control characters are two bytes in UTF-8: C2 80 to C2 9F.
    const bool c1 = c == 0xc2 && at + 1 < shown.size() &&
                    static_cast<unsigned char>(shown[at + 1]) >= 0x80 &&
                    static_cast<unsigned char>(shown[at + 1]) <= 0x9f;
    if (c1) shown.replace(at, 2, "?");
  }
  return shown;
}

std::size_t width_of(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xc0U) != 0x80U;
  }));
}

// "line 23, column 20", with the file where it is not the one already named.
std::string label_of(const Place& place, std::string_view file) {
  std::string label;
  if (place.file != file) label = printable(place.file);
  const auto add = [&label](const std::string& part) {
    if (!label.empty()) label += ", ";
    label += part;
  };
  if (place.line > 0) add("line " + std::to_string(place.line));
  if (place.column > 0) add("column " + std::to_string(place.column));
  return label;
}

// Folds a sentence at blanks; lines after the first begin below the first word.
std::string folded(std::string_view text, std::size_t indent) {
  std::string out;
  std::size_t column = indent;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    const std::string_view word = text.substr(at, end - at);
    const bool fits = column + 1 + width_of(word) <= paper_width;
    if (!out.empty()) {
      out += fits ? std::string(" ") : "\n" + std::string(indent, ' ');
      column = fits ? column + 1 : indent;
    }
    out += word;
    column += width_of(word);
    at = end + 1;
  }
  return out;
}

std::string render_places(const Complaint& complaint) {
  const std::string& file = complaint.places.front().file;
  std::vector<std::string> labels;
  std::size_t widest = 0;
  for (const Place& place : complaint.places) {
    labels.push_back(label_of(place, file));
    widest = std::max(widest, width_of(labels.back()));
  }
  std::string out;
  for (std::size_t index = 0; index < labels.size(); ++index) {
    const Place& place = complaint.places[index];
    if (labels[index].empty() && place.line_text.empty() && place.remark.empty()) continue;
    const std::string gap(widest - width_of(labels[index]) + (widest == 0 ? 0 : 3), ' ');
    const std::string below(2 + widest + (widest == 0 ? 0 : 3), ' ');
    const std::string text = printable(place.line_text);
    if (text.empty()) {
      out += "  " + labels[index] + (place.remark.empty() ? "" : gap);
    } else {
      out += "  " + labels[index] + gap + text;
      if (!place.remark.empty()) out += "\n" + below;
    }
    if (!place.remark.empty()) out += "here: " + printable(place.remark);
    out += "\n";
  }
  return out;
}

std::string render_one(const Complaint& complaint) {
  std::string headline = printable(complaint.headline);
  if (headline.empty() || std::string_view(".?!").find(headline.back()) == std::string_view::npos) {
    headline += '.';
  }
  std::string out = printable(complaint.places.front().file) + ": " + headline + "\n";
  const std::string places = render_places(complaint);
  if (!places.empty()) out += "\n" + places;
  if (!complaint.why.empty() || !complaint.instead.empty()) out += "\n";
  if (!complaint.why.empty()) out += "  Why   " + folded(printable(complaint.why), 8) + "\n";
  if (!complaint.instead.empty())
    out += "  Do    " + folded(printable(complaint.instead), 8) + "\n";
  return out;
}

}  // namespace

std::string render(const Complaints& complaints) {
  std::string out;
  for (const Complaint& complaint : complaints) {
    if (!out.empty()) out += "\n";
    out += render_one(complaint);
  }
  return out;
}

}  // namespace idlepoint::complaints
