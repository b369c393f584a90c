// Oracle: identities: every width, thread count and order of samples gives the same bits; and the
// scalar solver (itself held against KINSOL elsewhere), sample by sample.
#include <catch2/catch.hpp>
#include <cmath>
#include <cstring>
#include <string>

#include "circuit/checked_circuit.hpp"
#include "language/read_stage.hpp"
#include "solve/adjust.hpp"
#include "solve/batch.hpp"
#include "solve/draws.hpp"

using namespace idlepoint;
using namespace idlepoint::solve;

namespace {

circuit::CheckedCircuit demo(const std::string& name) {
  auto file = language::read_stage_file(IDLEPOINT_SOURCE_DIR "/netlists/" + name + ".stage");
  REQUIRE(file);
  auto checked = circuit::check_circuit(std::move(file).value().circuit);
  REQUIRE(checked);
  return std::move(checked).value();
}

std::vector<circuit::Probe> probes_of(const circuit::Circuit& circuit) {
  std::vector<circuit::Probe> probes;
  for (const circuit::Reading& reading : circuit.readings) probes.push_back(reading.probe);
  return probes;
}

circuit::CheckedCircuit at_preset(const circuit::CheckedCircuit& circuit,
                                  const Conditions& conditions) {
  auto adjusted = solve_adjustments(circuit, conditions, {});
  REQUIRE(std::holds_alternative<Adjusted>(adjusted));
  return std::get<Adjusted>(adjusted).circuit;
}

Batch batch_of(const circuit::CheckedCircuit& circuit,
               const Conditions& conditions,
               Batch::Trimmers trimmers = Batch::Trimmers::fixed) {
  auto made = Batch::make(
      circuit, conditions, circuit::uncertainty(*circuit), probes_of(*circuit), trimmers);
  REQUIRE(std::holds_alternative<Batch>(made));
  return std::get<Batch>(std::move(made));
}

void check_same_bits(const Samples& a, const Samples& b) {
  REQUIRE(a.values.size() == b.values.size());
  CHECK(a.fates == b.fates);
  CHECK(std::memcmp(a.values.data(), b.values.data(), a.values.size() * sizeof(double)) == 0);
}

}  // namespace

TEST_CASE("A sample has the same bits in one, four and eight lanes and on any number of threads",
          "[solve][identity]") {
  for (const HeatState heat : {HeatState::cold, HeatState::warm}) {
    for (const auto trimmers : {Batch::Trimmers::fixed, Batch::Trimmers::follow}) {
      const Conditions conditions{.heat = heat};
      const auto circuit = at_preset(demo("wherry-25w"), conditions);
      const Batch batch = batch_of(circuit, conditions, trimmers);
      REQUIRE(batch.plan());
      const LaneKernel& plain = lane_kernels().front();
      REQUIRE(plain.lanes == 1);
      // Sixteen first: as many workers as the first run asks for are there from then on.
      const Samples sixteen = batch.run({.samples = 1301, .threads = 16});
      const Samples one = batch.run({.samples = 1301, .threads = 1, .kernel = &plain});
      check_same_bits(one, sixteen);
      for (const LaneKernel& kernel : lane_kernels()) {
        if (!kernel.is_supported()) continue;
        CAPTURE(kernel.name, kernel.lanes);
        check_same_bits(one, batch.run({.samples = 1301, .threads = 1, .kernel = &kernel}));
      }
      for (const std::size_t threads : {2U, 5U}) {
        CAPTURE(threads);
        check_same_bits(one, batch.run({.samples = 1301, .threads = threads}));
      }
    }
  }
}

TEST_CASE("A longer run begins with the samples of a shorter one", "[solve][identity]") {
  const auto circuit = demo("sedge-28w");
  const Batch batch = batch_of(circuit, {});
  const Samples all = batch.run({.samples = 700, .seed = 7});
  const Samples few = batch.run({.samples = 90, .seed = 7});
  const Samples late = batch.run({.samples = 90, .seed = 7, .first = 610});
  REQUIRE(all.columns == few.columns);
  for (std::size_t sample = 0; sample < 90; ++sample) {
    for (std::size_t column = 0; column < all.columns; ++column) {
      CHECK(all.at(sample, column) == few.at(sample, column));
      CHECK(all.at(610 + sample, column) == late.at(sample, column));
    }
  }
}

TEST_CASE("A batch that is stopped keeps the samples it has done", "[solve][identity]") {
  const auto circuit = demo("tarn-70w");
  const Batch batch = batch_of(circuit, {});
  const Samples all = batch.run({.samples = 20000});
  const Samples some =
      batch.run({.samples = 20000, .go_on = [](std::size_t done) { return done < 8000; }});
  REQUIRE(some.size() >= 8000);
  REQUIRE(some.size() < 20000);
  CHECK(std::equal(some.values.begin(), some.values.end(), all.values.begin()));
}

TEST_CASE("Lanes agree with the scalar solver, sample by sample", "[solve][identity]") {
  for (const char* name : {"tarn-70w", "quarry-30w", "spinney-45w"}) {
    for (const HeatState heat : {HeatState::cold, HeatState::warm}) {
      CAPTURE(name, heat == HeatState::warm);
      const Conditions conditions{.heat = heat};
      const auto circuit = at_preset(demo(name), conditions);
      const auto uncertainty = circuit::uncertainty(*circuit);
      const Batch batch = batch_of(circuit, conditions);
      constexpr std::size_t count = 6;
      const Samples samples = batch.run({.samples = count});
      for (std::size_t sample = 0; sample < count; ++sample) {
        REQUIRE(samples.fates[sample] == Fate::settled);
        std::vector<double> u;
        for (std::size_t k = 0; k < uncertainty.draws.size(); ++k) u.push_back(draw(1, sample, k));
        const auto variant = circuit::with_parameters(
            circuit, uncertainty.parameters, circuit::values_at(*circuit, uncertainty, u));
        StateFinder finder(*variant, conditions);
        const RestOrStory found = finder.find();
        REQUIRE(std::holds_alternative<Rest>(found));
        for (std::size_t k = 0; k < circuit->readings.size(); ++k) {
          const double alone = finder.read(circuit->readings[k].probe, std::get<Rest>(found));
          CHECK_THAT(
              samples.at(sample, k),
              Catch::Matchers::WithinRel(alone, 1e-8) || Catch::Matchers::WithinAbs(alone, 1e-10));
        }
      }
    }
  }
}

TEST_CASE("A trimmer that follows its target brings the reading there, or stays at an end",
          "[solve][identity]") {
  for (const HeatState heat : {HeatState::cold, HeatState::warm}) {
    const Conditions conditions{.heat = heat};
    const auto circuit = at_preset(demo("wherry-25w"), conditions);
    const Batch batch = batch_of(circuit, conditions, Batch::Trimmers::follow);
    const Samples samples = batch.run({.samples = 200});
    std::size_t reached = 0;
    std::size_t at_an_end = 0;
    for (std::size_t sample = 0; sample < samples.size(); ++sample) {
      if (samples.fates[sample] == Fate::settled) ++reached;
      bool is_at_an_end = false;
      for (std::size_t k = 0; k < circuit->adjustments.size(); ++k) {
        const double travel = samples.at(sample, circuit->readings.size() + k);
        CHECK(travel >= 0.0);
        CHECK(travel <= 1.0);
        is_at_an_end = is_at_an_end || travel == 0.0 || travel == 1.0;
        if (samples.fates[sample] != Fate::settled) continue;
        const auto& adjustment = circuit->adjustments[k];
        CHECK_THAT(samples.at(sample, adjustment.reading.index),
                   Catch::Matchers::WithinAbs(adjustment.target, 1e-8));
      }
      if (samples.fates[sample] == Fate::out_of_reach) {
        ++at_an_end;
        CHECK(is_at_an_end);
      }
    }
    CHECK(reached + at_an_end == samples.size());
    CHECK(reached > 100);
    CHECK(at_an_end > 0);  // Its joint trimmer has little room.
  }
}
