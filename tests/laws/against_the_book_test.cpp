// Oracle: the equations of docs/models.md typed anew in long double (law_by_the_book.cpp).
#include <catch2/catch.hpp>
#include <cmath>

#include "laws/device_table.hpp"
#include "laws/law_by_the_book.hpp"

namespace idlepoint::laws {

namespace {

/// Equal to `relative` of themselves or to a double's rounding of the largest current at work.
bool agree(double ours, long double book, long double largest) {
  const long double allowed = 2e-13L * std::abs(book) + 3e-14L * largest;
  return std::abs(static_cast<long double>(ours) - book) <= allowed;
}

}  // namespace

TEST_CASE("A transistor's currents are those of the charge control law", "[devices][identity]") {
  for (const auto& [name, data] : bipolar_table()) {
    for (const double t : temperatures_k) {
      const devices::BipolarAt at = devices::bipolar_at(data, t);
      for (const double ube : base_emitter_v) {
        for (const double ubc : base_collector_v) {
          const devices::BipolarTangent ours = devices::evaluate_bipolar(at, ube, ubc);
          const BipolarCurrents book = bipolar_by_the_book(data, t, ube, ubc);
          const long double largest = std::abs(book.emitter_a) + std::abs(book.base_a);
          CAPTURE(name, t, ube, ubc, ours.collector_a, ours.base_a);
          CHECK(ours.in_range);
          CHECK(agree(ours.collector_a, book.collector_a, largest));
          CHECK(agree(ours.base_a, book.base_a, largest));
        }
      }
    }
  }
}

TEST_CASE("A diode's current is that of its law with breakdown", "[devices][identity]") {
  for (const auto& [name, data] : diode_table()) {
    for (const double t : temperatures_k) {
      const devices::DiodeAt at = devices::diode_at(data, t);
      for (const double v : diode_v) {
        const double ours = devices::evaluate_diode(at, v).current_a;
        const long double book = diode_by_the_book(data, t, v);
        CAPTURE(name, t, v, ours);
        CHECK(agree(ours, book, 0.0L));
      }
    }
  }
}

TEST_CASE("A channel's current is that of the smooth drain law", "[devices][identity]") {
  for (const auto& [name, data] : fet_table()) {
    for (const double t : temperatures_k) {
      const devices::FetAt at = devices::fet_at(data, t);
      for (const double ugs : gate_source_v) {
        for (const double uds : drain_source_v) {
          const devices::FetTangent ours = devices::evaluate_fet(at, ugs, uds);
          const long double book = fet_by_the_book(data, t, ugs, uds);
          CAPTURE(name, t, ugs, uds, ours.drain_a);
          CHECK(agree(ours.drain_a, book, std::abs(ours.forward_a) + std::abs(ours.reverse_a)));
        }
      }
    }
  }
}

TEST_CASE("Gate junctions and body diodes are plain junctions", "[devices][identity]") {
  for (const auto& [name, data] : fet_table()) {
    for (const double t : temperatures_k) {
      const devices::FetAt at = devices::fet_at(data, t);
      CAPTURE(name, t);
      CHECK(at.has_diode == (data.is_junction || data.body_diode_a > 0.0));
      for (const double v : {-10.0, -0.02, 0.0, 0.3, 0.7}) {
        const double ours = devices::evaluate_junction(at.diode, v).current_a;
        CHECK(agree(ours, fet_diode_by_the_book(data, t, v), 0.0L));
      }
    }
  }
}

}  // namespace idlepoint::laws
