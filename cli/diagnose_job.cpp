#include "diagnose_job.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "answers/readings.hpp"
#include "circuit/sentence.hpp"

namespace idlepoint::cli {
namespace {

using circuit::BenchReading;
using circuit::Channel;
using circuit::Job;
using circuit::Measured;
using circuit::When;

bool has_readings(const Channel& channel, When when) {
  return std::any_of(channel.measured.begin(),
                     channel.measured.end(),
                     [when](const Measured& measured) { return measured.when == when; });
}

std::vector<std::string> channel_names(const Job& job) {
  std::vector<std::string> names;
  for (const Channel& channel : job.channels) names.push_back(channel.name);
  return names;
}

Tried<std::size_t> channel_asked_for(const Job& job, const Given& given) {
  const auto found = [&](auto&& is_it) {
    const auto channel = std::find_if(job.channels.begin(), job.channels.end(), is_it);
    return static_cast<std::size_t>(channel - job.channels.begin());
  };
  if (!given.has("--channel")) {
    const std::size_t first =
        found([](const Channel& channel) { return !channel.measured.empty(); });
    return first == job.channels.size() ? 0 : first;
  }
  const std::string name = given.all("--channel").back();
  const std::size_t asked = found([&](const Channel& channel) { return channel.name == name; });
  if (asked < job.channels.size()) return asked;
  if (job.channels.size() == 1 && job.channels.front().name.empty()) {
    return Trouble{"the job parts no channels", "Leave --channel out."};
  }
  return unknown_word(fmt::format("the job has no channel `{}`", name),
                      name,
                      "The channels are",
                      channel_names(job));
}

std::vector<BenchReading> readings_of(const Channel& channel, When when) {
  std::vector<BenchReading> readings;
  for (const Measured& measured : channel.measured) {
    if (measured.when == when) readings.push_back(measured.reading);
  }
  return readings;
}

std::string say_channel(const Job& job, std::size_t channel, bool asked_for) {
  const std::string& name = job.channels[channel].name;
  if (job.channels.size() == 1) return name.empty() ? "" : fmt::format("Channel {}.", name);
  if (asked_for) return fmt::format("Channel {}.", name);
  std::vector<std::string> others = channel_names(job);
  others.erase(others.begin() + static_cast<std::ptrdiff_t>(channel));
  return fmt::format("Channel {}, the first of the job with readings; --channel asks for {}.",
                     name,
                     circuit::list_words(others));
}

/// Why a channel is not the one that works; empty where it is.
std::string what_is_off(const std::vector<answers::ReadingValue>& sound,
                        std::size_t first,
                        const std::vector<BenchReading>& readings) {
  for (std::size_t index = 0; index < readings.size(); ++index) {
    const BenchReading& reading = readings[index];
    if (reading.firmness != circuit::Firmness::shown &&
        reading.firmness != circuit::Firmness::about) {
      return fmt::format("its {} does not stand still", reading.name);
    }
    const answers::ReadingValue& expected = sound[first + index];
    const double value = answers::in_own_unit(*reading.value, expected.unit);
    const auto& band = expected.metered_band ? expected.metered_band : expected.band;
    const bool outside = band && (value < band->low || value > band->high);
    if (outside) return fmt::format("its {} is not where a sound one's would be", reading.name);
  }
  return {};
}

// The channel's drawing with each of its power-on readings as readings of the file, solved sound.
std::string why_not_sound(const Channel& channel,
                          const std::vector<BenchReading>& readings,
                          const Given& given) {
  std::vector<BenchReading> powered;
  for (const BenchReading& reading : readings) {
    if (std::holds_alternative<circuit::Probe>(reading.measurement)) powered.push_back(reading);
  }
  if (powered.empty()) return "nothing was read of it with the power on";
  language::StageFile file{channel.circuit, channel.warnings};
  const std::size_t first = file.circuit.readings.size();
  for (const BenchReading& reading : powered) {
    file.circuit.readings.push_back({.name = reading.name,
                                     .probe = std::get<circuit::Probe>(reading.measurement),
                                     .limit = {},
                                     .place = {}});
  }
  Given sound = given;
  for (const char* option : {"--fault", "--without", "--with", "--at", "--reading"}) {
    sound.values.erase(option);
  }
  const auto opened = open_drawing(std::move(file), sound);
  const auto* stage = std::get_if<OpenedStage>(&opened);
  if (stage == nullptr) return "its drawing does not pass its checks";
  const auto setup = set_up(*stage);
  const auto* checked = std::get_if<answers::Setup>(&setup);
  if (checked == nullptr) return "its drawing does not pass its checks";
  const auto outcome = answers::ask_readings(*checked);
  const auto* answer = std::get_if<answers::Readings>(&outcome);
  if (answer == nullptr) return "its drawing finds no state";
  return what_is_off(answer->readings, first, powered);
}

// The other channel's figures of what was measured here too, by what the measurements are called in
// both drawings.
std::vector<BenchReading> in_common(const Channel& here,
                                    const std::vector<BenchReading>& readings,
                                    const Channel& there,
                                    const std::vector<BenchReading>& others) {
  std::vector<BenchReading> common;
  for (const BenchReading& reading : readings) {
    const std::string text = circuit::write_measurement(here.circuit, reading.measurement);
    const auto same = std::find_if(others.begin(), others.end(), [&](const BenchReading& other) {
      return circuit::write_measurement(there.circuit, other.measurement) == text;
    });
    if (same == others.end()) continue;
    BenchReading taken = *same;
    taken.name = reading.name;
    taken.measurement = reading.measurement;
    common.push_back(std::move(taken));
  }
  return common;
}

void take_sound_channel(const Job& job, const Given& given, TakenFromJob& taken) {
  const Channel& here = job.channels[taken.channel];
  for (std::size_t index = 0; index < job.channels.size(); ++index) {
    const Channel& there = job.channels[index];
    if (index == taken.channel) continue;
    const When when = has_readings(there, When::before) ? When::before : When::after;
    const auto others = readings_of(there, when);
    auto common = in_common(here, taken.readings, there, others);
    if (common.empty()) continue;
    const std::string why = why_not_sound(there, others, given);
    if (why.empty()) {
      taken.sound_channel = std::move(common);
      taken.sentences.push_back(fmt::format(
          "Channel {} is taken as the one that works: all that was read of it lies where a sound "
          "one's would.",
          there.name));
      return;
    }
    taken.sentences.push_back(
        fmt::format("Channel {} is not taken as one that works: {}.", there.name, why));
  }
}

}  // namespace

Tried<TakenFromJob> take_from_job(const Job& job, const Given& given) {
  const auto asked = channel_asked_for(job, given);
  if (const auto* trouble = std::get_if<Trouble>(&asked)) return *trouble;
  TakenFromJob taken;
  taken.channel = std::get<std::size_t>(asked);
  const Channel& channel = job.channels[taken.channel];
  const std::string sentence = say_channel(job, taken.channel, given.has("--channel"));
  if (!sentence.empty()) taken.sentences.push_back(sentence);
  const bool after = given.has("--after") ||
                     (!has_readings(channel, When::before) && has_readings(channel, When::after));
  taken.readings = readings_of(channel, after ? When::after : When::before);
  taken.good = channel.sound;
  if (after) {
    taken.sentences.emplace_back(
        "The readings are those after the work, with what was replaced in its place.");
    for (const auto& replaced : channel.replaced) taken.replaced.push_back(replaced.edit);
  } else if (!channel.replaced.empty()) {
    taken.sentences.emplace_back(
        "The readings are those before the work, of the stage as it was found; --after takes the "
        "others.");
  }
  take_sound_channel(job, given, taken);
  return taken;
}

}  // namespace idlepoint::cli
