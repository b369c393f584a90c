#include "answers/hazards.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

#include "answers/hazard_look.hpp"
#include "circuit/uncertainty.hpp"
#include "solve/batch.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::answers {
namespace {

using circuit::CheckedCircuit;
using circuit::Circuit;
using circuit::Edit;
using circuit::PartId;

class Sweep {
 public:
  Sweep(const CheckedCircuit& stage, const solve::OperatingPoint& sound)
      : stage_(stage), sound_(sound) {}

  [[nodiscard]] FaultyState look_at(const CheckedCircuit& faulty) const {
    return look_at_fault(faulty, stage_, sound_);
  }

  /// Ends of trimmers at which the fault is harmless.
  [[nodiscard]] std::vector<SaferPlace> safer_places(const CheckedCircuit& faulty) const {
    std::vector<SaferPlace> places;
    for (std::size_t index = 0; index < faulty->parts.size(); ++index) {
      const auto& part = faulty->parts[index];
      const bool turns =
          part.kind == circuit::PartKind::trimmer && !part.damage.absent && !part.damage.wiper_open;
      if (!turns) continue;
      for (const auto end : {circuit::TrackEnd::a, circuit::TrackEnd::b}) {
        const auto turned = faulty.edited([&](Circuit& circuit) {
          std::get<circuit::TrimmerDetails>(circuit.parts[index].details).travel =
              end == circuit::TrackEnd::a ? 0.0 : 1.0;
        });
        if (!look_at(turned).effect) places.push_back({PartId{index}, end});
      }
    }
    return places;
  }

 private:
  const CheckedCircuit& stage_;
  const solve::OperatingPoint& sound_;
};

/// Output and power of stages whose parts are within their tolerances.
void add_bands(Hazard& hazard, const CheckedCircuit& faulty, const solve::Conditions& conditions) {
  std::vector<circuit::Probe> probes;
  for (std::size_t rail = 0; rail < faulty->rails.size(); ++rail) {
    probes.emplace_back(circuit::WattsIn{circuit::RailId{rail}});
  }
  const auto output = circuit::output_node(*faulty);
  if (output) probes.emplace_back(circuit::VoltsBetween{*output, circuit::ground});
  const std::size_t rails = faulty->rails.size();
  const auto made =
      solve::Batch::make(faulty, conditions, circuit::uncertainty(*faulty), std::move(probes));
  const auto* batch = std::get_if<solve::Batch>(&made);
  if (batch == nullptr) return;
  solve::BatchOptions options;
  options.samples = band_of_a_hazard;
  options.seed = band_seed;
  const auto samples = batch->run(options);
  std::vector<double> watts;
  std::vector<double> volts;
  for (std::size_t sample = 0; sample < samples.size(); ++sample) {
    if (samples.fates[sample] != solve::Fate::settled) continue;
    double total_w = 0.0;
    for (std::size_t rail = 0; rail < rails; ++rail) total_w += samples.at(sample, rail);
    watts.push_back(total_w);
    if (output) volts.push_back(samples.at(sample, rails));
  }
  if (watts.empty()) return;
  hazard.power_band = middle_95(std::move(watts));
  if (output) hazard.output_band = middle_95(std::move(volts));
}

std::optional<Hazard> try_fault(const Sweep& sweep, const Setup& setup, const Edit& edit) {
  const auto applied = circuit::apply(setup.stage, edit);
  const auto* faulty = std::get_if<CheckedCircuit>(&applied);
  if (faulty == nullptr) return std::nullopt;
  FaultyState looked = sweep.look_at(*faulty);
  if (!looked.effect) return std::nullopt;
  Hazard hazard{edit, circuit::write_fault(*setup.stage, edit), *looked.effect};
  hazard.parts_at_risk = std::move(looked.parts_at_risk);
  hazard.finds_state = looked.state.has_value();
  hazard.safer = sweep.safer_places(*faulty);
  if (!looked.state) return hazard;
  hazard.total_power_w = looked.state->total_power_w();
  if (const auto output = circuit::output_node(**faulty)) {
    hazard.output_v = looked.state->voltage_v(*output);
  }
  add_bands(hazard, *faulty, looked.state->conditions());
  return hazard;
}

}  // namespace

std::string_view word(HazardEffect effect) noexcept {
  switch (effect) {
    case HazardEffect::hard_on:
      return "hard on";
    case HazardEffect::output_at_rail:
      return "output at rail";
    case HazardEffect::over_stressed:
      break;
  }
  return "part over-stressed";
}

std::vector<Edit> faults_to_try(const Circuit& circuit) {
  std::vector<Edit> edits = circuit::every_open_and_short(circuit);
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    const auto& part = circuit.parts[index];
    const bool drifts = part.kind == circuit::PartKind::resistor ||
                        part.kind == circuit::PartKind::trimmer ||
                        part.kind == circuit::PartKind::thermistor;
    if (!drifts || part.damage.absent || part.damage.is_link || part.value == 0.0) continue;
    edits.emplace_back(circuit::SetValue{PartId{index}, 2.0 * part.value});
    edits.emplace_back(circuit::SetValue{PartId{index}, 0.5 * part.value});
  }
  return edits;
}

std::variant<Hazards, solve::NotSettled> ask_hazards(
    const Setup& setup, const std::function<bool(double share_done)>& go_on) {
  solve::Conditions cold = setup.conditions;
  cold.heat = solve::HeatState::cold;
  auto outcome = solve::solve_cold(setup.stage, cold);
  if (auto* story = std::get_if<solve::NotSettled>(&outcome)) return std::move(*story);
  Hazards answer{setup.stage, std::get<solve::OperatingPoint>(std::move(outcome))};
  answer.changes = setup.changes;
  answer.warnings = standing_warnings(setup);
  const Sweep sweep(answer.stage, answer.sound);
  const auto edits = faults_to_try(*setup.stage);
  for (const auto& edit : edits) {
    if (!go_on(static_cast<double>(answer.tried) / static_cast<double>(edits.size()))) break;
    ++answer.tried;
    if (auto hazard = try_fault(sweep, setup, edit)) {
      answer.critical.push_back(std::move(*hazard));
    } else {
      ++answer.harmless;
    }
  }
  const auto rank = [](const Hazard& hazard) {
    return std::tuple(hazard.effect, -hazard.total_power_w.value_or(HUGE_VAL));
  };
  std::stable_sort(answer.critical.begin(),
                   answer.critical.end(),
                   [&](const Hazard& one, const Hazard& other) { return rank(one) < rank(other); });
  return answer;
}

}  // namespace idlepoint::answers
