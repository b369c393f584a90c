// What to measure next: what each suspect would show there, alike ones together.
#include <fmt/format.h>

#include <algorithm>

#include "report/diagnosis_words.hpp"
#include "report/measure_words.hpp"

namespace idlepoint::report {
namespace {

using answers::Diagnosis;
using answers::Expected;
using answers::NextMeasurement;

/// What is expected at the next point, and of which suspects.
struct NextRow {
  std::string shown;
  Expected expected;
  std::vector<std::string> suspects;
};

// No meter tells the two apart: each lies where the other's would.
bool read_alike(const Expected& one, const Expected& other) {
  if (one.beyond_range || other.beyond_range) return one.beyond_range == other.beyond_range;
  return one.low <= other.value && other.value <= one.high && other.low <= one.value &&
         one.value <= other.high;
}

std::vector<NextRow> rows_of(const Diagnosis& diagnosis, const NextMeasurement& next) {
  std::vector<NextRow> rows;
  for (const auto& under : next.under) {
    const std::string shown = expected_in_words(next.measurement, under.expected);
    const std::string name = suspect_in_words(diagnosis.ranking[under.suspect]);
    const auto same = std::find_if(rows.begin(), rows.end(), [&](const NextRow& row) {
      return row.shown == shown || read_alike(row.expected, under.expected);
    });
    if (same == rows.end()) {
      rows.push_back({shown, under.expected, {name}});
    } else {
      same->suspects.push_back(name);
    }
  }
  return rows;
}

// "Q605 open, or D601 short, or 3 others"
std::string suspects_of(const NextRow& row, std::size_t most, const char* between) {
  std::vector<std::string> names(
      row.suspects.begin(),
      row.suspects.begin() + static_cast<std::ptrdiff_t>(std::min(most, row.suspects.size())));
  const std::size_t more = row.suspects.size() - names.size();
  if (more == 1) names.push_back(row.suspects.back());
  if (more > 1) names.push_back(fmt::format("{} others", more));
  return fmt::format("{}", fmt::join(names, between));
}

}  // namespace

std::string next_section(const Diagnosis& diagnosis, std::size_t index, const Page& page) {
  const NextMeasurement& next = diagnosis.next[index];
  std::string text = fold(fmt::format("MEASURE NEXT{}: {}",
                                      index == 0 ? ", this decides most" : "",
                                      measurement_in_words(*diagnosis.stage, next.measurement)),
                          page,
                          0,
                          2);
  const auto rows = rows_of(diagnosis, next);
  std::size_t widest = width_of("anything else");
  for (const NextRow& row : rows) widest = std::max(widest, width_of(row.shown));
  const std::size_t column = 4 + widest + 3;
  for (const NextRow& row : rows) {
    const std::string names = suspects_of(row, 4, ", or ");
    text +=
        padded_right("    " + row.shown, column) + fold(names, page, column, column).substr(column);
  }
  text += padded_right("    anything else", column) + "none of these: say so, and look again\n";
  return text + fold("How: " + how_to_take(*diagnosis.stage, next.measurement), page, 2, 2);
}

std::string other_next(const Diagnosis& diagnosis, std::size_t index) {
  const NextMeasurement& next = diagnosis.next[index];
  std::vector<std::string> parts;
  for (const NextRow& row : rows_of(diagnosis, next)) {
    parts.push_back(fmt::format("{} if {}", row.shown, suspects_of(row, 2, " or ")));
  }
  return fmt::format("{} best: {}: {}.",
                     index == 1 ? "Second" : "Third",
                     measurement_in_words(*diagnosis.stage, next.measurement),
                     fmt::join(parts, ", "));
}

}  // namespace idlepoint::report
