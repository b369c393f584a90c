#include <fmt/format.h>

#include <algorithm>

#include "report/figures.hpp"
#include "report/powerup_words.hpp"
#include "report/words.hpp"
#include "values/format.hpp"

namespace idlepoint::report {

using answers::Powerup;

std::string set_too_low_in_words(const Powerup& answer, const answers::SetOnLowRails& set) {
  const auto& place = answer.places.trimmers[set.trimmer];
  const auto& circuit = *answer.places.at_preset;
  const auto& reading = circuit.at(place.adjustment.reading);
  const auto unit = answers::unit_of(reading.probe);
  const std::string target = as_written(answers::in_own_unit(place.adjustment.target, unit), unit);
  const std::string& trimmer = circuit.at(place.adjustment.trimmer).name;
  const std::string rails = share_of_rails(answer, set.rails);
  if (!set.reached) {
    return fmt::format("At {} no place of {} brings `{}` to {}: the nearest is {}.",
                       rails,
                       trimmer,
                       reading.name,
                       target,
                       figure(set.reading, unit));
  }
  return fmt::format("Bring `{}` to {} with {} at {} and it {} at full rails.",
                     reading.name,
                     target,
                     trimmer,
                     rails,
                     set.at_full_rails ? "will be " + figure(*set.at_full_rails, unit)
                                       : std::string("finds no DC state"));
}

std::vector<std::string> set_too_low_by_trimmer(const Powerup& answer) {
  std::vector<std::string> paragraphs;
  for (std::size_t index = 0; index < answer.places.trimmers.size(); ++index) {
    const auto& adjustment = answer.places.trimmers[index].adjustment;
    const auto& circuit = *answer.places.at_preset;
    const auto unit = answers::unit_of(circuit.at(adjustment.reading).probe);
    std::vector<std::string> comes_to;
    std::vector<std::string> unreached;
    for (const auto& set : answer.set_too_low) {
      if (set.trimmer != index) continue;
      const std::string rails = share_of_rails(answer, set.rails);
      if (!set.reached) {
        unreached.push_back(rails);
      } else if (set.at_full_rails) {
        comes_to.push_back(fmt::format("{} from {}", figure(*set.at_full_rails, unit), rails));
      }
    }
    if (comes_to.empty() && unreached.empty()) continue;
    std::string text = fmt::format("{}, `{}` brought to {} on low rails",
                                   circuit.at(adjustment.trimmer).name,
                                   circuit.at(adjustment.reading).name,
                                   as_written(answers::in_own_unit(adjustment.target, unit), unit));
    if (!comes_to.empty()) text += fmt::format(": {}.", list_in_words(comes_to));
    if (!unreached.empty()) {
      text += fmt::format("{} {} no place on the track gives it.",
                          comes_to.empty() ? ": at" : " At",
                          list_in_words(unreached));
    }
    paragraphs.push_back(std::move(text));
  }
  return paragraphs;
}

std::string lamp_in_words(const answers::LampAnswer& lamp, const answers::LampShows& shows) {
  const auto& state = shows.state;
  const auto in_percent = [](double fraction) {
    const double value = 100.0 * fraction;
    return fmt::format("{:.{}f} %", value, value < 9.95 || (value > 99.0 && value < 100.0) ? 1 : 0);
  };
  return fmt::format("{}: {} of its {}, {} of its current; rails at {}, {} into the stage",
                     answers::word(state.glow),
                     volts(state.lamp_v),
                     values::format_value(lamp.lamp.mains_v, values::Unit::volt),
                     in_percent(state.share_of_current),
                     in_percent(state.rails),
                     watts(state.stage_w));
}

std::vector<std::string> lamp_remarks(const Powerup& answer) {
  if (!answer.lamp) return {};
  std::vector<std::string> sentences;
  const auto& hard_on = answer.lamp->hard_on;
  const auto count = [&](answers::Glow glow) {
    return std::count_if(hard_on.begin(), hard_on.end(), [&](const answers::LampShows& shows) {
      return shows.state.glow == glow;
    });
  };
  if (!hard_on.empty()) {
    sentences.push_back(fmt::format(
        "Of the {} single faults that turn it hard on with the trimmers at their preset, those at "
        "their safe end leave the lamp bright with {}, dull with {} and dark with {}: a dark lamp "
        "does not clear those.",
        hard_on.size(),
        count(answers::Glow::bright),
        count(answers::Glow::dull),
        count(answers::Glow::dark)));
  }
  if (!hard_on.empty() && count(answers::Glow::dark) == std::ssize(hard_on)) {
    sentences.emplace_back("It is too large for this stage: a smaller one tells more.");
  }
  sentences.emplace_back(
      "It may flash as the reservoirs charge, and the transformer's own magnetising current, which "
      "is not counted here, can make it glow a little.");
  sentences.emplace_back(
      "The lamp can show that nothing is wrong. It cannot show that the bias is right.");
  return sentences;
}

std::vector<std::string> powerup_cautions(const Powerup& answer) {
  std::vector<std::string> cautions = {
      "Mains kills: plug out before hands go in. A variable transformer does not isolate, and the "
      "primary side may stay live with the front switch off.",
      "No loudspeaker and no headphones until output and idle are proved.",
      "Reservoirs stay charged between the steps, and behind a blown fuse: discharge them through "
      "a "
      "resistor, then measure."};
  std::string hot = "Cans, sinks and the lamp get hot";
  if (!answer.places.at_safe_end->rails.empty()) {
    hot += ", and a can may stand at a rail: one slip of the probe is a short";
  }
  cautions.push_back(hot + ".");
  return cautions;
}

std::string lamp_hint() {
  return "With a lamp in the mains lead: --lamp 60W --mains 230V tells what it shows, sound and "
         "faulty.";
}

}  // namespace idlepoint::report
