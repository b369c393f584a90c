// What the meter and the heat sinks show while a stage warms or cools: the course of every reading
// in time, and from when on it stays near its last value.
//
// Used by the warmup answer. Source: docs/commands.md, "warmup".
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers/reading_values.hpp"
#include "solve/warm_up.hpp"

namespace idlepoint::answers {

/// One reading, or one heat sink, in its own unit.
struct Trace {
  std::string name;
  ReadingUnit unit = ReadingUnit::volt;
  std::vector<double> values;  ///< [times of its course]
};

struct Course {
  std::vector<double> times_s;
  std::vector<Trace> readings;   ///< In the file's order.
  std::vector<Trace> heatsinks;  ///< Likewise.
};

/// All quantities of a stage, no times yet.
[[nodiscard]] Course empty_course(const circuit::Circuit& circuit);

/// Puts one moment at the front of a course; `values` [quantities].
void put_first(double seconds, const std::vector<double>& values, Course& course);

/// Stretches of heating, one after the other. Quantities: the readings, then the heat sinks.
class HeatCourse {
 public:
  /// `stage` must outlive this. The next stretch begins where the last one ends.
  void add(solve::HeatingStage& stage, solve::WarmUp stretch);

  /// [quantities] in their own units; none where the state between two steps cannot be solved. A
  /// moment between two stretches belongs to the first.
  [[nodiscard]] std::optional<std::vector<double>> values_at(double seconds);

  /// The ends of the steps and the middles between them, from 0.
  [[nodiscard]] std::vector<double> sample_times() const;

  /// All quantities at these times.
  [[nodiscard]] Course course(const std::vector<double>& times_s);

  [[nodiscard]] double end_s() const noexcept { return end_s_; }

 private:
  struct Stretch {
    solve::HeatingStage* stage;
    solve::WarmUp warm_up;
    double begin_s;
  };
  std::vector<Stretch> stretches_;
  double end_s_ = 0.0;
};

/// [quantities] in their own units, of one moment.
[[nodiscard]] std::vector<double> quantities_of(const circuit::Circuit& circuit,
                                                const solve::OperatingPoint& moment);

/// [quantities] how near its last value a quantity counts as settled: 2 % of that value, of a
/// temperature 2 % of its rise above the room; at least 0.1 mV, 1 uA, 1 mW or 0.01 K.
[[nodiscard]] std::vector<double> settled_bands(const circuit::Circuit& circuit,
                                                const std::vector<double>& last);

/// [quantities] the time from which each stays within its band of `last`, counted from `from_s`; 0
/// where it is within from there on; none where it is outside at the end.
[[nodiscard]] std::vector<std::optional<double>> settled_times(HeatCourse& course,
                                                               const std::vector<double>& last,
                                                               const std::vector<double>& bands,
                                                               double from_s);

/// How far a quantity goes from `last`.
struct Swing {
  double farthest = 0.0;  ///< Its value there.
  double at_s = 0.0;
};

/// [quantities]
[[nodiscard]] std::vector<Swing> swings(HeatCourse& course, const std::vector<double>& last);

}  // namespace idlepoint::answers
