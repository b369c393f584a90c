#include "answers/check_state.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>
#include <variant>

#include "answers/reading_values.hpp"
#include "solve/adjust.hpp"
#include "solve/solve_stage.hpp"
#include "values/format.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Circuit;
using complaints::Complaint;
using complaints::Complaints;
using solve::Conduction;

bool is_healthy_transistor(const Circuit& circuit, const circuit::Part& part) {
  const auto& damage = part.damage;
  const bool wired = std::all_of(part.leads.begin(), part.leads.end(), [&](const auto& lead) {
    return lead && !circuit.at(*lead).lifted;
  });
  return circuit::is_transistor(part.kind) && wired && !damage.absent && damage.shorts.empty() &&
         damage.leaks.empty() && !damage.gain;
}

Complaint complain(std::string_view kind,
                   std::string headline,
                   const complaints::Place& place,
                   std::string why,
                   std::string instead) {
  return {complaints::kind(kind), std::move(headline), {place}, std::move(why), std::move(instead)};
}

Complaint comes_out_reversed(const circuit::Part& part) {
  const bool bipolar = circuit::is_bipolar(part.kind);
  return complain("reversed-transistor",
                  fmt::format("{} comes out working backwards", part.name),
                  part.place,
                  bipolar ? "Its current flows from emitter to collector, as no stage is meant to."
                          : "Its current flows from source to drain, as no stage is meant to.",
                  bipolar ? "Compare its collector and emitter, and whether it is NPN or PNP, with "
                            "the drawing."
                          : "Compare its drain and source, and its polarity, with the drawing.");
}

Complaint carries_nothing(const circuit::Part& part) {
  return complain("idle-transistor",
                  fmt::format("{} carries no current", part.name),
                  part.place,
                  "Right for a protection transistor, or with a bias trimmer at its cold end; "
                  "otherwise a leg or a value near it differs from the drawing.",
                  "Compare its three legs with the drawing, and where the trimmers stand (`at=`).");
}

Complaint has_more_states(const Circuit& circuit) {
  complaints::Place place;
  place.file = circuit.file;
  return complain("more-than-one-state",
                  "this stage has more than one DC state",
                  place,
                  "Which one the real stage takes depends on how it was switched on.",
                  "Compare the base that the feedback reaches with the drawing: feedback copied to "
                  "the wrong one does this.");
}

// The lowest and the highest reading found at the ends and half way. None where a state is missing.
std::optional<std::pair<double, double>> range_of(const Setup& setup,
                                                  const circuit::Adjustment& adjustment) {
  std::optional<std::pair<double, double>> range;
  for (const double travel : std::array{0.0, 0.5, 1.0}) {
    const auto moved = setup.stage.edited([&](Circuit& circuit) {
      std::get<circuit::TrimmerDetails>(circuit.at(adjustment.trimmer).details).travel = travel;
    });
    const auto outcome = solve::solve_cold(moved, setup.conditions);
    const auto* state = std::get_if<solve::OperatingPoint>(&outcome);
    if (state == nullptr) return std::nullopt;
    const double value = state->read(*moved, moved->at(adjustment.reading).probe);
    range = range ? std::pair{std::min(range->first, value), std::max(range->second, value)}
                  : std::pair{value, value};
  }
  return range;
}

Complaint cannot_move(const Circuit& circuit, const circuit::Adjustment& adjustment) {
  return complain("trimmer-without-effect",
                  fmt::format("{} does not move `{}`",
                              circuit.at(adjustment.trimmer).name,
                              circuit.at(adjustment.reading).name),
                  adjustment.place,
                  "From one end to the other the reading stays within what the `adjust` allows.",
                  "Compare the trimmer's legs and the reading's points with the drawing.");
}

// An SI value (kelvin for temperatures) to three figures.
std::string in_words(double si_value, ReadingUnit unit) {
  switch (unit) {
    case ReadingUnit::volt:
      return values::format_value(si_value, values::Unit::volt);
    case ReadingUnit::ampere:
      return values::format_value(si_value, values::Unit::ampere);
    case ReadingUnit::watt:
      return values::format_value(si_value, values::Unit::watt);
    case ReadingUnit::celsius:
      return values::format_value(si_value, values::Unit::temperature);
  }
  return {};
}

Complaint out_of_reach(const Circuit& circuit,
                       const circuit::Adjustment& adjustment,
                       const solve::Setting& setting) {
  const auto& reading = circuit.at(setting.reading);
  const ReadingUnit unit = unit_of(reading.probe);
  return complain("adjust-out-of-reach",
                  fmt::format("{} cannot bring `{}` to {}",
                              circuit.at(setting.trimmer).name,
                              reading.name,
                              in_words(adjustment.target, unit)),
                  adjustment.place,
                  fmt::format("The nearest it comes, with the track at {:.0f} %, is {}.",
                              setting.travel * 100.0,
                              in_words(setting.reading_value, unit)),
                  "Look for a slip in the trimmer's value, in the target, or in the parts around "
                  "the trimmer.");
}

}  // namespace

Complaints complaints_of_state(const Circuit& circuit, const solve::OperatingPoint& state) {
  Complaints found;
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    const auto& part = circuit.parts[index];
    if (!is_healthy_transistor(circuit, part)) continue;
    const auto conduction = state.part(circuit::PartId{index}).conduction;
    if (conduction == Conduction::reversed) found.push_back(comes_out_reversed(part));
    if (conduction == Conduction::off) found.push_back(carries_nothing(part));
  }
  if (state.has_other_states()) found.push_back(has_more_states(circuit));
  return found;
}

Complaints complaints_of_trimmers(const Setup& setup) {
  Complaints found;
  const auto& circuit = *setup.stage;
  std::vector<bool> moves;
  for (const auto& adjustment : circuit.adjustments) {
    const auto range = range_of(setup, adjustment);
    moves.push_back(!range || range->second - range->first >= adjustment.within);
    if (!moves.back()) found.push_back(cannot_move(circuit, adjustment));
  }
  const bool all_move =
      std::all_of(moves.begin(), moves.end(), [](bool moves_it) { return moves_it; });
  if (circuit.adjustments.empty() || !all_move) return found;
  const auto solved = solve::solve_adjustments(
      setup.stage, setup.conditions, solve::SafeEnds(circuit.adjustments.size(), std::nullopt));
  if (const auto* adjusted = std::get_if<solve::Adjusted>(&solved)) {
    for (std::size_t index = 0; index < adjusted->settings.size(); ++index) {
      const auto& setting = adjusted->settings[index];
      if (!setting.reached) {
        found.push_back(out_of_reach(circuit, circuit.adjustments[index], setting));
      }
    }
  }
  return found;
}

}  // namespace idlepoint::answers
