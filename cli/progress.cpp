#include "progress.hpp"

#include <fmt/format.h>
#include <signal.h>
#include <unistd.h>

#include <cmath>
#include <string>

#include "terminal.hpp"

namespace idlepoint::cli {
namespace {

constexpr std::chrono::seconds patience(1);
constexpr std::size_t steps = 20;

volatile sig_atomic_t asked_to_stop = 0;
struct sigaction before {};

extern "C" void note_wish_to_stop(int) { asked_to_stop = 1; }

std::string bar(double share_done) {
  const auto done = static_cast<std::size_t>(std::lround(share_done * steps));
  return fmt::format("\r  [{}{}] {:3.0f} %   Ctrl-C answers with what is done",
                     std::string(done, '='),
                     std::string(steps - done, '-'),
                     100.0 * share_done);
}

}  // namespace

Progress::Progress() : begun_(std::chrono::steady_clock::now()) {
  asked_to_stop = 0;
  struct sigaction action {};
  action.sa_handler = note_wish_to_stop;
  action.sa_flags = static_cast<int>(SA_RESETHAND) | SA_RESTART;
  sigaction(SIGINT, &action, &before);
}

Progress::~Progress() {
  clear();
  sigaction(SIGINT, &before, nullptr);
}

bool Progress::go_on(double share_done) {
  if (isatty(STDERR_FILENO) != 0 && std::chrono::steady_clock::now() - begun_ > patience) {
    complain(bar(share_done));
    is_shown_ = true;
  }
  return asked_to_stop == 0;
}

void Progress::clear() {
  if (is_shown_) complain("\r\x1b[K");
  is_shown_ = false;
}

}  // namespace idlepoint::cli
