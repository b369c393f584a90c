#include "answers/swap.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "answers/control_step.hpp"
#include "answers/taken_out.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Circuit;
using circuit::PartId;

/// The stage with everything replaced, and what went where; or why it cannot be.
struct Replaced {
  circuit::CheckedCircuit stage;
  std::vector<Swapped> swaps;
};

std::string describe_old(const Circuit& circuit, PartId id) {
  const auto& part = circuit.at(id);
  return part.type ? circuit.at(*part.type).name : std::string(circuit::keyword(part.kind));
}

/// "3 junctions of 1N4148" where the part is a stack: its body stays what it is.
std::string describe_new(const Circuit& circuit, const circuit::SetType& asked) {
  const auto* diode = std::get_if<circuit::DiodeDetails>(&circuit.at(asked.part).details);
  const std::string& name = circuit.at(asked.type).name;
  if (diode == nullptr || diode->junctions == 1) return name;
  return fmt::format("{} junctions of {}", diode->junctions, name);
}

std::optional<std::string> replace(const Readings& before,
                                   const circuit::SetType& asked,
                                   Replaced& replaced) {
  const auto& part = before.stage->at(asked.part);
  if (part.type == asked.type) {
    return fmt::format(
        "{} is of the type {} already", part.name, before.stage->at(asked.type).name);
  }
  Swapped swapped{asked.part,
                  describe_old(*before.stage, asked.part),
                  describe_new(*before.stage, asked),
                  {asked.part}};
  auto changed = circuit::apply(replaced.stage, asked);
  if (auto* why = std::get_if<std::string>(&changed)) return std::move(*why);
  replaced.stage = std::get<circuit::CheckedCircuit>(std::move(changed));
  swapped.control = find_control_step(before.stage, before.state, asked);
  swapped.zener = compare_zeners(*before.stage, *part.type, asked.type);
  replaced.swaps.push_back(std::move(swapped));
  return std::nullopt;
}

std::optional<std::string> replace(const Readings& before,
                                   const circuit::StandIn& asked,
                                   Replaced& replaced) {
  const PartId part = asked.for_part;
  const std::size_t high = positive_lead(before.stage, part, before.state);
  auto changed = circuit::stand_in(replaced.stage, asked, high);
  if (auto* why = std::get_if<std::string>(&changed)) return std::move(*why);
  auto& stood_in = std::get<circuit::StoodIn>(changed);
  Swapped swapped{part,
                  describe_old(*before.stage, part),
                  circuit::write_stand_in(*before.stage, asked),
                  stood_in.parts};
  swapped.stand_in = test_stand_in(before.stage, before.state, part, stood_in);
  replaced.stage = std::move(stood_in.stage);
  replaced.swaps.push_back(std::move(swapped));
  return std::nullopt;
}

PartId part_of(const Replacement& replacement) {
  if (const auto* type = std::get_if<circuit::SetType>(&replacement)) return type->part;
  return std::get<circuit::StandIn>(replacement).for_part;
}

std::variant<Replaced, std::string> replace_all(const Readings& before,
                                                const std::vector<Replacement>& replacements) {
  Replaced replaced{before.stage, {}};
  for (const auto& replacement : replacements) {
    const PartId part = part_of(replacement);
    const bool again = std::any_of(replaced.swaps.begin(),
                                   replaced.swaps.end(),
                                   [part](const auto& swap) { return swap.part == part; });
    if (again) return fmt::format("{} is replaced twice", before.stage->at(part).name);
    if (before.stage->at(part).damage.absent) {
      return fmt::format("{} is taken out: there is nothing to replace",
                         before.stage->at(part).name);
    }
    auto why = std::visit([&](const auto& asked) { return replace(before, asked, replaced); },
                          replacement);
    if (why) return *std::move(why);
  }
  return replaced;
}

/// Judged whole: with parts taken out only the readings are those of the stage without them.
Side look_at(const Setup& setup) {
  Setup whole = setup;
  whole.stage = with_all_parts(setup.stage);
  auto preset = ask_preset(whole);
  const auto* found = std::get_if<Preset>(&preset);
  const bool has_preset = found != nullptr && found->state;
  return {ask_readings(has_preset ? setup : whole), std::move(preset)};
}

/// Where the judged state belongs to: the trimmers stand as they do there.
const circuit::CheckedCircuit& judged_stage(const Side& side) {
  const auto* preset = preset_of(side);
  return preset != nullptr && preset->state ? preset->stage : readings_of(side)->stage;
}

bool drives(const circuit::Part& driver, const circuit::Part& driven) {
  if (!circuit::is_bipolar(driver.kind) || !circuit::is_transistor(driven.kind)) return false;
  const auto base = circuit::lead(driven, 1);
  if (!base || *base == circuit::ground) return false;
  return circuit::lead(driver, 0) == base || circuit::lead(driver, 2) == base;
}

std::vector<PartId> new_parts(const std::vector<Swapped>& swaps) {
  std::vector<PartId> parts;
  for (const auto& swap : swaps) parts.insert(parts.end(), swap.now.begin(), swap.now.end());
  return parts;
}

/// The new parts, then the transistors that drive them.
std::vector<PartId> parts_to_judge(const Circuit& circuit, const std::vector<Swapped>& swaps) {
  std::vector<PartId> parts = new_parts(swaps);
  const std::size_t replaced = parts.size();
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    if (circuit.parts[index].damage.absent) continue;
    const bool is_known = std::find(parts.begin(), parts.end(), PartId{index}) != parts.end();
    const bool is_driver = std::any_of(
        parts.begin(), parts.begin() + static_cast<std::ptrdiff_t>(replaced), [&](PartId id) {
          return drives(circuit.parts[index], circuit.at(id));
        });
    if (is_driver && !is_known) parts.push_back({index});
  }
  return parts;
}

bool share_nodes(const circuit::Part& one, const circuit::Part& other) {
  return one.kind == other.kind && circuit::is_transistor(one.kind) && !one.damage.absent &&
         !other.damage.absent && one.leads[0] && one.leads[0] == other.leads[0] && one.leads[1] &&
         one.leads[1] == other.leads[1];
}

const OutputPart* output_part(const Swap& swap, PartId id) {
  if (!swap.loud) return nullptr;
  for (const auto& output : swap.loud->output_parts) {
    if (output.part == id) return &output;
  }
  return nullptr;
}

/// Transistors of one kind that carry the same current together: of one half of the output, or with
/// collector and base in common.
bool stand_side_by_side(const Swap& swap, PartId one, PartId other) {
  const auto* output = output_part(swap, one);
  const auto* beside = output_part(swap, other);
  if (swap.stage->at(one).kind != swap.stage->at(other).kind) return false;
  if (output != nullptr && beside != nullptr) return output->half == beside->half;
  return share_nodes(swap.stage->at(one), swap.stage->at(other));
}

/// Those beside a new part, where not all are of its type.
std::optional<Sharing> sharing_of(const Swap& swap,
                                  const solve::OperatingPoint& state,
                                  PartId part) {
  const Circuit& circuit = *swap.stage;
  Sharing sharing;
  bool all_alike = true;
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    const PartId other{index};
    if (!stand_side_by_side(swap, part, other)) continue;
    all_alike = all_alike && circuit.at(other).type == circuit.at(part).type;
    sharing.shares.push_back({other, state.read(circuit, circuit::AmpsThrough{other})});
  }
  if (all_alike) return std::nullopt;
  return sharing;
}

std::vector<Sharing> find_sharing(const Swap& swap, const solve::OperatingPoint& state) {
  std::vector<Sharing> found;
  std::vector<PartId> told;
  for (const auto& swapped : swap.swaps) {
    if (std::find(told.begin(), told.end(), swapped.part) != told.end()) continue;
    auto sharing = sharing_of(swap, state, swapped.part);
    if (!sharing) continue;
    for (const auto& share : sharing->shares) told.push_back(share.part);
    found.push_back(std::move(*sharing));
  }
  return found;
}

std::optional<double> loop_gain(const Side& side) {
  const auto* state = judged_state(side);
  if (state == nullptr || state->conditions().heat == solve::HeatState::cold) return std::nullopt;
  return state->loop_gain();
}

std::vector<RangeCure> find_cures(const Preset& preset, const solve::Conditions& conditions) {
  for (std::size_t index = 0; index < preset.adjustments.size(); ++index) {
    if (preset.adjustments[index].reached) continue;
    return find_range_cures(preset.stage, conditions, preset.stage->adjustments.at(index));
  }
  return {};
}

Verdict verdict_of(const Swap& swap) {
  if (judged_state(swap.after) == nullptr) return Verdict::unsuitable;
  Verdict verdict = Verdict::suitable;
  for (const auto& swapped : swap.swaps) {
    if (swapped.zener) verdict = worse(verdict, allowed_by(*swapped.zener));
    if (is_left_idle(swapped)) verdict = worse(verdict, Verdict::with_care);
  }
  for (const auto& check : swap.ratings) {
    verdict = worse(verdict, allowed_by(check, same_rating(swap.ratings_before, check)));
  }
  if (swap.loop_gain_after) {
    verdict = worse(verdict, allowed_by_loop_gain(*swap.loop_gain_after));
  }
  if (const auto* preset = preset_of(swap.after)) verdict = worse(verdict, allowed_by(*preset));
  return verdict;
}

/// `why`, where it is not null, is told why it cannot be played.
std::optional<PlayedLoud> play(const Side& side,
                               const solve::Conditions& conditions,
                               std::string* why = nullptr) {
  auto outcome = play_loud(judged_stage(side), conditions);
  if (auto* loud = std::get_if<PlayedLoud>(&outcome)) return std::move(*loud);
  if (why != nullptr) *why = std::get<std::string>(std::move(outcome));
  return std::nullopt;
}

bool is_new(const Swap& swap, PartId id) {
  return std::any_of(swap.swaps.begin(), swap.swaps.end(), [id](const auto& swapped) {
    return std::find(swapped.now.begin(), swapped.now.end(), id) != swapped.now.end();
  });
}

/// Of the half of which nothing is new, where something of the other half is.
std::vector<PartId> find_left_behind(const Swap& swap) {
  std::vector<PartId> old_parts[2];
  bool has_new[2] = {false, false};
  for (const auto& output : swap.loud->output_parts) {
    const auto half = static_cast<std::size_t>(output.half == Half::lower);
    if (is_new(swap, output.part)) {
      has_new[half] = true;
    } else {
      old_parts[half].push_back(output.part);
    }
  }
  if (has_new[0] == has_new[1]) return {};
  return old_parts[has_new[0] ? 1 : 0];
}

std::vector<PartId> new_transistors(const Circuit& circuit, const std::vector<Swapped>& swaps) {
  std::vector<PartId> parts = new_parts(swaps);
  std::erase_if(parts, [&](PartId id) { return !circuit::is_transistor(circuit.at(id).kind); });
  return parts;
}

std::vector<PartId> replaced_parts(const std::vector<Swapped>& swaps) {
  std::vector<PartId> parts;
  for (const auto& swapped : swaps) parts.push_back(swapped.part);
  return parts;
}

void judge_before(const Setup& setup, Swap& swap) {
  const auto* state = judged_state(swap.before);
  if (state == nullptr) return;
  const auto parts = replaced_parts(swap.swaps);
  const auto& stage = judged_stage(swap.before);
  const auto loud = play(swap.before, setup.conditions);
  swap.ratings_before = check_ratings(*stage, *state, loud ? &*loud : nullptr, parts);
  if (loud) swap.drive_before = peak_drives(*stage, *loud, parts);
}

/// What the stand-ins carry where they now are.
void find_currents_in_place(const solve::OperatingPoint& state, Swap& swap) {
  for (auto& swapped : swap.swaps) {
    if (!swapped.stand_in) continue;
    const auto& lead_currents = state.part(swapped.now.front()).lead_current_a;
    double amps = 0.0;
    for (const double current : lead_currents) amps = std::max(amps, std::abs(current));
    swapped.stand_in->amps_in_place = amps;
  }
}

void judge(const Setup& setup, Swap& swap) {
  const auto* state = judged_state(swap.after);
  if (state == nullptr) return;
  const auto& stage = judged_stage(swap.after);
  swap.loud = play(swap.after, setup.conditions, &swap.not_played);
  find_currents_in_place(*state, swap);
  swap.ratings = check_ratings(
      *stage, *state, swap.loud ? &*swap.loud : nullptr, parts_to_judge(*stage, swap.swaps));
  if (swap.loud) {
    swap.left_behind = find_left_behind(swap);
    swap.drive_after = peak_drives(*stage, *swap.loud, new_transistors(*stage, swap.swaps));
  }
  swap.sharing = find_sharing(swap, *state);
  swap.answering = how_it_answers(stage, state->conditions(), new_parts(swap.swaps));
  if (const auto* preset = preset_of(swap.after)) {
    swap.cures = find_cures(*preset, setup.conditions);
  }
}

}  // namespace

bool is_stand_in(const Swapped& swapped) noexcept { return swapped.now.front() != swapped.part; }

bool is_left_idle(const Swapped& swapped) noexcept {
  constexpr double next_to_nothing = 0.05;
  return swapped.stand_in && swapped.stand_in->amps_in_place &&
         *swapped.stand_in->amps_in_place < next_to_nothing * swapped.stand_in->amps;
}

const Readings* readings_of(const Side& side) noexcept {
  return std::get_if<Readings>(&side.readings);
}

const Preset* preset_of(const Side& side) noexcept { return std::get_if<Preset>(&side.preset); }

const solve::OperatingPoint* judged_state(const Side& side) noexcept {
  const auto* preset = preset_of(side);
  if (preset == nullptr) return nullptr;
  if (preset->state) return &*preset->state;
  const auto* readings = readings_of(side);
  return readings == nullptr ? nullptr : &readings->state;
}

std::variant<Swap, solve::NotSettled, ThermalStory, std::string> ask_swap(
    const Setup& setup, const std::vector<Replacement>& replacements) {
  Side before = look_at(setup);
  if (auto* story = std::get_if<solve::NotSettled>(&before.readings)) return std::move(*story);
  if (auto* story = std::get_if<ThermalStory>(&before.readings)) return std::move(*story);
  auto outcome = replace_all(*readings_of(before), replacements);
  if (auto* why = std::get_if<std::string>(&outcome)) return std::move(*why);
  auto& replaced = std::get<Replaced>(outcome);

  Setup after_setup = setup;
  after_setup.stage = replaced.stage;
  Swap swap{replaced.stage, std::move(replaced.swaps), std::move(before), look_at(after_setup)};
  swap.loop_gain_before = loop_gain(swap.before);
  swap.loop_gain_after = loop_gain(swap.after);
  judge_before(setup, swap);
  judge(setup, swap);
  swap.verdict = verdict_of(swap);
  const auto* after = readings_of(swap.after);
  swap.warnings = after != nullptr ? after->warnings : standing_warnings(after_setup);
  if (!taken_out(*setup.stage).empty()) {
    swap.warnings.push_back(judged_with_all_parts(*setup.stage) +
                            " The readings above are those without.");
  }
  return swap;
}

}  // namespace idlepoint::answers
