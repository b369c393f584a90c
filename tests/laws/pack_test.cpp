// Oracle: identity: a lane of a pack carries the bits of the same law in plain doubles.
#include <catch2/catch.hpp>
#include <cstring>

#include "devices/bipolar_law.hpp"
#include "devices/fet_law.hpp"

#ifdef __SSE2__
#include "devices/pack.hpp"

using namespace idlepoint::devices;

namespace {

using Batch = xsimd::batch<double, xsimd::sse2>;
using Four = Pack<Batch, 2>;

bool same_bits(double a, double b) { return std::memcmp(&a, &b, sizeof a) == 0; }

template <class Real>
BasicBipolarData<Real> transistor() {
  BasicBipolarData<Real> data;
  data.saturation_current_a = Real(14e-15);
  data.gain = Real(290.0);
  data.early_voltage_v = Real(90.0);
  data.knee_current_a = Real(0.08);
  data.recombination_current_a = Real(2e-13);
  data.cutoff_current_a = Real(1e-9);
  data.emitter_base_breakdown_voltage_v = Real(7.0);
  return data;
}

/// Lanes in unlike regions: what one lane skips the others need.
constexpr double ube_v[] = {0.62, -9.0, -2.0, 0.0};
constexpr double ubc_v[] = {-20.0, 0.55, -1000.0, 3.5};
constexpr double temperature_k[] = {298.15, 340.0, 400.0, 250.0};

}  // namespace

TEST_CASE("Each lane of a pack carries the bits of plain doubles through a transistor's law",
          "[devices][identity]") {
  const auto wide =
      law::evaluate_bipolar(law::bipolar_at(transistor<Four>(), Four::load(temperature_k)),
                            Four::load(ube_v),
                            Four::load(ubc_v));
  double collector[4];
  double base[4];
  double slope[4];
  double by_k[4];
  wide.collector_a.store(collector);
  wide.base_a.store(base);
  wide.base_by_ube_s.store(slope);
  wide.collector_a_per_k.store(by_k);
  for (std::size_t lane = 0; lane < 4; ++lane) {
    CAPTURE(lane);
    const BipolarTangent plain = evaluate_bipolar(
        bipolar_at(transistor<double>(), temperature_k[lane]), ube_v[lane], ubc_v[lane]);
    CHECK(same_bits(collector[lane], plain.collector_a));
    CHECK(same_bits(base[lane], plain.base_a));
    CHECK(same_bits(slope[lane], plain.base_by_ube_s));
    CHECK(same_bits(by_k[lane], plain.collector_a_per_k));
  }
}

TEST_CASE("Each lane of a pack carries the bits of plain doubles through a FET's law",
          "[devices][identity]") {
  BasicFetData<Four> data;
  data.threshold_voltage_v = Four(2.1);
  data.current_factor_a_per_v2 = Four(1.7);
  FetData plain_data;
  plain_data.threshold_voltage_v = 2.1;
  plain_data.current_factor_a_per_v2 = 1.7;
  const double gate_v[] = {2.5, -4.0, 2.1, 60.0};
  const double drain_v[] = {20.0, 0.3, -0.2, 0.0};
  const auto wide = law::evaluate_fet(
      law::fet_at(data, Four::load(temperature_k)), Four::load(gate_v), Four::load(drain_v));
  double drain[4];
  wide.drain_a.store(drain);
  for (std::size_t lane = 0; lane < 4; ++lane) {
    CAPTURE(lane);
    const FetTangent plain =
        evaluate_fet(fet_at(plain_data, temperature_k[lane]), gate_v[lane], drain_v[lane]);
    CHECK(same_bits(drain[lane], plain.drain_a));
  }
}
#endif
