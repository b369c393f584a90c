#include "diagnosis/trial.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "answers/assumed_spreads.hpp"
#include "answers/bench_stage.hpp"
#include "circuit/uncertainty.hpp"
#include "solve/adjust.hpp"
#include "solve/draws.hpp"

namespace idlepoint::tests {
namespace {

using answers::SuspectedFault;
using circuit::CheckedCircuit;
using circuit::Measurement;

/// Somebody who found nothing so far gives up.
constexpr int most_measurements = 20;
constexpr double sure = 0.9;

/// Streams of one trial's draws.
constexpr std::uint64_t which_fault = 1;
constexpr std::uint64_t parts = 2;
constexpr std::uint64_t meter = 3;

double even(std::uint64_t seed, std::uint64_t number, std::uint64_t stream, std::size_t index) {
  return solve::draw(seed * 16 + stream, number, index);
}

/// A fault's text without its size.
std::string without_size(const std::string& text) {
  for (const char* word : {" is ", " leaks ", " gain ", " at "}) {
    if (text.find(word) != std::string::npos) return text.substr(0, text.rfind(' '));
  }
  return text;
}

bool holds(const answers::Suspect& suspect, const std::string& fault) {
  const std::string wanted = without_size(fault);
  return without_size(suspect.fault) == wanted ||
         std::any_of(suspect.equivalent.begin(),
                     suspect.equivalent.end(),
                     [&](const std::string& one) { return without_size(one) == wanted; });
}

std::vector<double> draws_of(const CheckedCircuit& faulty,
                             std::uint64_t seed,
                             std::uint64_t number) {
  std::vector<double> u(circuit::uncertainty(*faulty).draws.size());
  for (std::size_t k = 0; k < u.size(); ++k) u[k] = even(seed, number, parts, k);
  return u;
}

}  // namespace

std::vector<Measurement> own_readings(const circuit::Circuit& circuit) {
  std::vector<Measurement> list;
  for (const circuit::Reading& reading : circuit.readings) {
    if (std::holds_alternative<circuit::CelsiusOf>(reading.probe)) continue;
    list.emplace_back(reading.probe);
  }
  return list;
}

std::optional<circuit::BenchReading> take(const CheckedCircuit& faulty,
                                          const Measurement& measurement,
                                          std::uint64_t seed,
                                          std::uint64_t number) {
  answers::BenchStage bench(faulty, {}, {}, {measurement});
  // With the slopes it is found which meters are felt, where these parts put the points.
  const auto shown = bench.show(draws_of(faulty, seed, number), {}, answers::Slopes::of_all);
  if (!shown) return std::nullopt;
  const std::string name = circuit::write_measurement(*faulty, measurement);
  const double deviation = answers::meter_deviation(faulty->meter, measurement, shown->values[0]);
  const double error =
      std::sqrt(3.0) * even(seed, number, meter, std::hash<std::string>{}(name) % 4096);
  const auto read = answers::read_off(measurement, shown->values[0] + error * deviation);
  circuit::BenchReading reading{name, measurement, read.value};
  if (read.beyond_range) {
    reading.value.reset();
    reading.firmness = circuit::Firmness::beyond_range;
  }
  return reading;
}

namespace {

void count_eighties(TrialResult& result) {
  if (result.top_probability < 0.8 || result.top_probability >= 0.9) return;
  ++result.in_the_eighties.said;
  result.in_the_eighties.right += result.is_first ? 1 : 0;
  result.in_the_eighties.foretold += result.top_probability;
}

/// As somebody left it who set it by its sheet; as it stands where that is not to be had.
CheckedCircuit adjusted(const CheckedCircuit& stage) {
  if (stage->adjustments.empty()) return stage;
  auto outcome =
      solve::solve_adjustments(stage, {}, solve::SafeEnds(stage->adjustments.size(), std::nullopt));
  auto* at_preset = std::get_if<solve::Adjusted>(&outcome);
  return at_preset == nullptr ? stage : std::move(at_preset->circuit);
}

}  // namespace

Trials::Trials(const CheckedCircuit& stage)
    : stage_(answers::with_assumed_spreads(adjusted(stage)).stage),
      faults_(answers::suspects(stage_, {})) {
  for (const SuspectedFault& fault : faults_) total_weight_ += fault.weight;
}

answers::Diagnosing& Trials::diagnosing_of(std::vector<circuit::BenchReading> readings) {
  if (diagnosing_) {
    diagnosing_->start_over(std::move(readings));
    return *diagnosing_;
  }
  auto made = answers::Diagnosing::make({{stage_, {}, {}, {}}, std::move(readings), {}, {}, true});
  diagnosing_.emplace(std::get<answers::Diagnosing>(std::move(made)));
  return *diagnosing_;
}

/// The fault at `share` of all odds, 0 to 1; none for a sound stage.
std::optional<std::size_t> Trials::draw_fault(DrawnBy drawn, double share) const {
  if (drawn == DrawnBy::healthy) return std::nullopt;
  const bool by_odds = drawn == DrawnBy::odds;
  const double of_faults = 1.0 - answers::healthy_odds - answers::none_of_these_odds;
  double left = share;
  if (by_odds) {
    left = share * (answers::healthy_odds + of_faults) - answers::healthy_odds;
    if (left < 0.0) return std::nullopt;
    left /= of_faults;
  }
  std::size_t chosen = 0;
  for (; chosen + 1 < faults_.size(); ++chosen) {
    const double own = by_odds ? faults_[chosen].weight / total_weight_
                               : 1.0 / static_cast<double>(faults_.size());
    if (left < own) break;
    left -= own;
  }
  return chosen;
}

std::optional<TrialResult> Trials::run(DrawnBy drawn, std::uint64_t seed, std::uint64_t number) {
  TrialResult result;
  result.fault = "healthy";
  CheckedCircuit faulty = stage_;
  const double share = 0.5 * (1.0 + even(seed, number, which_fault, 0));
  if (const auto chosen = draw_fault(drawn, share)) {
    const auto edit = answers::edit_at(faults_[*chosen], even(seed, number, which_fault, 1));
    result.fault = circuit::write_fault(*stage_, edit);
    auto applied = circuit::apply(stage_, edit);
    if (!std::holds_alternative<CheckedCircuit>(applied)) return std::nullopt;
    faulty = std::get<CheckedCircuit>(std::move(applied));
  }
  std::vector<circuit::BenchReading> readings;
  for (const Measurement& measurement : own_readings(*stage_)) {
    auto reading = take(faulty, measurement, seed, number);
    if (!reading) return std::nullopt;
    readings.push_back(std::move(*reading));
  }
  answers::Diagnosing& diagnosing = diagnosing_of(std::move(readings));
  for (int taken = 0;; ++taken) {
    const answers::Diagnosis page = diagnosing.answer([](double) { return true; });
    const auto& ranking = page.ranking;
    result.top_probability = ranking.front().probability;
    result.top = ranking.front().fault;
    result.is_first = holds(ranking.front(), result.fault);
    result.is_in_first_three = false;
    for (std::size_t k = 0; k < std::min<std::size_t>(3, ranking.size()); ++k) {
      result.is_in_first_three = result.is_in_first_three || holds(ranking[k], result.fault);
    }
    result.is_grouped_with_healthy =
        ranking.front().kind == answers::Suspect::Kind::healthy && result.is_first;
    count_eighties(result);
    if (result.top_probability > sure) result.measurements = taken;
    if (result.top_probability > sure || taken == most_measurements || page.next.empty()) break;
    const auto reading = take(faulty, page.next.front().measurement, seed, number);
    if (!reading) break;
    result.asked += (result.asked.empty() ? "" : ", ") + reading->name + "=" +
                    (reading->value ? std::to_string(*reading->value) : "open");
    diagnosing.add(*reading);
  }
  return result;
}

}  // namespace idlepoint::tests
