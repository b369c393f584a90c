#include "answers/sheet.hpp"

#include <utility>

namespace idlepoint::answers {
namespace {

/// The share of one answer within the whole work: as long as it usually takes.
std::function<bool(double)> part_of(const std::function<bool(double)>& go_on,
                                    double from,
                                    double to) {
  return [&go_on, from, to](double share) { return !go_on || go_on(from + (to - from) * share); };
}

template <class Answer, class... Others>
std::optional<Answer> answer_of(std::variant<Answer, Others...> outcome) {
  if (auto* answer = std::get_if<Answer>(&outcome)) return std::move(*answer);
  return std::nullopt;
}

void add_preset(SheetChannel& channel) {
  auto outcome = ask_preset(channel.setup);
  if (auto* story = std::get_if<ThermalStory>(&outcome)) channel.no_preset = std::move(*story);
  channel.preset = answer_of(std::move(outcome));
}

void add_swap(SheetChannel& channel, const std::vector<Replacement>& replacements) {
  if (replacements.empty()) return;
  auto outcome = ask_swap(channel.setup, replacements);
  if (auto* why = std::get_if<std::string>(&outcome)) channel.no_swap = std::move(*why);
  channel.swap = answer_of(std::move(outcome));
}

}  // namespace

std::variant<SheetChannel, solve::NotSettled> ask_sheet(const Setup& setup,
                                                        const SheetAsked& asked) {
  Setup settled = setup;
  auto outcome = ask_readings(settled);
  std::optional<ThermalStory> runs_away;
  if (auto* story = std::get_if<ThermalStory>(&outcome)) {
    runs_away = std::move(*story);
    settled.conditions.heat = solve::HeatState::cold;
    outcome = ask_readings(settled);
  }
  if (auto* story = std::get_if<solve::NotSettled>(&outcome)) return std::move(*story);
  SheetChannel channel{
      settled, runs_away, std::get<Readings>(std::move(outcome)), {settled.stage, {}}};
  add_preset(channel);
  channel.powerup = answer_of(ask_powerup(settled, {}));
  channel.hazards = answer_of(ask_hazards(settled, part_of(asked.go_on, 0.05, 0.4)));
  channel.warmup = answer_of(ask_warmup(settled, {}));
  SpreadAsked spread;
  spread.go_on = part_of(asked.go_on, 0.4, 0.5);
  channel.spread = answer_of(ask_spread(settled, spread));
  channel.crossover = answer_of(ask_crossover(settled));
  add_swap(channel, asked.replacements);
  // The sliders begin where the trimmers belong.
  if (channel.preset && !channel.preset->refused) settled.stage = channel.preset->stage;
  channel.sliders = find_sliders(settled, part_of(asked.go_on, 0.5, 1.0));
  return channel;
}

}  // namespace idlepoint::answers
