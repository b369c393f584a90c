// Oracle: central differences of the laws in long double (law_by_the_book.cpp).
#include <catch2/catch.hpp>
#include <cmath>

#include "laws/device_table.hpp"
#include "laws/law_by_the_book.hpp"

namespace idlepoint::laws {

namespace {

constexpr long double step_v = 1e-7L;
constexpr long double step_k = 1e-4L;

template <typename Law>
long double central_difference(const Law& law, long double at, long double step) {
  return (law(at + step) - law(at - step)) / (2 * step);
}

/// The difference itself is good to 1e-9 of the slope and to the rounding of the currents.
bool agree(double slope, long double difference, long double current_a, long double step) {
  const long double allowed = 2e-9L * std::abs(difference) + 1e-17L * current_a / step + 1e-30L;
  return std::abs(static_cast<long double>(slope) - difference) <= allowed;
}

}  // namespace

TEST_CASE("A transistor's slopes are its currents' central differences", "[devices][identity]") {
  for (const auto& [name, data] : bipolar_table()) {
    for (const double t : temperatures_k) {
      const devices::BipolarAt at = devices::bipolar_at(data, t);
      for (const double ube : base_emitter_v) {
        for (const double ubc : base_collector_v) {
          const devices::BipolarTangent ours = devices::evaluate_bipolar(at, ube, ubc);
          const BipolarCurrents book = bipolar_by_the_book(data, t, ube, ubc);
          const long double size = std::abs(book.emitter_a) + std::abs(book.base_a);
          const auto check = [&](double slope, long double difference, long double step) {
            CHECK(agree(slope, difference, size, step));
          };
          const auto by = [&, &d = data](auto member, int which) {
            const auto law = [&](long double x) {
              return bipolar_by_the_book(
                         d, which == 2 ? x : t, which == 0 ? x : ube, which == 1 ? x : ubc).*
                     member;
            };
            return which == 2   ? central_difference(law, t, step_k)
                   : which == 1 ? central_difference(law, ubc, step_v)
                                : central_difference(law, ube, step_v);
          };
          CAPTURE(name, t, ube, ubc);
          check(ours.collector_by_ube_s, by(&BipolarCurrents::collector_a, 0), step_v);
          check(ours.collector_by_ubc_s, by(&BipolarCurrents::collector_a, 1), step_v);
          check(ours.base_by_ube_s, by(&BipolarCurrents::base_a, 0), step_v);
          check(ours.base_by_ubc_s, by(&BipolarCurrents::base_a, 1), step_v);
          check(ours.collector_a_per_k, by(&BipolarCurrents::collector_a, 2), step_k);
          check(ours.base_a_per_k, by(&BipolarCurrents::base_a, 2), step_k);
        }
      }
    }
  }
}

TEST_CASE("A diode's slopes are its current's central differences", "[devices][identity]") {
  for (const auto& [name, data] : diode_table()) {
    for (const double t : temperatures_k) {
      const devices::DiodeAt at = devices::diode_at(data, t);
      for (const double v : diode_v) {
        const devices::JunctionTangent ours = devices::evaluate_diode(at, v);
        const auto by_v = [&, &d = data](long double x) { return diode_by_the_book(d, t, x); };
        const auto by_t = [&, &d = data](long double x) { return diode_by_the_book(d, x, v); };
        const long double size = std::abs(by_v(v)) + at.forward.saturation_a;
        CAPTURE(name, t, v, ours.conductance_s, ours.slope_a_per_k);
        CHECK(agree(ours.conductance_s, central_difference(by_v, v, step_v), size, step_v));
        CHECK(agree(ours.slope_a_per_k, central_difference(by_t, t, step_k), size, step_k));
        CHECK(ours.conductance_s >= 0.0);
      }
    }
  }
}

TEST_CASE("A channel's slopes are its current's central differences", "[devices][identity]") {
  for (const auto& [name, data] : fet_table()) {
    for (const double t : temperatures_k) {
      const devices::FetAt at = devices::fet_at(data, t);
      for (const double ugs : gate_source_v) {
        for (const double uds : drain_source_v) {
          const devices::FetTangent ours = devices::evaluate_fet(at, ugs, uds);
          const auto by_ugs = [&, &d = data](long double x) {
            return fet_by_the_book(d, t, x, uds);
          };
          const auto by_uds = [&, &d = data](long double x) {
            return fet_by_the_book(d, t, ugs, x);
          };
          const auto by_t = [&, &d = data](long double x) {
            return fet_by_the_book(d, x, ugs, uds);
          };
          const long double size = ours.forward_a + ours.reverse_a;
          CAPTURE(name, t, ugs, uds);
          CHECK(agree(ours.by_ugs_s, central_difference(by_ugs, ugs, step_v), size, step_v));
          CHECK(agree(ours.by_uds_s, central_difference(by_uds, uds, step_v), size, step_v));
          CHECK(agree(ours.drain_a_per_k, central_difference(by_t, t, step_k), size, step_k));
        }
      }
    }
  }
}

}  // namespace idlepoint::laws
