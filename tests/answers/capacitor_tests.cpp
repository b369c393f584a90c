// Oracle: the limits that [IEC60384]'s data-sheet form gives, worked out by hand; the same stage
// solved with the leakage put in; a divider in closed form.
#include <algorithm>
#include <cmath>

#include "answers/asked.hpp"
#include "answers/capacitor_leaks.hpp"
#include "answers/capacitor_limits.hpp"

namespace idlepoint::tests {
namespace {

using answers::CapacitorFigures;
using answers::CapacitorLeaks;

// A value as a table prints it: right to half of its last figure.
bool is_printed(double value, double printed, double last_figure) {
  return std::abs(value - printed) <= 0.5 * last_figure;
}

CapacitorLeaks leaks_of(const answers::Setup& setup) {
  return settled<CapacitorLeaks>(answers::ask_leaks(setup));
}

const answers::LeakyCapacitor& capacitor_named(const CapacitorLeaks& leaks, const char* name) {
  const auto found =
      std::find_if(leaks.capacitors.begin(), leaks.capacitors.end(), [&](const auto& one) {
        return leaks.stage->at(one.part).name == name;
      });
  REQUIRE(found != leaks.capacitors.end());
  return *found;
}

}  // namespace

TEST_CASE("The ESR a new electrolytic may have follows from its loss at 120 Hz",
          "[answers][published]") {
  struct Row {
    double value_f, rated_v, esr_ohm, last_figure;
  };
  for (const Row& row : {Row{10000e-6, 63, 35.81e-3, 0.01e-3},
                         Row{4700e-6, 50, 49.10e-3, 0.01e-3},
                         Row{2200e-6, 63, 68.73e-3, 0.01e-3},
                         Row{1000e-6, 35, 159.15e-3, 0.01e-3},
                         Row{470e-6, 25, 395.07e-3, 0.01e-3},
                         Row{100e-6, 50, 1.3263, 0.0001},
                         Row{47e-6, 63, 2.5397, 0.0001}}) {
    CAPTURE(row.value_f, row.rated_v);
    CHECK(
        is_printed(answers::esr_limit_ohm(row.value_f, row.rated_v), row.esr_ohm, row.last_figure));
  }
}

TEST_CASE("The leakage a new electrolytic may have grows with capacitance and volts",
          "[answers][published]") {
  struct Row {
    double value_f, rated_v, leakage_a;
  };
  for (const Row& row : {Row{10000e-6, 63, 6300e-6},
                         Row{4700e-6, 50, 2350e-6},
                         Row{2200e-6, 63, 1386e-6},
                         Row{1000e-6, 35, 350e-6},
                         Row{470e-6, 25, 117.5e-6},
                         Row{100e-6, 50, 50e-6},
                         Row{1e-6, 50, 3e-6},           // never under 3 uA
                         Row{4.7e-6, 160, 37.56e-6},    // 0.03 CV + 15
                         Row{47e-6, 160, 175.4e-6}}) {  // 0.02 CV + 25
    CAPTURE(row.value_f, row.rated_v);
    CHECK(answers::leakage_limit_a(row.value_f, row.rated_v) ==
          Approx(row.leakage_a).epsilon(1e-12));
  }
  CHECK(is_printed(answers::leakage_limit_a(47e-6, 63), 29.6e-6, 0.1e-6));
}

TEST_CASE("A voltage between two rows of the table has the loss of the lower",
          "[answers][published]") {
  struct Row {
    double rated_v, tan_delta;
  };
  for (const Row& row : {Row{6.3, 0.23},
                         Row{10, 0.20},
                         Row{16, 0.16},
                         Row{25, 0.14},
                         Row{35, 0.12},
                         Row{50, 0.10},
                         Row{63, 0.09},
                         Row{100, 0.08},
                         Row{160, 0.12},
                         Row{200, 0.14},
                         Row{250, 0.17},
                         Row{350, 0.20},
                         Row{400, 0.25},
                         Row{450, 0.25},
                         Row{40, 0.12},
                         Row{80, 0.09},
                         Row{4, 0.23},
                         Row{500, 0.25}}) {
    CAPTURE(row.rated_v);
    CHECK(answers::tan_delta_limit(100e-6, row.rated_v) == row.tan_delta);
  }
  CHECK(answers::tan_delta_limit(1000e-6, 50) == Approx(0.10).epsilon(1e-12));
  CHECK(answers::tan_delta_limit(3000e-6, 50) == Approx(0.14).epsilon(1e-12));
}

TEST_CASE("A capacitor is kept just inside every limit and replaced just outside",
          "[answers][published]") {
  CapacitorFigures good;
  good.value_f = 100e-6;
  good.rated_v = 50.0;
  good.capacitance_f = 80.1e-6;
  good.esr_ohm = 1.326;
  good.frequency_hz = 120.0;
  good.leakage_a = 49.9e-6;
  good.leakage_at_v = 50.0;
  CHECK(answers::judge(good).keep);
  CapacitorFigures small = good;
  small.capacitance_f = 79.9e-6;
  CHECK_FALSE(answers::judge(small).keep);
  CapacitorFigures large = good;
  large.capacitance_f = 120.1e-6;
  CHECK_FALSE(answers::judge(large).keep);
  CapacitorFigures dry = good;
  dry.esr_ohm = 1.327;
  CHECK_FALSE(answers::judge(dry).keep);
  CHECK_FALSE(answers::judge(dry).limits[1].life_ended);
  dry.esr_ohm = 2.66;  // Twice the limit ends a life.
  CHECK(answers::judge(dry).limits[1].life_ended);
  CapacitorFigures leaky = good;
  leaky.leakage_a = 50.1e-6;
  CHECK_FALSE(answers::judge(leaky).keep);
}

TEST_CASE("A low ESR at a high frequency decides nothing, a high one does", "[answers][analytic]") {
  CapacitorFigures figures;
  figures.value_f = 100e-6;
  figures.rated_v = 50.0;
  figures.esr_ohm = 0.4;
  for (const double frequency_hz : {100.0, 120.0}) {
    figures.frequency_hz = frequency_hz;
    CHECK(answers::judge(figures).limits[0].worth == answers::Worth::decides);
  }
  for (const double frequency_hz : {1e3, 1e5}) {
    figures.frequency_hz = frequency_hz;
    CHECK(answers::judge(figures).keep);
    CHECK(answers::judge(figures).limits[0].worth == answers::Worth::high_frequency);
  }
  figures.esr_ohm = 1.5;
  CHECK_FALSE(answers::judge(figures).keep);
}

// The leak draws I from the joint of a divider: it falls by I times the two resistors in parallel.
TEST_CASE("Leakage at a divider's joint moves it by the resistors in parallel",
          "[answers][analytic]") {
  const auto leaks =
      leaks_of(drawn("stage \"Divider\"\nrail vcc 20V resistance=0R\n"
                     "resistor R1 vcc mid 30k\nresistor R2 mid gnd 10k\n"
                     "capacitor C1 mid gnd 10u\ncapacitor C2 vcc mid 10u\n"
                     "capacitor C3 mid free 1u\n"
                     "reading joint volts mid gnd\n"));
  const double parallel_ohm = 7500.0;
  const auto& down = capacitor_named(leaks, "C1");
  CHECK(down.volts == Approx(5.0).epsilon(1e-7));
  CHECK(down.effects[0].per_a == Approx(-parallel_ohm).epsilon(1e-6));
  const auto& up = capacitor_named(leaks, "C2");
  CHECK(up.effects[0].per_a == Approx(parallel_ohm).epsilon(1e-6));
  // A twentieth of 5 V.
  CHECK(answers::leakage_that_matters_a(up).value() == Approx(0.25 / parallel_ohm).epsilon(1e-6));
}

TEST_CASE("A capacitor without volts across it cannot leak", "[answers][analytic]") {
  const auto leaks =
      leaks_of(drawn("stage \"Divider\"\nrail vcc 20V\nresistor R1 vcc mid 10k\n"
                     "resistor R2 mid gnd 10k\nresistor R3 vcc twin 10k\n"
                     "resistor R4 twin gnd 10k\ncapacitor C1 mid twin 10u\n"
                     "reading joint volts mid gnd\n"));
  const auto& capacitor = capacitor_named(leaks, "C1");
  CHECK_FALSE(capacitor.can_leak);
  CHECK(capacitor.effects.empty());
  CHECK_FALSE(answers::leakage_that_matters_a(capacitor));
}

TEST_CASE("What a leak does to a reading's slope is what the stage shows with the leak in it",
          "[answers][identity]") {
  const solve::Conditions cold{.heat = solve::HeatState::cold};
  const auto setup = demo("quarry-30w.stage", cold);
  const auto leaks = leaks_of(setup);
  const auto& capacitor = capacitor_named(leaks, "C604");
  const double leak_ohm = 1e8;
  const double leakage_a = capacitor.volts / leak_ohm;
  const auto leaky =
      settled<answers::Readings>(answers::ask_readings(with_fault(setup, "C604 leaks 100M")));
  for (const auto& effect : capacitor.effects) {
    const auto& reading = leaks.readings[effect.reading];
    if (reading.unit != answers::ReadingUnit::volt) continue;
    CAPTURE(reading.name);
    const double moved = leaky.readings[effect.reading].value - reading.value;
    CHECK(moved == Approx(effect.per_a * leakage_a).epsilon(0.01).margin(1e-9));
  }
}

}  // namespace idlepoint::tests
