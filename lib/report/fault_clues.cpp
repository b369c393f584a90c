// The dangers of a fault in words, and what gives it away. Declared in report/fault_words.hpp.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "answers/at_rail.hpp"
#include "report/fault_words.hpp"
#include "report/figures.hpp"
#include "report/words.hpp"

namespace idlepoint::report {
namespace {

using answers::Danger;
using answers::Fault;
using answers::FaultReading;
using answers::Peril;
using circuit::RailId;

constexpr double rails_alike = 0.03;
constexpr double rails_apart = 0.1;
constexpr double rails_apart_a = 5e-3;
constexpr double more_flows = 1.5;
constexpr double less_flows = 0.7;
constexpr std::size_t most_shown = 2;

std::string name_of_rail(const Fault& answer, std::size_t rail) {
  return circuit::node_in_words(*answer.faulty, answer.faulty->rails[rail].node);
}

std::string in_celsius(double temperature_c) {
  return figure(temperature_c, answers::ReadingUnit::celsius);
}

/// Two rails against each other: from rail to rail, or to ground.
std::string rails_clue(const Fault& answer) {
  if (answer.faulty->rails.size() != 2) return {};
  const auto delivered = [](const solve::OperatingPoint& state, std::size_t rail) {
    return std::abs(state.rail(RailId{rail}).delivered_a);
  };
  const bool first_is_larger =
      delivered(answer.faulty_state, 0) >= delivered(answer.faulty_state, 1);
  const std::size_t large = first_is_larger ? 0 : 1;
  const std::size_t small = 1 - large;
  const double large_a = delivered(answer.faulty_state, large);
  const double small_a = delivered(answer.faulty_state, small);
  const double was_a = delivered(answer.sound_state, large);
  const double was_apart_a = std::abs(was_a - delivered(answer.sound_state, small));
  const double apart_a = large_a - small_a;
  if (apart_a < rails_alike * large_a && large_a > more_flows * was_a) {
    return fmt::format(
        "Both rails deliver {}, {} when sound: what is too much runs from rail to "
        "rail.",
        amps(large_a),
        amps(was_a));
  }
  if (apart_a > rails_apart * large_a && apart_a > rails_apart_a && apart_a > 2.0 * was_apart_a) {
    return fmt::format("{} delivers {} and {} {}: the difference of {} goes by way of gnd.",
                       name_of_rail(answer, large),
                       amps(large_a),
                       name_of_rail(answer, small),
                       amps(small_a),
                       amps(apart_a));
  }
  return {};
}

std::string output_clue(const Fault& answer) {
  using answers::OutputPlace;
  const auto place = answers::output_place(*answer.faulty, answer.faulty_state);
  if (place != OutputPlace::at_high_rail && place != OutputPlace::at_low_rail) return {};
  if (answers::is_output_at_rail(*answer.sound, answer.sound_state)) return {};
  const auto output = circuit::output_node(*answer.faulty);
  std::string text = fmt::format("{} is at the {} rail, at {},",
                                 circuit::node_in_words(*answer.faulty, *output),
                                 place == OutputPlace::at_high_rail ? "upper" : "lower",
                                 volts(answer.faulty_state.voltage_v(*output)));
  const double power_w = answer.faulty_state.total_power_w();
  const double was_w = answer.sound_state.total_power_w();
  const char* flow = "with about the usual current";
  if (power_w > more_flows * was_w) flow = "and more current flows than when sound";
  if (power_w < less_flows * was_w) flow = "and less current flows than when sound";
  return text +
         fmt::format(" {}: {} from the supply, {} when sound.", flow, watts(power_w), watts(was_w));
}

/// How much a change stands out: the ratio where both have one sign, else as a large one.
double stands_out(const FaultReading& reading) {
  constexpr double least = 1e-4;
  const double was = std::max(std::abs(reading.healthy), least);
  const double now = std::max(std::abs(reading.faulty), least);
  const bool is_flipped = reading.healthy * reading.faulty < 0.0;
  return std::abs(std::log(now / was)) + (is_flipped ? 1.0 : 0.0);
}

std::vector<std::string> reading_clues(const Fault& answer) {
  std::vector<const FaultReading*> shown;
  std::vector<std::string> hidden;
  for (const FaultReading& reading : answer.readings) {
    if (reading.unit == answers::ReadingUnit::celsius) continue;
    const bool reads_alike =
        figure(reading.healthy, reading.unit) == figure(reading.faulty, reading.unit);
    if (reading.is_shown && reads_alike) continue;
    if (reading.is_shown) {
      shown.push_back(&reading);
    } else {
      hidden.push_back("`" + reading.name + "`");
    }
  }
  std::stable_sort(shown.begin(), shown.end(), [](const auto* one, const auto* other) {
    return stands_out(*one) > stands_out(*other) + 1e-6;
  });
  std::vector<std::string> best;
  for (std::size_t index = 0; index < std::min(most_shown, shown.size()); ++index) {
    const FaultReading& reading = *shown[index];
    best.push_back(fmt::format("`{}` reads {} where {} belongs",
                               reading.name,
                               figure(reading.faulty, reading.unit),
                               figure(reading.healthy, reading.unit)));
  }
  std::vector<std::string> said;
  if (!best.empty()) said.push_back(list_in_words(best) + ".");
  if (answer.readings.empty()) return said;
  if (best.empty()) {
    said.emplace_back("None of the file's readings shows it: the meter cannot tell the change.");
  } else if (!hidden.empty()) {
    said.push_back(list_in_words(hidden) + (hidden.size() == 1 ? " does" : " do") +
                   " not show it: the meter cannot tell the change.");
  }
  return said;
}

/// One sentence serves both, to the digits that are shown.
bool reads_alike(const Danger& one, const Danger& other) {
  if (one.peril != other.peril || one.is_warm != other.is_warm || !other.part) return false;
  if (one.peril == Peril::power) {
    return watts(one.value) == watts(other.value) && watts(one.limit) == watts(other.limit) &&
           watts(one.value) != watts(one.limit);
  }
  return one.peril == Peril::current && amps(one.value) == amps(other.value) &&
         amps(one.limit) == amps(other.limit);
}

struct Saying {
  const Fault& answer;
  const Danger& danger;

  [[nodiscard]] std::string part() const { return answer.faulty->at(*danger.part).name; }
  [[nodiscard]] double times() const { return danger.value / danger.limit; }

  [[nodiscard]] std::string say() const {
    switch (danger.peril) {
      case Peril::power:
        if (watts(danger.value) == watts(danger.limit)) {
          return fmt::format(
              "{} takes a little more than the {} that it may have.", part(), watts(danger.limit));
        }
        return fmt::format(
            "{} takes {} and may have {}.", part(), watts(danger.value), watts(danger.limit));
      case Peril::current:
        return fmt::format(
            "{} carries {} and stands {}.", part(), amps(danger.value), amps(danger.limit));
      case Peril::voltage:
        return fmt::format(
            "{} has {} across it and stands {}.", part(), volts(danger.value), volts(danger.limit));
      case Peril::base_emitter:
        return fmt::format("{} has its base {} backwards and stands {}.",
                           part(),
                           volts(danger.value),
                           volts(danger.limit));
      case Peril::breakdown:
        return fmt::format("{} has had {} backwards on its base, where it breaks down.",
                           part(),
                           volts(danger.value));
      case Peril::fuse_blows:
        return fmt::format(
            "{} carries {}, {:.1f} times its rating, and blows within minutes or "
            "sooner.",
            part(),
            amps(danger.value),
            times());
      case Peril::fuse_at_risk:
        return fmt::format("{} carries {}, {:.1f} times its rating: it may blow, or hold for long.",
                           part(),
                           amps(danger.value),
                           times());
      case Peril::loudspeaker:
        return fmt::format("{}, if connected, gets {} of DC: {}, {} in its voice coil.",
                           part(),
                           volts(danger.value),
                           amps(std::abs(danger.amps)),
                           watts(std::abs(danger.value * danger.amps)));
      default:
        return say_of_supply_or_heat();
    }
  }

  [[nodiscard]] std::string say_of_supply_or_heat() const {
    if (danger.peril == Peril::rail_down) {
      return fmt::format("{} is pulled down to {} from {}: {} flows.",
                         name_of_rail(answer, danger.rail->index),
                         volts(danger.value),
                         volts(danger.limit),
                         amps(danger.amps));
    }
    if (danger.peril == Peril::runaway) {
      return fmt::format(
          "Left on, it runs away: {} is the first to pass {}.", part(), in_celsius(danger.limit));
    }
    return fmt::format("Left on, the junction of {} would come to {}; it stands {}.",
                       part(),
                       in_celsius(danger.value),
                       in_celsius(danger.limit));
  }
};

}  // namespace

std::string danger_in_words(const Fault& answer, const Danger& danger) {
  const std::string said = Saying{answer, danger}.say();
  const bool says_when = danger.peril == Peril::runaway || danger.peril == Peril::too_hot;
  return danger.is_warm && !says_when ? "Warmed through, " + said : said;
}

std::vector<std::string> dangers_in_words(const Fault& answer) {
  std::vector<std::string> said;
  const auto& dangers = answer.dangers;
  for (std::size_t index = 0; index < dangers.size();) {
    std::vector<std::string> names;
    std::size_t next = index;
    while (next < dangers.size() && reads_alike(dangers[index], dangers[next])) {
      names.push_back(answer.faulty->at(*dangers[next].part).name);
      ++next;
    }
    if (names.size() < 2) {
      said.push_back(danger_in_words(answer, dangers[index]));
      next = index + 1;
    } else {
      const bool is_power = dangers[index].peril == Peril::power;
      const auto shown = [&](double value) { return is_power ? watts(value) : amps(value); };
      said.push_back(fmt::format("{}{} {} {} each and {} {}.",
                                 dangers[index].is_warm ? "Warmed through, " : "",
                                 list_in_words(names),
                                 is_power ? "take" : "carry",
                                 shown(dangers[index].value),
                                 is_power ? "may have" : "stand",
                                 shown(dangers[index].limit)));
    }
    index = next;
  }
  return said;
}

std::vector<std::string> clues(const Fault& answer) {
  std::vector<std::string> said = reading_clues(answer);
  for (auto& clue : {output_clue(answer), rails_clue(answer)}) {
    if (!clue.empty()) said.push_back(clue);
  }
  return said;
}

}  // namespace idlepoint::report
