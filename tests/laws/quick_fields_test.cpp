// Oracle: the tester itself, rebuilt: currents found by halving with the laws in long double
// (law_by_the_book.cpp) must be those the quick fields were given.
#include <catch2/catch.hpp>
#include <cmath>

#include "laws/law_by_the_book.hpp"

namespace idlepoint::laws {

using Catch::Matchers::WithinRel;
using devices::BipolarData;
using devices::DiodeData;
using devices::FetData;

namespace {

template <typename Rising>
long double halved(const Rising& rising, long double low, long double high) {
  for (int i = 0; i < 120; ++i) {
    const long double middle = 0.5L * (low + high);
    (rising(middle) < 0 ? low : high) = middle;
  }
  return 0.5L * (low + high);
}

/// What a tester reads: collector and base joined at `lead_v`, the emitter on ground. The total
/// is sought from outside, for each total the base's share of it.
long double tester_current_a(const BipolarData& data, long double lead_v, long double most_a) {
  const auto at = [&](long double total_a, long double base_a) {
    const long double base_v = lead_v - base_a * data.base_resistance_ohm;
    const long double collector_v = lead_v - (total_a - base_a) * data.collector_resistance_ohm;
    const long double emitter_v = total_a * data.emitter_resistance_ohm;
    return bipolar_by_the_book(data, data.measured_at_k, base_v - emitter_v, base_v - collector_v);
  };
  const auto split = [&](long double total_a) {
    return halved(
        [&](long double base_a) { return base_a - at(total_a, base_a).base_a; }, 0, total_a);
  };
  return halved(
      [&](long double total_a) { return total_a + at(total_a, split(total_a)).emitter_a; },
      0,
      most_a);
}

}  // namespace

TEST_CASE("vbe= at vbe_at= makes a transistor that a tester reads so", "[devices][identity]") {
  const BipolarData bare{.gain = 100.0};
  const BipolarData power{.gain = 60.0,
                          .inverse_gain = 4.0,
                          .early_voltage_v = 70.0,
                          .inverse_early_voltage_v = 15.0,
                          .knee_current_a = 3.0,
                          .recombination_current_a = 1e-10,
                          .base_resistance_ohm = 2.0,
                          .collector_resistance_ohm = 0.3,
                          .emitter_resistance_ohm = 0.05};
  const BipolarData small{.gain = 300.0,
                          .ideality = 1.01,
                          .early_voltage_v = 90.0,
                          .knee_current_a = 0.1,
                          .inverse_knee_current_a = 0.03,
                          .base_resistance_ohm = 80.0,
                          .collector_resistance_ohm = 5.0,
                          .emitter_resistance_ohm = 0.6,
                          .measured_at_k = 300.0};
  const BipolarData germanium{.gain = 50.0,
                              .inverse_gain = 8.0,
                              .knee_current_a = 2.0,
                              .cutoff_current_a = 10e-6,
                              .base_resistance_ohm = 10.0,
                              .band_gap_ev = 0.74};
  struct Reading {
    BipolarData data;
    double vbe_v, current_a;
  };
  for (const Reading& reading : {Reading{bare, 0.58, 0.05},
                                 Reading{bare, 0.65, 2e-3},
                                 Reading{power, 0.58, 0.05},
                                 Reading{power, 1.4, 4.0},
                                 Reading{small, 0.62, 2e-3},
                                 Reading{small, 0.8, 0.05},
                                 Reading{germanium, 0.2, 0.05}}) {
    const auto saturation_a =
        devices::saturation_current_from_vbe(reading.data, reading.vbe_v, reading.current_a);
    CAPTURE(reading.vbe_v, reading.current_a);
    REQUIRE(saturation_a);
    BipolarData made = reading.data;
    made.saturation_current_a = *saturation_a;
    const long double read_a = tester_current_a(made, reading.vbe_v, 10.0L * reading.current_a);
    CHECK_THAT(static_cast<double>(read_a), WithinRel(reading.current_a, 1e-11));
  }
}

TEST_CASE("A bare transistor's saturation current follows in closed form", "[devices][analytic]") {
  // Base and collector joined: I = Is (exp(V/UT) - 1)(1 + 1/B).
  const double u = 1.380649e-23 * 298.15 / 1.602176634e-19;
  const auto saturation_a =
      devices::saturation_current_from_vbe(BipolarData{.gain = 100.0}, 0.58, 0.05);
  REQUIRE(saturation_a);
  CHECK_THAT(*saturation_a, WithinRel(0.05 / 1.01 / std::expm1(0.58 / u), 1e-12));
}

TEST_CASE("A collector resistance that bottoms the transistor still has its reading",
          "[devices][identity]") {
  // 0.05 A through 100 ohms would be 5 V: most of the current must take the base's way.
  const BipolarData data{
      .gain = 100.0, .base_resistance_ohm = 2.0, .collector_resistance_ohm = 100.0};
  const auto saturation_a = devices::saturation_current_from_vbe(data, 0.9, 0.05);
  REQUIRE(saturation_a);
  BipolarData made = data;
  made.saturation_current_a = *saturation_a;
  CHECK_THAT(static_cast<double>(tester_current_a(made, 0.9L, 0.5L)), WithinRel(0.05, 1e-11));
}

TEST_CASE("Readings that no saturation current explains are refused", "[devices][identity]") {
  using devices::saturation_current_from_vbe;
  // The emitter resistance alone drops more.
  CHECK_FALSE(
      saturation_current_from_vbe({.gain = 100.0, .emitter_resistance_ohm = 20.0}, 0.6, 0.05));
  // Recombination alone carries more.
  CHECK_FALSE(
      saturation_current_from_vbe({.gain = 100.0, .recombination_current_a = 1e-5}, 0.6, 0.05));
  CHECK_FALSE(saturation_current_from_vbe({.gain = 100.0}, 0.0, 0.05));
  CHECK_FALSE(saturation_current_from_vbe({.gain = 100.0}, -0.6, 0.05));
  CHECK(devices::saturation_current_from_vf({.series_resistance_ohm = 100.0}, 0.7, 10e-3) <= 0.0);
}

TEST_CASE("vf= at vf_at= makes a diode that drops so", "[devices][identity]") {
  for (const DiodeData& data : {DiodeData{},
                                DiodeData{.ideality = 1.9, .series_resistance_ohm = 3.0},
                                DiodeData{.zener_voltage_v = 2.4,
                                .zener_test_current_a = 5e-3,
                                .zener_ideality = 8.0,
                                .measured_at_k = 300.0}}) {
    const double saturation_a = devices::saturation_current_from_vf(data, 0.70, 10e-3);
    DiodeData made = data;
    made.saturation_current_a = saturation_a;
    const long double junction_v = 0.70L - 10e-3L * data.series_resistance_ohm;
    CAPTURE(data.ideality, saturation_a);
    CHECK_THAT(static_cast<double>(diode_by_the_book(made, data.measured_at_k, junction_v)),
               WithinRel(10e-3, 1e-12));
  }
}

TEST_CASE("vgs= at vgs_at= makes a MOSFET that a tester reads so", "[devices][identity]") {
  const FetData plain{.current_factor_a_per_v2 = 2.0};
  const FetData full{.current_factor_a_per_v2 = 5.0,
                     .slope_factor = 1.3,
                     .drain_slope_per_v = 0.02,
                     .source_resistance_ohm = 0.2,
                     .drain_resistance_ohm = 0.4,
                     .body_diode_a = 1e-9,
                     .measured_at_k = 300.0};
  struct Reading {
    FetData data;
    double vgs_v, current_a;
  };
  for (const Reading& reading : {Reading{plain, 3.6, 0.1},
                                 Reading{plain, 3.0, 1e-6},
                                 Reading{full, 3.6, 0.1},
                                 Reading{full, 1.0, 0.05},
                                 Reading{full, 8.0, 5.0}}) {
    const auto threshold_v =
        devices::threshold_from_vgs(reading.data, reading.vgs_v, reading.current_a);
    CAPTURE(reading.vgs_v, reading.current_a);
    REQUIRE(threshold_v);
    FetData made = reading.data;
    made.threshold_voltage_v = *threshold_v;
    const long double read_a = halved(
        [&](long double drain_a) {
          const long double ugs = reading.vgs_v - drain_a * made.source_resistance_ohm;
          const long double uds = ugs - drain_a * made.drain_resistance_ohm;
          const long double t = made.measured_at_k;
          return drain_a - fet_by_the_book(made, t, ugs, uds) +
                 fet_diode_by_the_book(made, t, -uds);
        },
        0,
        20.0L * reading.current_a);
    CHECK_THAT(static_cast<double>(read_a), WithinRel(reading.current_a, 1e-11));
  }
  // Square law: 3.6 V at 100 mA and 2 A/V2 leave sqrt(0.1) V above the threshold.
  CHECK_THAT(*devices::threshold_from_vgs(plain, 3.6, 0.1), WithinRel(3.6 - std::sqrt(0.1), 2e-4));
  CHECK_FALSE(devices::threshold_from_vgs(full, 1.0, 5.0));
}

}  // namespace idlepoint::laws
