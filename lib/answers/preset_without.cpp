#include "answers/preset_without.hpp"

#include <cmath>
#include <optional>
#include <utility>

#include "answers/readings.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::answers {
namespace {

using circuit::CheckedCircuit;
using circuit::Circuit;
using PresetOrStory = std::variant<Preset, solve::NotSettled, ThermalStory>;

void set_travel(Circuit& circuit, circuit::PartId trimmer, double travel) {
  std::get<circuit::TrimmerDetails>(circuit.at(trimmer).details).travel = travel;
}

/// The stage as asked, the trimmers of the whole in their places, the others still to be set.
Setup with_the_rest_to_set(const Setup& setup,
                           const Preset& whole,
                           const std::vector<bool>& of_whole) {
  Setup rest = setup;
  rest.stage = setup.stage.edited([&](Circuit& circuit) {
    std::vector<circuit::Adjustment> left;
    for (std::size_t index = 0; index < of_whole.size(); ++index) {
      if (of_whole[index]) {
        const auto& answer = whole.adjustments[index];
        set_travel(circuit, answer.trimmer, answer.travel);
      } else {
        left.push_back(circuit.adjustments[index]);
      }
    }
    circuit.adjustments = std::move(left);
  });
  return rest;
}

/// Nothing is left to set: the stage as it reads.
PresetOrStory as_it_reads(const Setup& rest) {
  auto outcome = ask_readings(rest);
  if (auto* story = std::get_if<solve::NotSettled>(&outcome)) return std::move(*story);
  if (auto* story = std::get_if<ThermalStory>(&outcome)) return std::move(*story);
  auto& found = std::get<Readings>(outcome);
  Preset preset{found.stage};
  preset.state = std::move(found.state);
  preset.readings = std::move(found.readings);
  preset.cold = std::move(found.cold);
  preset.thermal = std::move(found.thermal);
  preset.changes = std::move(found.changes);
  preset.warnings = std::move(found.warnings);
  return preset;
}

std::optional<double> volts_between(const CheckedCircuit& stage,
                                    const solve::Conditions& conditions,
                                    const circuit::VoltsBetween& points) {
  const auto outcome = solve::solve_cold(stage, conditions);
  const auto* state = std::get_if<solve::OperatingPoint>(&outcome);
  if (state == nullptr) return std::nullopt;
  return state->read(*stage, points);
}

/// `stage`: parts out, every trimmer in its place.
std::optional<BiasMeanwhile> look_meanwhile(const CheckedCircuit& stage,
                                            const solve::Conditions& conditions,
                                            const TrimmerAnswer& answer) {
  const auto points = find_bias_points(stage, conditions, answer.trimmer);
  if (!points) return std::nullopt;
  const auto whole_v = volts_between(with_all_parts(stage), conditions, points->points);
  if (!whole_v) return std::nullopt;
  BiasMeanwhile bias{*points, *whole_v};
  CheckedCircuit without = stage;
  bias.v = volts_between(without, conditions, points->points);
  const auto off_v = [&](const std::optional<double>& v) {
    return v ? std::abs(*v - *whole_v) : HUGE_VAL;
  };
  const auto loose = find_loose_output(stage, conditions);
  if (loose && loose->link) {
    const auto linked = with_link(stage, *loose);
    const auto linked_v = volts_between(linked, conditions, points->points);
    bias.is_linked = off_v(linked_v) < off_v(bias.v);
    if (bias.is_linked) {
      bias.v = linked_v;
      without = linked;
    }
  }
  if (const auto end = answer.states.safe_end) {
    const auto safe = without.edited([&](Circuit& circuit) {
      set_travel(circuit, answer.trimmer, *end == circuit::TrackEnd::a ? 0.0 : 1.0);
    });
    bias.safe_v = volts_between(safe, conditions, points->points);
  }
  return bias;
}

}  // namespace

PresetOrStory ask_preset_without(const Setup& setup, const std::vector<bool>& of_whole) {
  Setup whole_setup = setup;
  whole_setup.stage = with_all_parts(setup.stage);
  auto outcome = ask_preset(whole_setup);
  auto* whole = std::get_if<Preset>(&outcome);
  if (whole == nullptr || whole->refused) return outcome;

  const Setup rest = with_the_rest_to_set(setup, *whole, of_whole);
  auto rest_outcome = rest.stage->adjustments.empty() ? as_it_reads(rest) : ask_preset(rest);
  auto* preset = std::get_if<Preset>(&rest_outcome);
  if (preset == nullptr || preset->refused) return rest_outcome;

  std::size_t next = 0;
  std::vector<TrimmerAnswer> adjustments;
  for (std::size_t index = 0; index < of_whole.size(); ++index) {
    if (!of_whole[index]) {
      adjustments.push_back(std::move(preset->adjustments[next++]));
      continue;
    }
    adjustments.push_back(std::move(whole->adjustments[index]));
    adjustments.back().is_of_whole = true;
    adjustments.back().meanwhile =
        look_meanwhile(preset->stage, setup.conditions, adjustments.back());
  }
  preset->adjustments = std::move(adjustments);
  preset->order = std::move(whole->order);
  preset->goes_round_twice = whole->goes_round_twice;
  preset->stage = preset->stage.edited(
      [&](Circuit& circuit) { circuit.adjustments = setup.stage->adjustments; });
  return rest_outcome;
}

}  // namespace idlepoint::answers
