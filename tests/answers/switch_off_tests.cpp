// Oracle: the rule of docs/commands.md, "powerup", worked by hand on readings of round figures.
#include "answers/asked.hpp"
#include "answers/switch_off.hpp"

namespace idlepoint::tests {
namespace {

using answers::find_switch_off;
using answers::ReadingUnit;
using answers::ReadingValue;

ReadingValue sound_reading(double value, double low, double high) {
  ReadingValue reading;
  reading.name = "idle";
  reading.unit = ReadingUnit::volt;
  reading.value = value;
  reading.band = answers::Band{low, high};
  reading.metered_band = reading.band;
  return reading;
}

const circuit::Meter bench_meter{.error = 0.005, .floor_v = 0.2e-3, .input_ohm = 10e6};

}  // namespace

TEST_CASE("A limit lies outside the sound band and short of the fault it is for",
          "[answers][analytic]") {
  const auto limits = find_switch_off(
      bench_meter, {sound_reading(10e-3, 5e-3, 15e-3)}, {{0, 60e-3}, {1, 100e-3}, {2, -20e-3}});
  REQUIRE(limits.above.has_value());
  CHECK_THAT(limits.above->limit, WithinRel(20e-3, 1e-9));  // one half width outside 15 mV
  CHECK_THAT(limits.above->nearest, WithinRel(60e-3, 1e-9));
  CHECK(limits.above->faults == std::vector<std::size_t>{0, 1});
  REQUIRE(limits.below.has_value());
  CHECK(limits.below->limit < 5e-3);
  CHECK(limits.below->limit > -20e-3);
  CHECK(limits.below->faults == std::vector<std::size_t>{2});
}

TEST_CASE("A fault that leaves little room has the limit three quarters of the way to it",
          "[answers][analytic]") {
  const auto limits =
      find_switch_off(bench_meter, {sound_reading(0.0, -10e-3, 10e-3)}, {{0, 18e-3}});
  REQUIRE(limits.above.has_value());
  CHECK_THAT(limits.above->limit, WithinRel(16e-3, 1e-9));
  CHECK_FALSE(limits.below.has_value());
}

TEST_CASE("A fault inside the band of sound stages, or hard by it, sets no limit",
          "[answers][analytic]") {
  const auto limits = find_switch_off(
      bench_meter, {sound_reading(10e-3, 5e-3, 15e-3)}, {{0, 12e-3}, {1, 17e-3}, {2, 10e-3}});
  CHECK_FALSE(limits.above.has_value());
  CHECK_FALSE(limits.below.has_value());
}

TEST_CASE("A limit that must not trip in two settings lies outside both bands",
          "[answers][analytic]") {
  const auto at_end = sound_reading(0.0, 0.0, 0.2e-3);
  const auto at_preset = sound_reading(8e-3, 2e-3, 30e-3);
  const auto alone = find_switch_off(bench_meter, {at_end}, {{0, 0.5}});
  const auto both = find_switch_off(bench_meter, {at_end, at_preset}, {{0, 0.5}});
  CHECK_THAT(alone.above->limit, WithinRel(1e-3, 1e-9));  // a millivolt is as fine as it gets
  CHECK_THAT(both.above->limit, WithinRel(52e-3, 1e-9));
}

TEST_CASE("Amps without a meter's band are widened by the meter's error", "[answers][analytic]") {
  auto reading = sound_reading(1.0, 0.9, 1.1);
  reading.unit = ReadingUnit::ampere;
  reading.metered_band.reset();
  const auto limits = find_switch_off(bench_meter, {reading}, {{0, 3.0}});
  CHECK_THAT(limits.above->sound, WithinRel(1.105, 1e-9));
}

}  // namespace idlepoint::tests
