#include "report/warmup_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "report/figures.hpp"
#include "report/one_or_both.hpp"
#include "report/page.hpp"
#include "report/text_warmup.hpp"

namespace idlepoint::report {
namespace {

using answers::Course;
using answers::Trace;
using answers::Warmup;
using Row = TableRow;

std::vector<Trace> all_traces(const Course& course) {
  std::vector<Trace> traces = course.readings;
  traces.insert(traces.end(), course.heatsinks.begin(), course.heatsinks.end());
  return traces;
}

// A name with the emitter resistors it lies across.
std::vector<std::string> names_of_traces(const Warmup& answer) {
  std::vector<std::string> names;
  for (const auto& reading : answer.stage->readings) {
    const std::string where = resistors_in_brackets(*answer.stage, reading.probe);
    names.push_back(where.empty() ? reading.name : reading.name + " " + where);
  }
  for (const auto& sink : answer.stage->heatsinks) names.push_back(sink.name);
  return names;
}

std::size_t index_at(const Course& course, double seconds) {
  const auto at = std::lower_bound(course.times_s.begin(), course.times_s.end(), seconds);
  return static_cast<std::size_t>(at - course.times_s.begin());
}

// Marks up to where all has settled: at most six, and the early ones only where they tell.
std::vector<double> marks_of(const Warmup& answer) {
  constexpr std::size_t most = 6;
  constexpr double quick_s = 240.0;
  const double settled_s = answer.all_settled_s.value_or(answer.course.times_s.back());
  std::vector<double> marks_s;
  for (const double mark_s : answers::clock_marks_s()) {
    if (mark_s >= answer.course.times_s.back() || marks_s.size() == most) break;
    if (settled_s > quick_s && mark_s < 60.0) continue;
    if (!marks_s.empty() && marks_s.back() > settled_s) break;
    marks_s.push_back(mark_s);
  }
  return marks_s;
}

std::string settled_in_words(const std::optional<double>& settled_s) {
  if (!settled_s) return "never";
  return *settled_s < 1.0 ? "at once" : clock_time(*settled_s);
}

std::string when_in_words(double at_s) { return at_s < 1.0 ? "at once" : "at " + clock_time(at_s); }

}  // namespace

std::string course_table(const Warmup& answer) {
  const auto traces = all_traces(answer.course);
  if (traces.empty()) return {};
  const auto names = names_of_traces(answer);
  const auto marks_s = marks_of(answer);
  std::vector<Row> rows{{"", "on"}};
  for (const double mark_s : marks_s) rows[0].push_back(clock_time(mark_s));
  const bool moves = answer.course.times_s.size() > 1;
  if (moves) {
    rows[0].push_back(answer.warm ? "warm" : clock_time(answer.course.times_s.back()));
    if (answer.warm) rows[0].emplace_back("settled in");
  }
  for (std::size_t k = 0; k < traces.size(); ++k) {
    const Trace& trace = traces[k];
    Row row{names[k], figure(trace.values.front(), trace.unit)};
    for (const double mark_s : marks_s) {
      row.push_back(figure(trace.values[index_at(answer.course, mark_s)], trace.unit));
    }
    if (moves) {
      row.push_back(figure(trace.values.back(), trace.unit));
      if (answer.warm) row.push_back(settled_in_words(answer.settled_s[k]));
    }
    rows.push_back(std::move(row));
  }
  return table_of(rows);
}

std::string disturbed_table(const Warmup& answer, const answers::Disturbed& disturbed) {
  const auto traces = all_traces(disturbed.course);
  const auto names = names_of_traces(answer);
  const std::size_t end = index_at(disturbed.course, disturbed.lasts_s);
  std::vector<Row> rows{{"", "before", "at its end", "farthest", "", "back in"}};
  for (std::size_t k = 0; k < traces.size(); ++k) {
    const Trace& trace = traces[k];
    const auto& swing = disturbed.swings[k];
    rows.push_back({names[k],
                    figure(trace.values.front(), trace.unit),
                    figure(trace.values[end], trace.unit),
                    figure(swing.farthest, trace.unit),
                    when_in_words(swing.at_s),
                    settled_in_words(disturbed.back_s[k])});
  }
  return table_of(rows);
}

}  // namespace idlepoint::report
