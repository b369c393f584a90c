#include "diagnosis/diagnosed.hpp"

#include <algorithm>

#include "answers/assumed_spreads.hpp"
#include "diagnosis/trial.hpp"
#include "language/bench_reading_text.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::tests {

using answers::Diagnosis;
using answers::Suspect;

std::vector<circuit::BenchReading> taken(const circuit::CheckedCircuit& stage,
                                         const std::vector<std::string>& readings) {
  std::vector<circuit::BenchReading> list;
  for (const std::string& text : readings) {
    list.push_back(required(language::read_bench_reading(text, *stage)));
  }
  return list;
}

Diagnosis diagnosed(answers::DiagnoseAsked asked) {
  auto made = answers::Diagnosing::make(std::move(asked));
  REQUIRE(std::holds_alternative<answers::Diagnosing>(made));
  return std::get<answers::Diagnosing>(made).answer([](double) { return true; });
}

Diagnosis diagnosed(const answers::Setup& sound, const std::vector<std::string>& readings) {
  return diagnosed({sound, taken(sound.stage, readings), {}, {}});
}

const Suspect& suspect_of(const Diagnosis& diagnosis, const std::string& fault) {
  const auto begins = [&](const std::string& text) { return text.rfind(fault, 0) == 0; };
  const auto found =
      std::find_if(diagnosis.ranking.begin(), diagnosis.ranking.end(), [&](const Suspect& one) {
        return begins(one.fault) ||
               std::any_of(one.equivalent.begin(), one.equivalent.end(), begins);
      });
  if (found == diagnosis.ranking.end()) {
    std::string told;
    for (const Suspect& one : diagnosis.ranking) told += one.fault + "; ";
    FAIL(fault << " is not among: " << told);
  }
  return *found;
}

std::vector<circuit::BenchReading> readings_with(const answers::Setup& sound,
                                                 const std::string& fault) {
  const auto faulty = fault.empty() ? sound : with_fault(sound, fault);
  const auto outcome = solve::solve_cold(faulty.stage, faulty.conditions);
  REQUIRE(std::holds_alternative<solve::OperatingPoint>(outcome));
  const auto& state = std::get<solve::OperatingPoint>(outcome);
  std::vector<circuit::BenchReading> list;
  for (const circuit::Reading& reading : sound.stage->readings) {
    if (std::holds_alternative<circuit::CelsiusOf>(reading.probe)) continue;
    list.push_back({reading.name, reading.probe, state.read(*faulty.stage, reading.probe)});
  }
  return list;
}

std::vector<circuit::BenchReading> drawn_readings(const answers::Setup& sound,
                                                  const std::string& fault,
                                                  std::uint64_t copy) {
  constexpr std::uint64_t seed = 31;
  const auto stage = answers::with_assumed_spreads(with_fault(sound, fault).stage).stage;
  std::vector<circuit::BenchReading> list;
  for (const auto& one : own_readings(*stage)) {
    const auto reading = take(stage, one, seed, copy);
    REQUIRE(reading);
    list.push_back(*reading);
  }
  return list;
}

}  // namespace idlepoint::tests
