#include "terminal.hpp"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>

namespace idlepoint::cli {
namespace {

constexpr std::size_t narrowest = 60;
constexpr std::size_t widest = 120;

void write_all(const std::string& text, std::FILE* stream) {
  std::fwrite(text.data(), 1, text.size(), stream);
  std::fflush(stream);
}

bool is_colour_unwanted() {
  const char* setting = std::getenv("NO_COLOR");
  return setting != nullptr && *setting != '\0';
}

}  // namespace

report::Page page_of_terminal() {
  report::Page page;
  if (isatty(STDOUT_FILENO) == 0) return page;
  page.bold = !is_colour_unwanted();
  winsize size{};
  if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) {
    page.width = std::clamp<std::size_t>(size.ws_col, narrowest, widest);
  }
  return page;
}

void say(const std::string& text) { write_all(text, stdout); }

void complain(const std::string& text) { write_all(text, stderr); }

}  // namespace idlepoint::cli
