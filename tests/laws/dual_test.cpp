// Oracle: central differences of the plain law, and the law's own hand-written slopes by voltage
// and temperature.
#include "devices/dual.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "devices/bipolar_law.hpp"
#include "devices/diode_law.hpp"
#include "devices/fet_law.hpp"

using namespace idlepoint::devices;
using Catch::Matchers::WithinRel;

namespace {

// A transistor with every term of the law alive, for any number type.
template <class Real>
BasicBipolarData<Real> full_transistor() {
  BasicBipolarData<Real> data;
  data.saturation_current_a = Real(14e-15);
  data.gain = Real(290.0);
  data.inverse_gain = Real(5.0);
  data.early_voltage_v = Real(90.0);
  data.inverse_early_voltage_v = Real(25.0);
  data.knee_current_a = Real(0.08);
  data.recombination_current_a = Real(2e-13);
  data.collector_recombination_current_a = Real(1e-12);
  data.cutoff_current_a = Real(1e-9);
  data.emitter_base_breakdown_voltage_v = Real(7.0);
  return data;
}

BipolarTangent at_point(const BipolarData& data) {
  return evaluate_bipolar(bipolar_at(data, 330.0), 0.63, -11.0);
}

}  // namespace

TEST_CASE("A dual number carries the slope of a collector current by any field of its type",
          "[devices][identity]") {
  struct Field {
    const char* name;
    Dual BasicBipolarData<Dual>::*dual;
    double BipolarData::*plain;
  };
  const auto fields = std::to_array<Field>({
      {"saturation",
       &BasicBipolarData<Dual>::saturation_current_a,
       &BipolarData::saturation_current_a},
      {"gain", &BasicBipolarData<Dual>::gain, &BipolarData::gain},
      {"ideality", &BasicBipolarData<Dual>::ideality, &BipolarData::ideality},
      {"recombination",
       &BasicBipolarData<Dual>::recombination_current_a,
       &BipolarData::recombination_current_a},
      {"gain power",
       &BasicBipolarData<Dual>::gain_temperature_power,
       &BipolarData::gain_temperature_power},
      {"band gap", &BasicBipolarData<Dual>::band_gap_ev, &BipolarData::band_gap_ev},
  });
  for (const Field& field : fields) {
    CAPTURE(field.name);
    BasicBipolarData<Dual> dual = full_transistor<Dual>();
    (dual.*field.dual).slope = 1.0;
    const auto law =
        law::evaluate_bipolar(law::bipolar_at(dual, Dual(330.0)), Dual(0.63), Dual(-11.0));
    const BipolarData plain = full_transistor<double>();
    const double step = 1e-5 * plain.*field.plain;
    BipolarData up = plain;
    BipolarData down = plain;
    up.*field.plain += step;
    down.*field.plain -= step;
    const double collector = (at_point(up).collector_a - at_point(down).collector_a) / (2.0 * step);
    const double base = (at_point(up).base_a - at_point(down).base_a) / (2.0 * step);
    CHECK(law.collector_a.value == at_point(plain).collector_a);
    CHECK_THAT(law.collector_a.slope,
               WithinRel(collector, 1e-6) || Catch::Matchers::WithinAbs(collector, 1e-13));
    CHECK_THAT(law.base_a.slope, WithinRel(base, 1e-6));
  }
}

TEST_CASE("Dual voltages and temperatures reproduce every hand-written slope",
          "[devices][identity]") {
  const auto data = full_transistor<Dual>();
  const BipolarTangent plain = at_point(full_transistor<double>());
  const auto by_ube =
      law::evaluate_bipolar(law::bipolar_at(data, Dual(330.0)), Dual(0.63, 1.0), Dual(-11.0));
  CHECK_THAT(by_ube.collector_a.slope, WithinRel(plain.collector_by_ube_s, 1e-12));
  CHECK_THAT(by_ube.base_a.slope, WithinRel(plain.base_by_ube_s, 1e-12));
  const auto by_t =
      law::evaluate_bipolar(law::bipolar_at(data, Dual(330.0, 1.0)), Dual(0.63), Dual(-11.0));
  CHECK_THAT(by_t.collector_a.slope, WithinRel(plain.collector_a_per_k, 1e-10));
  CHECK_THAT(by_t.base_a.slope, WithinRel(plain.base_a_per_k, 1e-10));

  BasicFetData<Dual> fet;
  fet.threshold_voltage_v = Dual(2.1);
  fet.current_factor_a_per_v2 = Dual(1.7);
  fet.drain_slope_per_v = Dual(0.01);
  FetData plain_fet;
  plain_fet.threshold_voltage_v = 2.1;
  plain_fet.current_factor_a_per_v2 = 1.7;
  plain_fet.drain_slope_per_v = 0.01;
  const FetTangent f = evaluate_fet(fet_at(plain_fet, 340.0), 2.6, 0.4);
  const auto gate = law::evaluate_fet(law::fet_at(fet, Dual(340.0)), Dual(2.6, 1.0), Dual(0.4));
  const auto warm = law::evaluate_fet(law::fet_at(fet, Dual(340.0, 1.0)), Dual(2.6), Dual(0.4));
  CHECK_THAT(gate.drain_a.slope, WithinRel(f.by_ugs_s, 1e-12));
  CHECK_THAT(warm.drain_a.slope, WithinRel(f.drain_a_per_k, 1e-10));

  BasicDiodeData<Dual> zener;
  zener.saturation_current_a = Dual(1e-14);
  zener.zener_voltage_v = Dual(5.6);
  zener.zener_test_current_a = Dual(5e-3);
  zener.zener_tempco_per_k = Dual(3e-4);
  DiodeData plain_zener;
  plain_zener.saturation_current_a = 1e-14;
  plain_zener.zener_voltage_v = 5.6;
  plain_zener.zener_test_current_a = 5e-3;
  plain_zener.zener_tempco_per_k = 3e-4;
  const JunctionTangent z = evaluate_diode(diode_at(plain_zener, 310.0), -5.61);
  const auto z_warm = law::evaluate_diode(law::diode_at(zener, Dual(310.0, 1.0)), Dual(-5.61));
  CHECK_THAT(z_warm.current_a.slope, WithinRel(z.slope_a_per_k, 1e-9));
}
