#include "answers/fit_judgement.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "answers/fit_targets.hpp"
#include "values/format.hpp"

namespace idlepoint::answers {
namespace {

using circuit::PointQuantity;
using circuit::TypePoint;
using circuit::TypePoints;
using complaints::Complaint;
using complaints::Complaints;
using values::format_value;

constexpr double too_many_spreads = 3.0;

bool are_same(double a, double b) {
  return std::abs(a - b) <= 1e-9 * std::max(std::abs(a), std::abs(b));
}

double temperature_of(const TypePoint& point, const TypePoints& asked) {
  return std::visit(
      [&](const auto& data) { return point.temperature_k.value_or(data.measured_at_k); },
      asked.type.law);
}

/// Where the point's value can lie, on the target's scale; wide open where it says nothing.
struct Interval {
  double low = -INFINITY;
  double high = INFINITY;
};

Interval interval_of(const TypePoint& point) {
  const FitTarget target = target_of(point);
  Interval interval{target.low.value_or(-INFINITY), target.high.value_or(INFINITY)};
  if (point.value) {
    interval.low = std::max(interval.low, *target.aim - target.spread);
    interval.high = std::min(interval.high, *target.aim + target.spread);
  }
  return interval;
}

complaints::Place place(const TypePoint& point, std::string remark) {
  complaints::Place there = point.place;
  there.remark = std::move(remark);
  return there;
}

std::string figure(const TypePoint& point) {
  const auto unit = circuit::facts(point.quantity).unit;
  if (point.value) return format_value(*point.value, unit);
  if (point.min && point.max) {
    return fmt::format("{} to {}", format_value(*point.min, unit), format_value(*point.max, unit));
  }
  return point.min ? "at least " + format_value(*point.min, unit)
                   : "at most " + format_value(*point.max, unit);
}

bool at_same_conditions(const TypePoint& a, const TypePoint& b, const TypePoints& asked) {
  return a.quantity == b.quantity && are_same(a.at[0], b.at[0]) && are_same(a.at[1], b.at[1]) &&
         are_same(temperature_of(a, asked), temperature_of(b, asked));
}

void compare_same_conditions(const TypePoints& asked, Complaints& complaints) {
  for (std::size_t i = 0; i < asked.points.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      const TypePoint& later = asked.points[i];
      const TypePoint& earlier = asked.points[j];
      if (!at_same_conditions(later, earlier, asked)) continue;
      const Interval a = interval_of(later);
      const Interval b = interval_of(earlier);
      if (std::max(a.low, b.low) <= std::min(a.high, b.high)) continue;
      complaints.push_back(
          {.kind = complaints::kind("points-disagree"),
           .headline = fmt::format("two points at the same place differ: {} is {} and {}",
                                   circuit::point_in_words(earlier),
                                   figure(earlier),
                                   figure(later)),
           .places = {place(later, figure(later)), place(earlier, figure(earlier))},
           .why = "One part shows one value there.",
           .instead = "Leave out the one that you trust less, or say with `within=` how well they "
                      "are known."});
    }
  }
}

// A junction's voltage, and a gate's, rises with its current.
bool must_rise(PointQuantity quantity) {
  return quantity == PointQuantity::vbe || quantity == PointQuantity::vf ||
         quantity == PointQuantity::vgs || quantity == PointQuantity::vz;
}

void compare_along_current(const TypePoints& asked, Complaints& complaints) {
  for (const TypePoint& low : asked.points) {
    for (const TypePoint& high : asked.points) {
      if (!must_rise(low.quantity) || low.quantity != high.quantity) continue;
      const bool other_drain = !are_same(low.at[1], high.at[1]);
      if (!(high.at[0] > low.at[0]) || are_same(low.at[0], high.at[0]) || other_drain) continue;
      if (!are_same(temperature_of(low, asked), temperature_of(high, asked))) continue;
      if (!low.value || !high.value) continue;
      if (interval_of(high).high >= interval_of(low).low) continue;
      complaints.push_back(
          {.kind = complaints::kind("points-disagree"),
           .headline = fmt::format("`{}` falls from {} to {} while the current rises",
                                   circuit::facts(low.quantity).name,
                                   figure(low),
                                   figure(high)),
           .places = {place(high, figure(high)), place(low, figure(low))},
           .why = "At one temperature more current takes more voltage. A part that warmed up while "
                  "it was read shows less.",
           .instead = "Read again with short pulses, or write each point's own `temperature=`."});
    }
  }
}

bool is_named(const Complaints& complaints, const TypePoint& point) {
  return std::any_of(complaints.begin(), complaints.end(), [&](const Complaint& complaint) {
    return std::any_of(complaint.places.begin(), complaint.places.end(), [&](const auto& there) {
      return there.line == point.place.line && there.column == point.place.column;
    });
  });
}

void judge_fit(const TypePoints& asked, const TypeFit& fit, Complaints& complaints) {
  Complaints found;
  for (std::size_t i = 0; i < asked.points.size(); ++i) {
    const TypePoint& point = asked.points[i];
    const FitPoint& result = fit.points[i];
    const FitTarget target = target_of(point);
    const bool is_missed = point.value && result.predicted &&
                           std::abs(scaled(target, *result.predicted) - *target.aim) >
                               too_many_spreads * target.spread;
    if (result.predicted && result.holds.value_or(true) && !is_missed) continue;
    if (is_named(complaints, point)) continue;
    const std::string comes_to =
        result.predicted ? fmt::format("comes to {}", format_value(*result.predicted, result.unit))
                         : std::string("has no such state");
    found.push_back(
        {.kind = complaints::kind("point-out-of-reach"),
         .headline = fmt::format("the law does not reach this point: {} is {}, the best fit {}",
                                 result.text,
                                 figure(point),
                                 comes_to),
         .places = {place(point, figure(point))},
         .why = "The other points, and the fields that the type gives, leave no room for it.",
         .instead = "Look at the point and its conditions again; or say with `within=` how well it "
                    "is known."});
  }
  complaints.insert(complaints.end(), found.begin(), found.end());
}

}  // namespace

Complaints contradictions_of(const TypePoints& asked, const TypeFit& fit) {
  Complaints complaints;
  compare_same_conditions(asked, complaints);
  compare_along_current(asked, complaints);
  judge_fit(asked, fit, complaints);
  complaints::sort_by_place(complaints);
  return complaints;
}

}  // namespace idlepoint::answers
