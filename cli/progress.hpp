// How far a long calculation is, on a terminal, and whether its user has had enough.
//
// Used by commands that can take more than a second and can answer with what they have.
#pragma once

#include <atomic>
#include <chrono>

namespace idlepoint::cli {

/// While one lives, the first Ctrl-C asks to stop; the second ends the program as usual.
class Progress {
 public:
  Progress();
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  /// Shows the share done, 0 to 1, from the second second on and where standard error is a
  /// terminal. False once the user has asked to stop.
  [[nodiscard]] bool go_on(double share_done);

  /// Takes the line away, so that the answer can follow.
  void clear();

 private:
  std::chrono::steady_clock::time_point begun_;
  std::atomic<bool> is_shown_ = false;  ///< Several threads may report.
};

}  // namespace idlepoint::cli
