// What the benchmark prints and how it measures: one row a comparison, medians of interleaved runs.
//
// Times are of the measuring thread's own processor clock, so that other work on the machine
// disturbs little. Nothing here passes or fails.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace idlepoint::benchmarks {

/// How much is measured: `quick` shows in a few seconds that everything runs.
struct Effort {
  std::size_t variants = 200;
  std::size_t rounds = 31;
  std::size_t cold_variants = 40;
  std::size_t cold_rounds = 9;
  std::size_t faults = 200;
  std::size_t commands = 150;
  std::size_t sampled_variants = 256;  ///< Each contender's, a round.
  std::size_t sampling_rounds = 15;
  std::size_t samples_at_once = 100'000;  ///< On one core and on two.
  std::size_t samples_held = 1'000'000;   ///< In memory.
};
inline constexpr Effort quick{40, 3, 8, 1, 40, 10, 16, 1, 2'000, 20'000};

/// One thing to time: `run(k)` does the k-th of `count` pieces and says whether it succeeded.
struct Contender {
  std::string name;
  std::function<bool(std::size_t)> run;
};

struct Timing {
  double median_us = 0.0;  ///< A piece, over the rounds.
  std::size_t failures = 0;
};

/// Each round gives every contender all its pieces in turn, so that all meet the same weather.
[[nodiscard]] std::vector<Timing> time_interleaved(const std::vector<Contender>& contenders,
                                                   std::size_t pieces,
                                                   std::size_t rounds);

[[nodiscard]] double median(std::vector<double> values);

void print_heading(std::string_view what);

/// A comparison: ours, the other, how many times ours fits into the other, and the goal in words.
void print_ratio(std::string_view what, double ours_us, double other_us, std::string_view goal);

/// A single number and its goal.
void print_number(std::string_view what,
                  double value,
                  std::string_view unit,
                  std::string_view goal);

void print_remark(std::string_view words);

}  // namespace idlepoint::benchmarks
