#include "answers/standing_adjustment.hpp"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "answers/answering.hpp"
#include "answers/emitter_resistors.hpp"
#include "answers/warm_edge.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Circuit;
using circuit::PartId;
using circuit::Probe;

struct Candidate {
  std::string name;
  Probe probe;
  std::optional<circuit::ReadingId> reading;  ///< None: not in the file.
};

bool is_across_emitter_resistor(const Circuit& circuit, const Probe& probe) {
  const auto* points = std::get_if<circuit::VoltsBetween>(&probe);
  if (points == nullptr) return false;
  const auto found = resistors_read(circuit, *points);
  return found && found->is_emitter_resistor;
}

/// Followed from microamperes up; volts of a bias string and temperatures hardly move with it.
bool tells_current(const Circuit& circuit, const Probe& probe) {
  return std::holds_alternative<circuit::AmpsThrough>(probe) ||
         std::holds_alternative<circuit::WattsIn>(probe) ||
         is_across_emitter_resistor(circuit, probe);
}

/// The `adjust` of the file, as an index.
std::optional<std::size_t> adjustment_of_file(const Circuit& circuit) {
  const auto readings = standing_current_readings(circuit);
  for (std::size_t index = 0; index < circuit.adjustments.size(); ++index) {
    const auto& reading = circuit.adjustments[index].reading;
    if (std::find(readings.begin(), readings.end(), reading) != readings.end() &&
        tells_current(circuit, circuit.at(reading).probe)) {
      return index;
    }
  }
  return std::nullopt;
}

std::vector<Candidate> readings_of_file(const Circuit& circuit, bool in_volts) {
  std::vector<Candidate> found;
  for (std::size_t index = 0; index < circuit.readings.size(); ++index) {
    const auto& reading = circuit.readings[index];
    const bool fits = in_volts ? is_across_emitter_resistor(circuit, reading.probe)
                               : std::holds_alternative<circuit::AmpsThrough>(reading.probe);
    if (fits) found.push_back({reading.name, reading.probe, circuit::ReadingId{index}});
  }
  return found;
}

std::string free_name(const Circuit& circuit, std::string name) {
  while (circuit::find_reading(circuit, name)) name += "_idle";
  return name;
}

/// The emitter resistors of the drawing, from the emitter (of an n kind) outwards.
std::vector<Candidate> made_of_resistors(const Circuit& circuit) {
  std::vector<Candidate> found;
  for (const auto& part : circuit.parts) {
    if (part.kind != circuit::PartKind::resistor || part.damage.absent) continue;
    const auto a = circuit::lead(part, 0);
    const auto b = circuit::lead(part, 1);
    if (!a || !b) continue;
    for (const auto& [from, to] : {std::pair(*a, *b), std::pair(*b, *a)}) {
      const auto is_there = [&](const circuit::Part& other) {
        return circuit::is_transistor(other.kind) && !circuit::is_p_kind(other.kind) &&
               circuit::lead(other, circuit::emitter_or_source) == from;
      };
      const Probe probe = circuit::VoltsBetween{from, to};
      if (std::any_of(circuit.parts.begin(), circuit.parts.end(), is_there) &&
          is_across_emitter_resistor(circuit, probe)) {
        found.push_back({free_name(circuit, part.name), probe, std::nullopt});
      }
    }
  }
  return found;
}

std::vector<Candidate> made_of_rails(const Circuit& circuit) {
  if (circuit.rails.empty()) return {};
  const std::string name = circuit.at(circuit.rails.front().node).name + "_amps";
  return {{free_name(circuit, name), circuit::AmpsThrough{circuit::RailId{0}}, std::nullopt}};
}

struct Choice {
  PartId trimmer;
  Candidate candidate;
  double moves = 0.0;
};

/// What each candidate does as one trimmer turns; ends without a state do not count.
std::vector<double> moves_of(const circuit::CheckedCircuit& stage,
                             const solve::Conditions& conditions,
                             PartId trimmer,
                             const std::vector<Candidate>& candidates) {
  std::vector<double> lowest(candidates.size(), HUGE_VAL);
  std::vector<double> highest(candidates.size(), -HUGE_VAL);
  for (const double travel : {0.0, 0.25, 0.5, 0.75, 1.0}) {
    const auto turned = stage.edited([&](Circuit& circuit) {
      std::get<circuit::TrimmerDetails>(circuit.at(trimmer).details).travel = travel;
    });
    const auto outcome = solve::solve_cold(turned, conditions);
    const auto* state = std::get_if<solve::OperatingPoint>(&outcome);
    if (state == nullptr) continue;
    for (std::size_t k = 0; k < candidates.size(); ++k) {
      const double value = state->read(*turned, candidates[k].probe);
      lowest[k] = std::min(lowest[k], value);
      highest[k] = std::max(highest[k], value);
    }
  }
  std::vector<double> moves;
  for (std::size_t k = 0; k < candidates.size(); ++k) {
    moves.push_back(highest[k] > lowest[k] ? highest[k] - lowest[k] : 0.0);
  }
  return moves;
}

/// By one that sets the output's own volts: it is no bias trimmer.
bool is_for_offset(const Circuit& circuit, PartId trimmer) {
  const auto readings = standing_current_readings(circuit);
  return std::any_of(
      circuit.adjustments.begin(), circuit.adjustments.end(), [&](const auto& adjustment) {
        return adjustment.trimmer == trimmer &&
               std::find(readings.begin(), readings.end(), adjustment.reading) == readings.end();
      });
}

/// Less than this end to end is no standing current: 1 mV, 1 mA.
constexpr double least_moved = 1e-3;

std::optional<Choice> choose(const circuit::CheckedCircuit& stage,
                             const solve::Conditions& conditions,
                             const std::vector<Candidate>& candidates) {
  std::optional<Choice> best;
  if (candidates.empty()) return best;
  for (const PartId trimmer : trimmers_that_turn(*stage)) {
    if (is_for_offset(*stage, trimmer)) continue;
    const auto moves = moves_of(stage, conditions, trimmer, candidates);
    for (std::size_t k = 0; k < candidates.size(); ++k) {
      if (moves[k] < least_moved || (best && moves[k] <= best->moves)) continue;
      best = Choice{trimmer, candidates[k], moves[k]};
    }
  }
  return best;
}

StandingAdjustment with_adjustment(const circuit::CheckedCircuit& stage, const Choice& choice) {
  const auto& before = stage->adjustments;
  const auto own = std::find_if(before.begin(), before.end(), [&](const auto& adjustment) {
    return adjustment.trimmer == choice.trimmer;
  });
  StandingAdjustment found{stage, static_cast<std::size_t>(own - before.begin()), false};
  found.stage = stage.edited([&](Circuit& circuit) {
    auto reading = choice.candidate.reading;
    if (!reading) {
      circuit::Reading made;
      made.name = choice.candidate.name;
      made.probe = choice.candidate.probe;
      circuit.readings.push_back(std::move(made));
      reading = circuit::ReadingId{circuit.readings.size() - 1};
    }
    circuit::Adjustment adjustment;
    adjustment.trimmer = choice.trimmer;
    adjustment.reading = *reading;
    circuit.adjustments.resize(std::max(circuit.adjustments.size(), found.adjustment + 1));
    circuit.adjustments[found.adjustment] = adjustment;
  });
  return found;
}

}  // namespace

std::variant<StandingAdjustment, std::string> find_standing_adjustment(
    const circuit::CheckedCircuit& stage, const solve::Conditions& conditions) {
  if (const auto own = adjustment_of_file(*stage)) return StandingAdjustment{stage, *own, true};
  for (const auto& candidates : {readings_of_file(*stage, true),
                                 made_of_resistors(*stage),
                                 readings_of_file(*stage, false),
                                 made_of_rails(*stage)}) {
    if (const auto choice = choose(stage, conditions, candidates)) {
      return with_adjustment(stage, *choice);
    }
  }
  return "No trimmer of this drawing moves the standing current, so there is nothing to set.";
}

}  // namespace idlepoint::answers
