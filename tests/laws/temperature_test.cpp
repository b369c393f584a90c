// Oracle: [SI2019] for kT/q; [Tsividis1980] for VBE over temperature; [GummelPoon1970] for IS over
// temperature; the tables are those formulas evaluated in double precision.
#include <catch2/catch.hpp>
#include <cmath>

#include "devices/bipolar.hpp"
#include "devices/diode.hpp"
#include "devices/fet.hpp"
#include "laws/room.hpp"

namespace idlepoint::laws {

using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using namespace devices;

namespace {

constexpr double ice_k = 273.15;
constexpr double k_over_q = 1.380649e-23 / 1.602176634e-19;

/// IS that gives `vbe_v` at 1 mA and 25 C, and the slope of VBE by temperature at that current.
double vbe_slope_mv_per_k(double vbe_v, double band_gap_ev) {
  const BipolarData data{.saturation_current_a = 1e-3 * std::exp(-vbe_v / (k_over_q * room_k)),
                         .gain = 100.0,
                         .temperature_power = 3.0,
                         .band_gap_ev = band_gap_ev};
  const BipolarTangent now = evaluate_bipolar(bipolar_at(data, room_k), vbe_v, -5.0);
  return -1e3 * now.collector_a_per_k / now.collector_by_ube_s;
}

}  // namespace

// kT/q in mV, SI 2019.
TEST_CASE("kT/q has its SI values from 0 to 150 C", "[devices][published]") {
  struct Row {
    double celsius;
    double thermal_mv;
  };
  const DiodeData data{.saturation_current_a = 1e-14};
  for (const Row& row : {Row{0.0, 23.538246},
                         Row{20.0, 25.261712},
                         Row{25.0, 25.692579},
                         Row{26.85, 25.852000},
                         Row{27.0, 25.864926},
                         Row{50.0, 27.846912},
                         Row{60.0, 28.708646},
                         Row{75.0, 30.001246},
                         Row{85.0, 30.862979},
                         Row{100.0, 32.155579},
                         Row{125.0, 34.309912},
                         Row{150.0, 36.464246}}) {
    CAPTURE(row.celsius);
    const double t = ice_k + row.celsius;
    CHECK_THAT(diode_at(data, t).forward.scale_v, WithinRel(row.thermal_mv * 1e-3, 5e-8));
    CHECK_THAT(bipolar_at({.saturation_current_a = 1e-14, .gain = 1.0}, t).thermal_v.value,
               WithinRel(row.thermal_mv * 1e-3, 5e-8));
  }
  // A decade of current takes UT ln 10 = 59.1593 mV at 25 C.
  const DiodeAt at = diode_at(data, room_k);
  CHECK_THAT(evaluate_diode(at, 0.6591593).current_a / evaluate_diode(at, 0.6).current_a,
             WithinRel(10.0, 1e-5));
}

// (VBE - VG0 - eta VT)/T, [Tsividis1980] (formula seen second-hand; citation from memory).
TEST_CASE("VBE at a steady current falls by Tsividis' millivolts a kelvin",
          "[devices][published]") {
  struct Row {
    double vbe_v;
    double at_1205, at_1110, at_1120;  // mV/K for the gap in meV
  };
  for (const Row& row : {Row{0.50, -2.623, -2.305, -2.338},
                         Row{0.55, -2.455, -2.137, -2.170},
                         Row{0.60, -2.288, -1.969, -2.003},
                         Row{0.65, -2.120, -1.801, -1.835},
                         Row{0.70, -1.952, -1.634, -1.667},
                         Row{0.75, -1.785, -1.466, -1.500},
                         Row{0.80, -1.617, -1.298, -1.332}}) {
    CAPTURE(row.vbe_v);
    CHECK_THAT(vbe_slope_mv_per_k(row.vbe_v, 1.205), WithinAbs(row.at_1205, 0.0006));
    CHECK_THAT(vbe_slope_mv_per_k(row.vbe_v, 1.110), WithinAbs(row.at_1110, 0.0006));
    CHECK_THAT(vbe_slope_mv_per_k(row.vbe_v, 1.120), WithinAbs(row.at_1120, 0.0006));
    const double closed = 1e3 * (row.vbe_v - 1.206 - 3.0 * k_over_q * room_k) / room_k;
    CHECK_THAT(vbe_slope_mv_per_k(row.vbe_v, 1.206), WithinRel(closed, 1e-7));
  }
}

// VBE(T) = VG0 (1 - T/Tr) + VBE(Tr) T/Tr - eta (kT/q) ln(T/Tr) at constant current.
TEST_CASE("VBE follows its closed form from 0 to 150 C at a steady current",
          "[devices][analytic]") {
  const double vbe_at_room = 0.62;
  const BipolarData data{
      .saturation_current_a = 5e-3 * std::exp(-vbe_at_room / (k_over_q * room_k)), .gain = 100.0};
  for (const double celsius : {0.0, 25.0, 60.0, 100.0, 150.0}) {
    const double t = ice_k + celsius;
    const double share = t / room_k;
    const double vbe =
        1.206 * (1.0 - share) + vbe_at_room * share - 3.0 * k_over_q * t * std::log(share);
    CAPTURE(celsius, vbe);
    const BipolarAt at = bipolar_at(data, t);
    // The closed form has no "-1".
    CHECK_THAT(evaluate_bipolar(at, vbe, 0.0).collector_a + at.saturation_a.value,
               WithinRel(5e-3, 1e-11));
  }
}

// IS(T)/IS(25 C), p = 3, [GummelPoon1970], [Getreu1976].
TEST_CASE("The saturation current rises with temperature as the gap demands",
          "[devices][published]") {
  struct Row {
    double celsius;
    double at_1110, at_1120, at_1205;
  };
  for (const Row& row : {Row{0.0, 0.0147445, 0.0142285, 0.0105113},
                         Row{35.0, 4.48611, 4.54313, 5.05804},
                         Row{50.0, 36.0138, 37.1148, 47.9405},
                         Row{75.0, 788.224, 833.539, 1340.52},
                         Row{100.0, 11575.2, 12517.0, 24338.1},
                         Row{125.0, 122843.0, 135459.0, 310939.0}}) {
    const auto ratio = [&](double gap_ev) {
      return saturation_factor(ice_k + row.celsius, room_k, 3.0, gap_ev, 1.0).value;
    };
    CAPTURE(row.celsius);
    CHECK_THAT(ratio(1.110), WithinRel(row.at_1110, 5e-6));
    CHECK_THAT(ratio(1.120), WithinRel(row.at_1120, 5e-6));
    CHECK_THAT(ratio(1.205), WithinRel(row.at_1205, 5e-6));
  }
  const Scaled now = saturation_factor(room_k, room_k, 3.0, 1.11, 1.0);
  CHECK(now.value == 1.0);
  CHECK_THAT(now.per_k, WithinAbs(0.1550, 0.0002));
}

TEST_CASE("A diode's ideality divides the exponent of its temperature law", "[devices][analytic]") {
  const DiodeData data{.saturation_current_a = 1e-9, .ideality = 2.0, .band_gap_ev = 1.11};
  CHECK_THAT(diode_at(data, ice_k + 100.0).forward.saturation_a,
             WithinRel(1e-9 * std::sqrt(11575.2), 5e-6));
  // A transistor's main current is not divided.
  const BipolarData bipolar{
      .saturation_current_a = 1e-14, .gain = 100.0, .ideality = 2.0, .band_gap_ev = 1.11};
  CHECK_THAT(bipolar_at(bipolar, ice_k + 100.0).saturation_a.value,
             WithinRel(1e-14 * 11575.2, 5e-6));
}

TEST_CASE("Gains follow the power of the absolute temperature, recombination its inverse",
          "[devices][analytic]") {
  const BipolarData data{.saturation_current_a = 1e-14,
                         .gain = 100.0,
                         .inverse_gain = 3.0,
                         .recombination_current_a = 1e-12,
                         .collector_recombination_current_a = 2e-12,
                         .collector_recombination_ideality = 1.5,
                         .band_gap_ev = 1.12};
  const double hot_k = ice_k + 75.0;
  const BipolarAt hot = bipolar_at(data, hot_k);
  const double share = std::pow(hot_k / room_k, 1.5);
  CHECK_THAT(hot.gain.value, WithinRel(100.0 * share, 1e-13));
  CHECK_THAT(hot.inverse_gain.value, WithinRel(3.0 * share, 1e-13));
  CHECK_THAT(hot.recombination_a.value, WithinRel(1e-12 * std::sqrt(833.539) / share, 5e-6));
  CHECK_THAT(hot.collector_recombination_a.value,
             WithinRel(2e-12 * std::pow(833.539, 1.0 / 1.5) / share, 5e-6));
}

// [Franco2002] 5.3: 1 pA at 25 C, doubled every 10 K, is 0.181 nA at 100 C.
TEST_CASE("A cut-off current of 1 pA that doubles every 10 K is 0.181 nA at 100 C",
          "[devices][published]") {
  const BipolarData data{.saturation_current_a = 1e-30, .gain = 100.0, .cutoff_current_a = 1e-12};
  const BipolarAt at = bipolar_at(data, ice_k + 100.0);
  CHECK_THAT(at.cutoff_a.value, WithinAbs(0.181e-9, 0.0005e-9));
  CHECK_THAT(evaluate_bipolar(at, 0.0, -10.0).collector_a, WithinRel(1e-12 * 181.019336, 1e-8));
}

TEST_CASE("Threshold and current factor of a FET follow their temperature laws",
          "[devices][analytic]") {
  const FetData data{.threshold_voltage_v = 3.0,
                     .current_factor_a_per_v2 = 2.0,
                     .threshold_tempco_v_per_k = -6e-3,
                     .current_factor_temperature_power = 2.0};
  const FetAt hot = fet_at(data, 2.0 * room_k);
  CHECK_THAT(hot.threshold_v, WithinRel(3.0 - 6e-3 * room_k, 1e-14));
  CHECK_THAT(hot.factor_a_per_v2, WithinRel(0.5, 1e-14));
  CHECK_THAT(hot.factor_per_k, WithinRel(-2.0 * 0.5 / (2.0 * room_k), 1e-14));
}

TEST_CASE("At the temperature of its data a device has its data", "[devices][identity]") {
  const BipolarData data{.saturation_current_a = 1.23e-14,
                         .gain = 87.0,
                         .recombination_current_a = 3e-13,
                         .cutoff_current_a = 4e-9,
                         .measured_at_k = 301.0};
  const BipolarAt at = bipolar_at(data, 301.0);
  CHECK(at.saturation_a.value == 1.23e-14);
  CHECK(at.gain.value == 87.0);
  CHECK(at.recombination_a.value == 3e-13);
  CHECK(at.cutoff_a.value == 4e-9);
}

}  // namespace idlepoint::laws
