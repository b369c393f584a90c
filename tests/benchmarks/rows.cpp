#include "benchmarks/rows.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <ctime>

namespace idlepoint::benchmarks {
namespace {

double thread_microseconds() {
  timespec now{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) * 1e6 + static_cast<double>(now.tv_nsec) * 1e-3;
}

}  // namespace

double median(std::vector<double> values) {
  if (values.empty()) return 0.0;
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

std::vector<Timing> time_interleaved(const std::vector<Contender>& contenders,
                                     std::size_t pieces,
                                     std::size_t rounds) {
  std::vector<Timing> timings(contenders.size());
  std::vector<std::vector<double>> all_us(contenders.size());
  for (std::size_t round = 0; round <= rounds; ++round) {
    for (std::size_t c = 0; c < contenders.size(); ++c) {
      std::size_t failures = 0;
      const double before_us = thread_microseconds();
      for (std::size_t k = 0; k < pieces; ++k) failures += contenders[c].run(k) ? 0U : 1U;
      const double each_us = (thread_microseconds() - before_us) / static_cast<double>(pieces);
      timings[c].failures = failures;
      // The first round only warms caches.
      if (round > 0) all_us[c].push_back(each_us);
    }
  }
  for (std::size_t c = 0; c < contenders.size(); ++c) {
    timings[c].median_us = median(std::move(all_us[c]));
  }
  return timings;
}

void print_heading(std::string_view what) {
  fmt::print("\n{:<58}{:>9} {:>9} {:>7}  goal\n", what, "ours us", "other us", "ratio");
}

void print_ratio(std::string_view what, double ours_us, double other_us, std::string_view goal) {
  fmt::print("  {:<56}{:>9.2f} {:>9.2f} {:>7.2f}  {}\n",
             what,
             ours_us,
             other_us,
             other_us / ours_us,
             goal);
}

void print_number(std::string_view what,
                  double value,
                  std::string_view unit,
                  std::string_view goal) {
  fmt::print("  {:<56}{:>20.2f} {:<7}  {}\n", what, value, unit, goal);
}

void print_remark(std::string_view words) { fmt::print("  {}\n", words); }

}  // namespace idlepoint::benchmarks
