// Oracle: load lines worked by hand: a straight line against constant watts, half an ellipse
// against a rectangle, the corner of a falling limit.
#include <cmath>
#include <numbers>

#include "answers/asked.hpp"
#include "answers/safe_area.hpp"

namespace idlepoint::tests {
namespace {

using answers::LoadLine;
using answers::safe_current_a;
using answers::widest_safe_phase_rad;
using answers::worst_point;
using circuit::Ratings;

Ratings with_area(std::vector<Ratings::SafePoint> area) {
  Ratings ratings;
  ratings.safe_area = std::move(area);
  ratings.max_voltage_v = ratings.safe_area.back().voltage_v;
  return ratings;
}

constexpr double whole = 1.0;

}  // namespace

TEST_CASE("Between two points the safe area is straight on double logarithmic paper",
          "[answers][analytic]") {
  const Ratings ratings = with_area({{10.0, 10.0}, {40.0, 2.5}, {80.0, 0.3125}});
  CHECK_THAT(*safe_current_a(ratings, 20.0, whole), WithinRel(5.0, 1e-12));  // 100 W
  // 40 V to 80 V falls by 8: the third power of the volts.
  CHECK_THAT(*safe_current_a(ratings, 60.0, whole), WithinRel(2.5 / 3.375, 1e-12));
  CHECK_THAT(*safe_current_a(ratings, 40.0, whole), WithinRel(2.5, 1e-12));
  CHECK(*safe_current_a(ratings, 80.5, whole) == 0.0);
  CHECK_THAT(*safe_current_a(ratings, 20.0, 0.5), WithinRel(2.5, 1e-12));
}

TEST_CASE("Below its first point the safe area is held by the current and the power",
          "[answers][analytic]") {
  Ratings ratings = with_area({{10.0, 10.0}, {40.0, 2.5}});
  ratings.max_current_a = 15.0;
  ratings.max_power_w = 100.0;
  CHECK_THAT(*safe_current_a(ratings, 8.0, whole), WithinRel(12.5, 1e-12));
  CHECK_THAT(*safe_current_a(ratings, 1.0, whole), WithinRel(15.0, 1e-12));
  CHECK_THAT(*safe_current_a(ratings, 8.0, 0.4), WithinRel(5.0, 1e-12));
  // The bond wire's limit does not know the heat sink.
  CHECK_THAT(*safe_current_a(ratings, 1.0, 0.4), WithinRel(15.0, 1e-12));
}

TEST_CASE("A type without a safe area is not judged by one", "[answers][analytic]") {
  CHECK_FALSE(safe_current_a(Ratings{}, 10.0, whole).has_value());
  CHECK_FALSE(worst_point(Ratings{}, whole, {30.0, 30.0, 4.0, 0.0}).has_value());
}

// V = Vs - Vp s, I = Ip s, limit P/V: the product V I is largest at s = Vs/(2 Vp), at half the
// supply: Vs^2/(4 R), the peak dissipation of every class-B stage.
TEST_CASE("Into a resistance the peak watts are met at half the supply", "[answers][analytic]") {
  const double supply_v = 40.0;
  const double load_ohm = 8.0;
  const auto worst = worst_point(with_area({{1.0, 100.0}, {100.0, 1.0}}),
                                 whole,
                                 {supply_v, supply_v, supply_v / load_ohm, 0.0});
  REQUIRE(worst.has_value());
  CHECK_THAT(worst->voltage_v, WithinRel(supply_v / 2.0, 2e-3));
  CHECK_THAT(worst->current_a * worst->voltage_v,
             WithinRel(supply_v * supply_v / (4.0 * load_ohm), 1e-5));
  CHECK_THAT(worst->limit_a, WithinRel(100.0 / worst->voltage_v, 1e-9));
}

// Against constant watts at 60 degrees: V I = Vs Ip sin t (1 - sin(t + 60)) is stationary where
// cos t = sin(2t + 60), so at t = 10, 30 and 130 degrees, and largest at 130.
TEST_CASE("At 60 degrees the worst watts come late in the half cycle, at high volts",
          "[answers][analytic]") {
  const LoadLine line{40.0, 40.0, 5.0, std::numbers::pi / 3.0};
  const double degree = std::numbers::pi / 180.0;
  const double most_w = 200.0 * std::sin(130.0 * degree) * (1.0 + std::sin(10.0 * degree));
  const auto worst = worst_point(with_area({{1.0, 100.0}, {100.0, 1.0}}), whole, line);
  REQUIRE(worst.has_value());
  CHECK_THAT(worst->current_a * worst->voltage_v, WithinRel(most_w, 1e-5));
  CHECK(worst->voltage_v > line.supply_v);
  // The other sign of the angle runs the same path the other way.
  const auto mirrored = worst_point(
      with_area({{1.0, 100.0}, {100.0, 1.0}}), whole, {40.0, 40.0, 5.0, -std::numbers::pi / 3.0});
  CHECK_THAT(mirrored->voltage_v, WithinRel(worst->voltage_v, 1e-9));
}

// A rectangle limits the current alone: the worst is the top of the sine, where into a resistance
// the output has reached its rail.
TEST_CASE("Against a rectangle the worst point is the top of the sine", "[answers][analytic]") {
  const Ratings box = with_area({{1e-6, 6.0}, {100.0, 6.0}});
  const auto resistive = worst_point(box, whole, {30.0, 29.0, 4.5, 0.0});
  CHECK_THAT(resistive->current_a / resistive->limit_a, WithinRel(0.75, 1e-9));
  CHECK_THAT(resistive->voltage_v, WithinAbs(1.0, 1e-9));
  const auto reactive = worst_point(box, whole, {30.0, 29.0, 4.5, std::numbers::pi / 3.0});
  CHECK_THAT(reactive->voltage_v, WithinAbs(30.0 - 29.0 * 0.5, 1e-9));
}

// 30 V and 60 degrees: while current flows the volts reach 30 + 30 sin(60) = 56 V at its end.
TEST_CASE("A line that leaves the voltage limit while current flows is beyond the safe area",
          "[answers][analytic]") {
  const LoadLine line{30.0, 30.0, 4.0, std::numbers::pi / 3.0};
  const auto outside = worst_point(with_area({{1.0, 50.0}, {50.0, 50.0}}), whole, line);
  REQUIRE(outside.has_value());
  CHECK(outside->limit_a == 0.0);
  CHECK(outside->voltage_v > 50.0);
  // The first such point carries most: sin(t + 60) = -2/3, t = 161.8 degrees.
  CHECK_THAT(
      outside->current_a,
      WithinAbs(4.0 * std::sin(std::numbers::pi + std::asin(2.0 / 3.0) - line.phase_rad), 0.02));
  const auto inside = worst_point(with_area({{1.0, 50.0}, {60.0, 50.0}}), whole, line);
  CHECK(inside->limit_a > inside->current_a);
}

// Constant watts, at an angle a: V I is largest at t = 150 - a/3 degrees. The limit is set to what
// it is at 40 degrees.
TEST_CASE("A safe area that just holds a load of 40 degrees is said to hold 40 degrees",
          "[answers][analytic]") {
  const double degree = std::numbers::pi / 180.0;
  const double t = (150.0 - 40.0 / 3.0) * degree;
  const double watts = 200.0 * std::sin(t) * (1.0 - std::sin(t + 40.0 * degree));
  const LoadLine line{40.0, 40.0, 5.0, 0.0};
  const auto held =
      widest_safe_phase_rad(with_area({{1.0, watts}, {100.0, watts / 100.0}}), whole, line);
  REQUIRE(held.has_value());
  CHECK_THAT(*held, WithinAbs(40.0 * degree, 0.05 * degree));
  // At 90 degrees V I is largest at t = 120: (sqrt(3)/2)(3/2) of Vs Ip, into a resistance a
  // quarter.
  const auto held_by = [&](double limit_w) {
    return widest_safe_phase_rad(
        with_area({{1.0, limit_w}, {100.0, limit_w / 100.0}}), whole, line);
  };
  CHECK_THAT(*held_by(200.0 * 1.3), WithinAbs(90.0 * degree, 1e-9));
  CHECK_FALSE(held_by(49.0).has_value());
  CHECK(held_by(51.0).has_value());
}

}  // namespace idlepoint::tests
