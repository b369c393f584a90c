#include "answers/heat_course.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "values/constants.hpp"

namespace idlepoint::answers {
namespace {

constexpr double settled_share = 0.02;

double smallest_band(ReadingUnit unit) {
  switch (unit) {
    case ReadingUnit::volt:
      return 0.1e-3;
    case ReadingUnit::ampere:
      return 1e-6;
    case ReadingUnit::watt:
      return 1e-3;
    case ReadingUnit::celsius:
      return 0.01;
  }
  return 0.0;
}

std::vector<ReadingUnit> units_of(const circuit::Circuit& circuit) {
  std::vector<ReadingUnit> units;
  for (const auto& reading : circuit.readings) units.push_back(unit_of(reading.probe));
  units.resize(units.size() + circuit.heatsinks.size(), ReadingUnit::celsius);
  return units;
}

Trace& trace_of(Course& course, std::size_t quantity) {
  const std::size_t readings = course.readings.size();
  return quantity < readings ? course.readings[quantity] : course.heatsinks[quantity - readings];
}

}  // namespace

Course empty_course(const circuit::Circuit& circuit) {
  Course course;
  for (const auto& reading : circuit.readings) {
    course.readings.push_back({reading.name, unit_of(reading.probe), {}});
  }
  for (const auto& sink : circuit.heatsinks) {
    course.heatsinks.push_back({sink.name, ReadingUnit::celsius, {}});
  }
  return course;
}

void put_first(double seconds, const std::vector<double>& values, Course& course) {
  course.times_s.insert(course.times_s.begin(), seconds);
  for (std::size_t k = 0; k < values.size(); ++k) {
    auto& list = trace_of(course, k).values;
    list.insert(list.begin(), values[k]);
  }
}

std::vector<double> quantities_of(const circuit::Circuit& circuit,
                                  const solve::OperatingPoint& moment) {
  std::vector<double> values;
  for (const auto& reading : circuit.readings) {
    values.push_back(in_own_unit(moment.read(circuit, reading.probe), unit_of(reading.probe)));
  }
  for (std::size_t index = 0; index < circuit.heatsinks.size(); ++index) {
    const auto& sink = moment.heatsink(circuit::HeatsinkId{index});
    values.push_back(values::celsius_from_kelvin(sink.temperature_k));
  }
  return values;
}

void HeatCourse::add(solve::HeatingStage& stage, solve::WarmUp stretch) {
  const double begin_s = end_s_;
  end_s_ += stretch.points.back().seconds;
  stretches_.push_back({&stage, std::move(stretch), begin_s});
}

std::optional<std::vector<double>> HeatCourse::values_at(double seconds) {
  auto stretch = stretches_.begin();
  while (std::next(stretch) != stretches_.end() && std::next(stretch)->begin_s < seconds) {
    ++stretch;
  }
  const auto rest = solve::rest_at(*stretch->stage, stretch->warm_up, seconds - stretch->begin_s);
  if (!rest) return std::nullopt;
  return quantities_of(stretch->stage->circuit(), stretch->stage->moment(*rest));
}

std::vector<double> HeatCourse::sample_times() const {
  std::vector<double> times_s;
  for (const Stretch& stretch : stretches_) {
    for (const auto& point : stretch.warm_up.points) {
      const double here_s = stretch.begin_s + point.seconds;
      if (!times_s.empty()) times_s.push_back(0.5 * (times_s.back() + here_s));
      times_s.push_back(here_s);
    }
  }
  return times_s;
}

Course HeatCourse::course(const std::vector<double>& times_s) {
  Course course = empty_course(stretches_.front().stage->circuit());
  for (const double seconds : times_s) {
    const auto values = values_at(seconds);
    if (!values) continue;
    course.times_s.push_back(seconds);
    for (std::size_t k = 0; k < values->size(); ++k) {
      trace_of(course, k).values.push_back((*values)[k]);
    }
  }
  return course;
}

std::vector<double> settled_bands(const circuit::Circuit& circuit,
                                  const std::vector<double>& last) {
  const double room_c = values::celsius_from_kelvin(circuit.ambient_k);
  const auto units = units_of(circuit);
  std::vector<double> bands;
  for (std::size_t k = 0; k < last.size(); ++k) {
    const double size = units[k] == ReadingUnit::celsius ? last[k] - room_c : last[k];
    bands.push_back(std::max(settled_share * std::abs(size), smallest_band(units[k])));
  }
  return bands;
}

namespace {

bool is_outside(const std::vector<double>& values,
                const std::vector<double>& last,
                const std::vector<double>& bands,
                std::size_t quantity) {
  return std::abs(values[quantity] - last[quantity]) > bands[quantity];
}

// Between a time outside the band and a later one inside it.
double entry_time(HeatCourse& course,
                  const std::vector<double>& last,
                  const std::vector<double>& bands,
                  std::size_t quantity,
                  std::pair<double, double> between_s) {
  auto [outside_s, inside_s] = between_s;
  while (inside_s - outside_s > 1e-4 * inside_s) {
    const double middle_s = 0.5 * (outside_s + inside_s);
    const auto values = course.values_at(middle_s);
    if (!values) break;
    (is_outside(*values, last, bands, quantity) ? outside_s : inside_s) = middle_s;
  }
  return inside_s;
}

}  // namespace

std::vector<std::optional<double>> settled_times(HeatCourse& course,
                                                 const std::vector<double>& last,
                                                 const std::vector<double>& bands,
                                                 double from_s) {
  std::vector<std::optional<double>> settled(last.size(), 0.0);
  std::vector<std::optional<double>> left_s(last.size());  // Outside there.
  for (const double seconds : course.sample_times()) {
    const auto values = course.values_at(seconds);
    if (seconds <= from_s || !values) continue;
    for (std::size_t k = 0; k < last.size(); ++k) {
      if (is_outside(*values, last, bands, k)) {
        left_s[k] = seconds;
        settled[k] = std::nullopt;
      } else if (left_s[k]) {
        settled[k] = entry_time(course, last, bands, k, {*left_s[k], seconds}) - from_s;
        left_s[k] = std::nullopt;
      }
    }
  }
  return settled;
}

std::vector<Swing> swings(HeatCourse& course, const std::vector<double>& last) {
  std::vector<Swing> swings;
  for (const double value : last) swings.push_back({value, 0.0});
  for (const double seconds : course.sample_times()) {
    const auto values = course.values_at(seconds);
    if (!values) continue;
    for (std::size_t k = 0; k < last.size(); ++k) {
      if (std::abs((*values)[k] - last[k]) > std::abs(swings[k].farthest - last[k])) {
        swings[k] = {(*values)[k], seconds};
      }
    }
  }
  return swings;
}

}  // namespace idlepoint::answers
