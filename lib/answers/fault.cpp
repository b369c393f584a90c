#include "answers/fault.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "answers/fault_ends.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::answers {
namespace {

using circuit::CheckedCircuit;
using circuit::PartId;
using solve::OperatingPoint;

// A blown fuse may load another; more rounds than a stage has rails are not met.
constexpr int most_rounds_of_fuses = 4;
// Rails that give way by more are part of the story.
constexpr double sag_of_a_rail = 0.1;

std::optional<OperatingPoint> settled(const CheckedCircuit& stage,
                                      const solve::Conditions& conditions) {
  auto outcome = solve::solve_stage(stage, conditions);
  auto* state = std::get_if<OperatingPoint>(&outcome);
  return state != nullptr ? std::optional(std::move(*state)) : std::nullopt;
}

std::vector<FaultReading> read_both(const Fault& answer) {
  std::vector<FaultReading> readings;
  for (const auto& reading : answer.faulty->readings) {
    FaultReading one{reading.name, reading.probe, unit_of(reading.probe)};
    const double was = answer.sound_state.read(*answer.sound, reading.probe);
    const double now = answer.faulty_state.read(*answer.faulty, reading.probe);
    one.healthy = in_own_unit(was, one.unit);
    one.faulty = in_own_unit(now, one.unit);
    one.is_shown = meter_shows(*answer.faulty, reading.probe, {was, now});
    readings.push_back(std::move(one));
  }
  return readings;
}

std::vector<PartId> fuses_that_blow(const circuit::Circuit& circuit, const OperatingPoint& state) {
  std::vector<PartId> fuses;
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    const auto& part = circuit.parts[index];
    if (part.kind != circuit::PartKind::fuse || part.damage.absent || part.damage.is_link) continue;
    const double current_a = std::abs(state.part(PartId{index}).lead_current_a.at(0));
    if (current_a > fuse_blows_at * part.value) fuses.push_back(PartId{index});
  }
  return fuses;
}

void blow_fuses(Fault& answer) {
  CheckedCircuit stage = answer.faulty;
  std::optional<OperatingPoint> state = answer.faulty_state;
  for (int round = 0; round < most_rounds_of_fuses; ++round) {
    const auto fuses = fuses_that_blow(*stage, *state);
    if (fuses.empty()) break;
    stage = stage.edited([&](circuit::Circuit& circuit) {
      for (const PartId fuse : fuses) circuit.at(fuse).damage.absent = true;
    });
    answer.blown.insert(answer.blown.end(), fuses.begin(), fuses.end());
    state = settled(stage, answer.faulty_state.conditions());
    if (!state) return;
  }
  if (answer.blown.empty()) return;
  for (FaultReading& reading : answer.readings) {
    reading.once_blown = in_own_unit(state->read(*stage, reading.probe), reading.unit);
  }
  answer.blown_state = std::move(state);
}

/// The sound stage on rails that stand, stiff, where those of the faulty one stand.
CheckedCircuit with_rails_of(const Fault& answer) {
  return answer.sound.edited([&](circuit::Circuit& circuit) {
    for (std::size_t index = 0; index < circuit.rails.size(); ++index) {
      const double volts = answer.faulty_state.rail(circuit::RailId{index}).voltage_v;
      circuit.rails[index].measured_v = volts / answer.faulty_state.conditions().rails;
      circuit.rails[index].resistance_ohm = 0.0;
    }
  });
}

bool sags_little(const Fault& answer) {
  for (std::size_t index = 0; index < answer.sound->rails.size(); ++index) {
    const circuit::RailId rail{index};
    const double was_v = answer.sound_state.rail(rail).voltage_v;
    const double sag_v = answer.faulty_state.rail(rail).voltage_v - was_v;
    if (answer.faulty->at(rail).lost || std::abs(sag_v) > sag_of_a_rail * std::abs(was_v)) {
      return false;
    }
  }
  return true;
}

/// The furthest that one fault alone moves a point; none where it leaves no state.
std::optional<double> effect_alone_v(const Fault& answer, const circuit::Edit& fault) {
  const auto edited = circuit::apply(answer.sound, fault);
  const auto* stage = std::get_if<CheckedCircuit>(&edited);
  if (stage == nullptr) return std::nullopt;
  const auto state = settled(*stage, answer.sound_state.conditions());
  if (!state) return std::nullopt;
  double furthest_v = 0.0;
  for (std::size_t index = 0; index < answer.sound->nodes.size(); ++index) {
    const circuit::NodeId node{index};
    const double move_v = state->voltage_v(node) - answer.sound_state.voltage_v(node);
    furthest_v = std::max(furthest_v, std::abs(move_v));
  }
  return furthest_v;
}

/// One fault counts in full; of several each as far as it would go alone.
std::vector<WeighedFault> weighed(const Fault& answer) {
  std::vector<WeighedFault> faults;
  std::vector<double> effects_v;
  double largest_v = 0.0;
  for (const auto& fault : answer.faults) {
    faults.push_back({fault, 1.0});
    if (answer.faults.size() == 1) return faults;
    effects_v.push_back(effect_alone_v(answer, fault).value_or(-1.0));
    largest_v = std::max(largest_v, effects_v.back());
  }
  for (std::size_t index = 0; index < faults.size(); ++index) {
    if (effects_v[index] >= 0.0 && largest_v > 0.0) {
      faults[index].weight = effects_v[index] / largest_v;
    }
  }
  return faults;
}

/// A part that is open or shorted is to be changed anyway.
void leave_out_the_broken(Fault& answer) {
  std::erase_if(answer.dangers, [&](const Danger& danger) {
    return std::any_of(answer.faults.begin(), answer.faults.end(), [&](const auto& fault) {
      const auto* open = std::get_if<circuit::OpenPart>(&fault);
      const auto* wire = std::get_if<circuit::ShortPart>(&fault);
      const auto* leads = std::get_if<circuit::ShortLeads>(&fault);
      return (open != nullptr && danger.part == open->part) ||
             (wire != nullptr && danger.part == wire->part) ||
             (leads != nullptr && danger.part == leads->part);
    });
  });
}

void look_at_the_load(Fault& answer) {
  solve::Conditions conditions = answer.faulty_state.conditions();
  const bool is_connected = conditions.load_connected;
  conditions.load_connected = true;
  const auto loaded =
      is_connected ? std::optional(answer.faulty_state) : settled(answer.faulty, conditions);
  if (!loaded) return;
  for (const Danger& danger : dangers_of_load({*answer.faulty, *loaded})) {
    answer.dangers.push_back(danger);
  }
}

void let_it_warm_up(Fault& answer) {
  solve::Conditions conditions = answer.faulty_state.conditions();
  if (conditions.heat == solve::HeatState::warm || !circuit::can_heat(*answer.faulty)) return;
  conditions.heat = solve::HeatState::warm;
  auto outcome = solve::solve_stage(answer.faulty, conditions);
  if (const auto* trouble = std::get_if<solve::ThermalTrouble>(&outcome)) {
    answer.dangers.push_back(danger_of(*trouble, *answer.faulty));
  } else if (auto* warm = std::get_if<OperatingPoint>(&outcome)) {
    for (const Danger& danger : dangers_of_warmth({*answer.faulty, *warm}, answer.dangers)) {
      answer.dangers.push_back(danger);
    }
    answer.warm_state = std::move(*warm);
  }
}

/// A lifted wiper whose spare leg nobody has looked at.
std::vector<std::string> unknown_legs(const Fault& answer) {
  std::vector<std::string> warnings;
  for (const auto& fault : answer.faults) {
    const auto* lifted = std::get_if<circuit::LiftWiper>(&fault);
    if (lifted == nullptr) continue;
    const auto& part = answer.sound->at(lifted->part);
    const auto& track = std::get<circuit::TrimmerDetails>(part.details);
    if (track.spare != circuit::SpareLeg::unknown) continue;
    warnings.push_back(fmt::format(
        "The drawing does not say what becomes of the spare leg of {}: it is taken as free. Tied "
        "to the wiper, the whole track would stay in circuit.",
        part.name));
  }
  return warnings;
}

}  // namespace

std::variant<Fault, solve::NotSettled, FaultyNotSettled, ThermalStory> ask_fault(
    const FaultAsked& asked) {
  const auto& conditions = asked.sound.conditions;
  auto before = solve::solve_stage(asked.sound.stage, conditions);
  if (auto* story = std::get_if<solve::NotSettled>(&before)) return std::move(*story);
  if (const auto* trouble = std::get_if<solve::ThermalTrouble>(&before)) {
    return tell_thermal(asked.sound, asked.sound.stage, *trouble);
  }
  auto after = solve::solve_stage(asked.faulty, conditions);
  if (auto* story = std::get_if<solve::NotSettled>(&after)) {
    return FaultyNotSettled{std::move(*story)};
  }
  if (const auto* trouble = std::get_if<solve::ThermalTrouble>(&after)) {
    Setup faulty = asked.sound;
    faulty.stage = asked.faulty;
    for (const auto& edit : asked.faults) {
      faulty.changes.push_back(circuit::write_fault(*asked.faulty, edit));
    }
    return tell_thermal(faulty, asked.faulty, *trouble);
  }
  Fault answer{asked.sound.stage,
               asked.faulty,
               std::get<OperatingPoint>(std::move(before)),
               std::get<OperatingPoint>(std::move(after)),
               asked.faults,
               {},
               {},
               {},
               {},
               {},
               {},
               asked.sound.changes,
               standing_warnings(asked.sound)};
  for (auto& warning : unknown_legs(answer)) answer.warnings.push_back(std::move(warning));
  answer.readings = read_both(answer);
  const Moves moves = answer.moves();
  answer.dangers = find_dangers(moves);
  leave_out_the_broken(answer);
  const CheckedCircuit sagging = with_rails_of(answer);
  const auto sagged = sags_little(answer) ? settled(sagging, conditions) : std::nullopt;
  const Moves compared =
      sagged ? Moves({*sagging, *sagged}, {*answer.faulty, answer.faulty_state}) : moves;
  answer.chain = find_chain(moves, compared, weighed(answer), stressed_parts(answer.dangers));
  blow_fuses(answer);
  look_at_the_load(answer);
  let_it_warm_up(answer);
  return answer;
}

}  // namespace idlepoint::answers
