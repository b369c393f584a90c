#include "report/html_text.hpp"

namespace idlepoint::report {
namespace {

bool is_control(char letter) {
  const auto code = static_cast<unsigned char>(letter);
  return (code < 0x20 && letter != '\t' && letter != '\n') || code == 0x7f;
}

}  // namespace

std::string html_text(std::string_view text) {
  std::string page;
  for (const char letter : text) {
    switch (letter) {
      case '&':
        page += "&amp;";
        break;
      case '<':
        page += "&lt;";
        break;
      case '>':
        page += "&gt;";
        break;
      case '"':
        page += "&quot;";
        break;
      case '\'':
        page += "&#39;";
        break;
      default:
        page += is_control(letter) ? '?' : letter;
    }
  }
  return page;
}

std::string json_in_script(std::string_view json) {
  constexpr std::string_view line_separator = "\xe2\x80\xa8";
  constexpr std::string_view paragraph_separator = "\xe2\x80\xa9";
  std::string script;
  while (!json.empty()) {
    std::size_t taken = 1;
    if (json.front() == '<') {
      script += "\\u003c";
    } else if (json.front() == '>') {
      script += "\\u003e";
    } else if (json.front() == '&') {
      script += "\\u0026";
    } else if (json.starts_with(line_separator)) {
      script += "\\u2028";
      taken = line_separator.size();
    } else if (json.starts_with(paragraph_separator)) {
      script += "\\u2029";
      taken = paragraph_separator.size();
    } else {
      script += json.front();
    }
    json.remove_prefix(taken);
  }
  return script;
}

}  // namespace idlepoint::report
