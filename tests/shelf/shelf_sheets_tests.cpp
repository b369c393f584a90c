// Oracle: the windows that the makers' data sheets print (sheet_table.cpp), at their own
// conditions. The parts are solved by the solver, whatever made their data.
#include <catch2/catch.hpp>

#include "shelf/one_transistor.hpp"
#include "shelf/sheet_table.hpp"
#include "shelf/shelf_types.hpp"

namespace idlepoint::shelf {
namespace {

constexpr double rounding = 1e-3;  // Of a figure that stands on the window's very edge.

void check_within(double value, double low, double high) {
  if (low > 0.0) CHECK(value >= low * (1.0 - rounding));
  if (high > 0.0) CHECK(value <= high * (1.0 + rounding));
}

// Calls `check(type, window)` for every type that a window holds for.
template <class Windows, class Check>
void for_each_window(const Windows& windows, Check check) {
  for (const auto& window : windows) {
    for (const auto& type : types_matching(window.names)) {
      CAPTURE(type.name);
      check(type, window);
    }
  }
}

}  // namespace

TEST_CASE("The gain of every type on the shelf lies within its sheet's window",
          "[shelf][published]") {
  for_each_window(gain_windows(), [](const circuit::PartType& type, const Window& window) {
    CAPTURE(window.collector_a, window.second);
    const double gain = conducting(type, window.collector_a, window.second).gain;
    check_within(gain, window.low, window.high);
  });
}

TEST_CASE("The base-emitter volts of every type on the shelf lie within its sheet's window",
          "[shelf][published]") {
  for_each_window(vbe_windows(), [](const circuit::PartType& type, const Window& window) {
    CAPTURE(window.collector_a, window.second);
    const double vbe_v = conducting(type, window.collector_a, window.second).vbe_v;
    check_within(vbe_v, window.low, window.high);
  });
}

TEST_CASE("A type of the shelf is bottomed within what its sheet allows", "[shelf][published]") {
  for_each_window(vce_sat_windows(), [](const circuit::PartType& type, const Window& window) {
    CAPTURE(window.collector_a, window.second);
    check_within(bottomed(type, window.collector_a, window.second).vce_v, window.low, window.high);
  });
  for_each_window(vbe_sat_windows(), [](const circuit::PartType& type, const Window& window) {
    CAPTURE(window.collector_a, window.second);
    check_within(bottomed(type, window.collector_a, window.second).vbe_v, window.low, window.high);
  });
}

TEST_CASE("A diode of the shelf drops what its sheet allows", "[shelf][published]") {
  for_each_window(forward_windows(),
                  [](const circuit::PartType& type, const ForwardWindow& window) {
                    CAPTURE(window.current_a);
                    check_within(forward_v(type, window.current_a), window.low_v, window.high_v);
                  });
}

TEST_CASE("At the test current of a 2N3055 a MJ15003 has the gain that is asked of it",
          "[shelf][published]") {
  CHECK(conducting(type_named("MJ15003"), 4.0, 4.0).gain >= 20.0);
}

// exp(0.12 V / (kT/q)) at 25 C: the window of 0.58 to 0.70 V at 2 mA, read at one voltage.
TEST_CASE("The currents of two BC546 at one base voltage may be a hundred times apart",
          "[shelf][analytic]") {
  const circuit::Spread& ends = type_named("BC546").spreads.at("saturation_current");
  CHECK(ends.max.value() / ends.min.value() == Approx(106.8).epsilon(0.02));
}

// Common practice, no source: what a silicon part drops at rest, whatever its sheet's limit at
// amperes says.
TEST_CASE("At rest a part of the shelf drops what silicon drops", "[shelf]") {
  for (const circuit::PartType& type : all_types()) {
    CAPTURE(type.name);
    if (type.kind == circuit::PartKind::diode) {
      const double v = forward_v(type, 1e-3);
      CHECK((v > 0.50 && v < 0.66));
      continue;
    }
    const double largest_a = limits_of(type.name).current_a;
    const double v = conducting(type, largest_a / 100.0, 5.0).vbe_v;
    CHECK((v > 0.52 && v < 0.72));
  }
}

}  // namespace idlepoint::shelf
