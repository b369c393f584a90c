// Oracle: conservation of charge and the second law: what has no supply inside gives no power.
#include <catch2/catch.hpp>
#include <cmath>

#include "devices/passive.hpp"
#include "laws/device_table.hpp"
#include "laws/law_by_the_book.hpp"

namespace idlepoint::laws {

TEST_CASE("What enters a transistor at base and collector leaves at its emitter",
          "[devices][identity]") {
  for (const auto& [name, data] : bipolar_table()) {
    for (const double t : temperatures_k) {
      const devices::BipolarAt at = devices::bipolar_at(data, t);
      for (const double ube : base_emitter_v) {
        for (const double ubc : base_collector_v) {
          const devices::BipolarTangent ours = devices::evaluate_bipolar(at, ube, ubc);
          // The emitter's current from its own terms: transport and base-emitter current.
          const long double emitter = bipolar_by_the_book(data, t, ube, ubc).emitter_a;
          const double size = std::abs(ours.collector_a) + std::abs(ours.base_a);
          CAPTURE(name, t, ube, ubc);
          CHECK(std::abs(ours.collector_a + ours.base_a + static_cast<double>(emitter)) <=
                2e-13 * size);
        }
      }
    }
  }
}

TEST_CASE("No transistor gives out power", "[devices][identity]") {
  for (auto [name, data] : bipolar_table()) {
    // Unequal idealities of the two junctions are a fit, not physics, and may break this.
    data.inverse_ideality = data.ideality;
    for (const double t : temperatures_k) {
      const devices::BipolarAt at = devices::bipolar_at(data, t);
      for (const double ube : base_emitter_v) {
        for (const double ubc : base_collector_v) {
          const devices::BipolarTangent ours = devices::evaluate_bipolar(at, ube, ubc);
          const double power_w = ours.collector_a * (ube - ubc) + ours.base_a * ube;
          CAPTURE(name, t, ube, ubc, power_w);
          CHECK(power_w >= -1e-13 * std::abs(ours.base_a * ube));
        }
      }
    }
  }
}

TEST_CASE("No diode, channel or lamp gives out power", "[devices][identity]") {
  for (const double t : temperatures_k) {
    for (const auto& [name, data] : diode_table()) {
      const devices::DiodeAt at = devices::diode_at(data, t);
      for (const double v : diode_v) {
        CAPTURE(name, t, v);
        CHECK(devices::evaluate_diode(at, v).current_a * v >= 0.0);
      }
    }
    for (const auto& [name, data] : fet_table()) {
      const devices::FetAt at = devices::fet_at(data, t);
      for (const double ugs : gate_source_v) {
        for (const double uds : drain_source_v) {
          CAPTURE(name, t, ugs, uds);
          CHECK(devices::evaluate_fet(at, ugs, uds).drain_a * uds >= 0.0);
        }
      }
    }
  }
  for (const double v : {-230.0, -1.0, -1e-6, 1e-6, 1.0, 230.0}) {
    CHECK(devices::evaluate_lamp(230.0, 60.0, v).current_a * v > 0.0);
  }
}

TEST_CASE("Zero volts drive exactly no current", "[devices][identity]") {
  for (const double t : temperatures_k) {
    for (const auto& [name, data] : bipolar_table()) {
      const devices::BipolarTangent rest =
          devices::evaluate_bipolar(devices::bipolar_at(data, t), 0.0, 0.0);
      CAPTURE(name, t);
      CHECK(rest.collector_a == 0.0);
      CHECK(rest.base_a == 0.0);
      CHECK(rest.collector_a_per_k == 0.0);
      CHECK(rest.base_a_per_k == 0.0);
    }
    for (const auto& [name, data] : diode_table()) {
      CAPTURE(name, t);
      CHECK(devices::evaluate_diode(devices::diode_at(data, t), 0.0).current_a == 0.0);
    }
    for (const auto& [name, data] : fet_table()) {
      const devices::FetAt at = devices::fet_at(data, t);
      for (const double ugs : gate_source_v) {
        CAPTURE(name, t, ugs);
        CHECK(devices::evaluate_fet(at, ugs, 0.0).drain_a == 0.0);
      }
      CHECK(devices::evaluate_junction(at.diode, 0.0).current_a == 0.0);
    }
  }
  CHECK(devices::evaluate_lamp(230.0, 60.0, 0.0).current_a == 0.0);
}

}  // namespace idlepoint::laws
