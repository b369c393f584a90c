#include "report/writeup_words.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "answers/emitter_resistors.hpp"
#include "circuit/sentence.hpp"
#include "report/capacitor_words.hpp"
#include "report/figures.hpp"
#include "report/measure_words.hpp"
#include "report/words.hpp"
#include "values/format.hpp"

namespace idlepoint::report {
namespace {

using answers::Meaning;
using answers::TestedCapacitor;
using answers::WrittenChannel;
using answers::WrittenReading;
using circuit::Scope;

// "Channel right: ", before a sentence.
std::string lead_in(const WrittenChannel& channel) {
  const std::string heading = channel_heading(channel);
  return heading.empty() ? "" : heading + ": ";
}

std::string plain_kind(const circuit::Part& part) {
  if (circuit::has_type(part.kind)) {
    return part.kind == circuit::PartKind::diode ? "diode" : "transistor";
  }
  return std::string(circuit::keyword(part.kind));
}

std::string resistors_across(const circuit::Circuit& circuit, const circuit::VoltsBetween& points) {
  const auto read = answers::resistors_read(circuit, points);
  if (!read) return probe_in_words(circuit, points);
  const std::string first = circuit.at(read->first).name;
  return read->second ? first + " and " + circuit.at(*read->second).name : first;
}

// "amps through F601" behind the word current.
std::string without_amps(const std::string& words) {
  constexpr std::string_view amps = "amps ";
  return words.starts_with(amps) ? words.substr(amps.size()) : words;
}

std::string replaced_words(const circuit::Circuit& circuit, const circuit::Replaced& replaced) {
  std::string words;
  if (const auto* type = std::get_if<circuit::SetType>(&replaced.edit)) {
    const circuit::Part& part = circuit.at(type->part);
    words = fmt::format("The {} {} was replaced by one of the type {}",
                        plain_kind(part),
                        part.name,
                        circuit.at(type->type).name);
  } else {
    const auto& value = std::get<circuit::SetValue>(replaced.edit);
    const circuit::Part& part = circuit.at(value.part);
    const std::string written = circuit::write_fault(circuit, circuit::Edit{value});
    const bool is_capacitor = part.kind == circuit::PartKind::capacitor;
    words = fmt::format("The {} {} was replaced by one of {}",
                        plain_kind(part),
                        part.name,
                        is_capacitor ? values::format_value(value.value, values::Unit::farad)
                                     : written.substr(written.rfind(' ') + 1));
  }
  return words + (replaced.why.empty() ? "." : ". Why: " + replaced.why + ".");
}

std::string outside_words(const WrittenChannel& channel,
                          const WrittenReading& reading,
                          const std::optional<circuit::BenchReading>& taken) {
  return fmt::format("{}: {}, where a sound channel shows {}.",
                     meaning_in_words(channel.channel->circuit, reading),
                     taken_in_words(reading, taken),
                     expected_in_words(reading));
}

std::string count_words(std::size_t inside, std::size_t all) {
  if (all == 1) return "the one reading lay where a sound channel's would";
  return inside == all ? fmt::format("all {} readings lay where a sound channel's would", all)
                       : fmt::format("{} of {} readings lay outside", all - inside, all);
}

void add_found(const WrittenChannel& channel, Sentences& sentences) {
  std::size_t compared = 0;
  std::size_t outside = 0;
  for (const WrittenReading& reading : channel.readings) {
    if (reading.before && reading.expected) ++compared;
    if (reading.outside_before) ++outside;
  }
  if (compared > 0) {
    sentences.push_back(lead_in(channel) + "as it came, " +
                        count_words(compared - outside, compared) + ".");
  }
  for (const WrittenReading& reading : channel.readings) {
    if (!reading.outside_before) continue;
    sentences.push_back(lead_in(channel) + outside_words(channel, reading, reading.before));
  }
  for (const std::string& note : channel.channel->notes) {
    sentences.push_back(lead_in(channel) + note);
  }
}

std::string kept_limits(const WrittenChannel& channel) {
  std::vector<std::string> kept;
  for (const TestedCapacitor& tested : channel.capacitors) {
    const bool judged = tested.verdict && !tested.verdict->limits.empty();
    if (judged && tested.verdict->keep && !answers::is_replaced(*channel.channel, tested)) {
      kept.push_back(tested.name);
    }
  }
  if (kept.empty()) return {};
  return fmt::format("{} {} tested, {} the limits, and stayed in.",
                     list_in_words(kept),
                     kept.size() == 1 ? "was" : "were",
                     kept.size() == 1 ? "keeps" : "keep");
}

std::string not_read_again(const WrittenChannel& channel) {
  std::vector<std::string> names;
  for (const WrittenReading& reading : channel.readings) {
    if (reading.outside_before && !reading.after) names.push_back(reading.name);
  }
  if (names.empty() || !answers::was_worked_on(channel)) return {};
  return "outside as it came and not read again after the work: " + list_in_words(names) + ".";
}

bool is_waiting(const WrittenChannel& channel, const TestedCapacitor& tested) {
  return tested.verdict && !tested.verdict->keep && !answers::is_replaced(*channel.channel, tested);
}

}  // namespace

std::string channel_heading(const WrittenChannel& channel) {
  return channel.channel->name.empty() ? "" : "Channel " + channel.channel->name;
}

std::string meaning_in_words(const circuit::Circuit& circuit, const WrittenReading& reading) {
  const auto* probe = std::get_if<circuit::Probe>(&reading.measurement);
  if (probe == nullptr) return "Power off, " + measurement_in_words(circuit, reading.measurement);
  const auto* points = std::get_if<circuit::VoltsBetween>(probe);
  switch (reading.meaning) {
    case Meaning::direct_voltage:
      return "Direct voltage at the output, ideally none";
    case Meaning::half_supply:
      return "Voltage at the middle of the output stage";
    case Meaning::idling_current:
      return "Current at rest, as volts across " + resistors_across(circuit, *points);
    case Meaning::supply_current:
      return "Current from the supply, " + without_amps(probe_in_words(circuit, *probe));
    case Meaning::temperature:
      return "Temperature of " + probe_in_words(circuit, *probe);
    case Meaning::other:
      break;
  }
  const std::string words = probe_in_words(circuit, *probe);
  return points != nullptr ? "Volts in the circuit, from " + words : words;
}

std::string taken_in_words(const WrittenReading& reading,
                           const std::optional<circuit::BenchReading>& taken) {
  if (!taken) return {};
  const std::string shown =
      taken->value ? shown_in_words(reading.measurement, *taken->value) : std::string();
  switch (taken->firmness) {
    case circuit::Firmness::about:
      return "about " + shown;
    case circuit::Firmness::beyond_range:
      return "open";
    case circuit::Firmness::jumps:
      return "would not stand still";
    case circuit::Firmness::drifts_up:
      return "crept upwards";
    case circuit::Firmness::drifts_down:
      return "crept downwards";
    case circuit::Firmness::shown:
      break;
  }
  return shown;
}

std::string expected_in_words(const WrittenReading& reading) {
  if (!reading.expected) return {};
  if (reading.is_limit) {
    return as_written(reading.expected->low, *reading.unit) + " to " +
           as_written(reading.expected->high, *reading.unit);
  }
  const double middle = 0.5 * (reading.expected->low + reading.expected->high);
  const std::string shown = figure(middle, *reading.unit);
  const std::string ends =
      band(reading.expected->low, reading.expected->high, middle, *reading.unit);
  if (ends.empty()) return "about " + shown;
  return ends.substr(1, ends.size() - 2) + shown.substr(shown.rfind(' '));
}

std::string scope_in_words(const std::optional<Scope>& scope) {
  if (!scope) return "How far the work was to go was not written down.";
  switch (*scope) {
    case Scope::repair:
      return "Agreed was a repair: what is broken is put right, what works is left alone.";
    case Scope::service:
      return "Agreed was a service: it is measured and set, and what no longer keeps its limits is "
             "changed.";
    case Scope::restoration:
      break;
  }
  return "Agreed was a restoration: what ages is looked at part by part, and changed where that "
         "brings it nearer to what it was.";
}

Sentences found_words(const answers::Writeup& writeup) {
  Sentences sentences;
  for (const WrittenChannel& channel : writeup.channels) add_found(channel, sentences);
  sentences.insert(sentences.end(), writeup.job->notes.begin(), writeup.job->notes.end());
  if (sentences.empty()) sentences.emplace_back("Nothing was measured as it came.");
  return sentences;
}

Sentences done_words(const answers::Writeup& writeup) {
  Sentences sentences;
  for (const WrittenChannel& channel : writeup.channels) {
    const circuit::Circuit& circuit = channel.channel->circuit;
    for (const auto& replaced : channel.channel->replaced) {
      sentences.push_back(lead_in(channel) + replaced_words(circuit, replaced));
    }
    if (!channel.channel->sound.empty()) {
      const auto names = names_of(circuit, channel.channel->sound);
      sentences.push_back(fmt::format("{}{} {} tested out of the circuit and found good.",
                                      lead_in(channel),
                                      list_in_words(names),
                                      names.size() == 1 ? "was" : "were"));
    }
    std::size_t outside = 0;
    std::size_t compared = 0;
    for (const WrittenReading& reading : channel.readings) {
      if (reading.after && reading.expected) ++compared;
      if (reading.outside_after) ++outside;
    }
    if (compared == 0) continue;
    sentences.push_back(lead_in(channel) + "afterwards " +
                        count_words(compared - outside, compared) + ".");
  }
  if (sentences.empty()) sentences.emplace_back("It was measured, and nothing was changed.");
  return sentences;
}

Sentences not_done_words(const answers::Writeup& writeup) {
  Sentences sentences;
  const auto& scope = writeup.job->scope;
  if (scope == Scope::repair) {
    sentences.emplace_back(
        "Parts that work were left alone, whatever their age: a repair puts right what is broken, "
        "and every part that is changed without need is a risk of its own.");
  } else if (scope == Scope::restoration) {
    sentences.emplace_back(
        "Parts that keep their limits stayed where nothing is gained by a new one.");
  }
  for (const WrittenChannel& channel : writeup.channels) {
    if (!answers::was_worked_on(channel) && writeup.channels.size() > 1) {
      sentences.push_back(lead_in(channel) + "measured for comparison, and not worked on.");
    }
    if (const std::string unread = not_read_again(channel); !unread.empty()) {
      sentences.push_back(lead_in(channel) + unread);
    }
    if (const std::string kept = kept_limits(channel); !kept.empty()) {
      sentences.push_back(lead_in(channel) + kept);
    }
    for (const TestedCapacitor& tested : channel.capacitors) {
      if (!is_waiting(channel, tested)) continue;
      sentences.push_back(lead_in(channel) + tested.name +
                          " no longer keeps its limits and was not replaced" +
                          (scope == Scope::repair ? ": that goes beyond what was agreed." : "."));
    }
    if (!channel.untested.empty() && answers::was_worked_on(channel)) {
      sentences.push_back(
          fmt::format("{}not tested were the capacitors {}.",
                      lead_in(channel),
                      list_in_words(names_of(channel.channel->circuit, channel.untested))));
    }
  }
  if (sentences.empty()) sentences.emplace_back("Nothing that was agreed was left undone.");
  return sentences;
}

Sentences advice_words(const answers::Writeup& writeup) {
  Sentences sentences;
  for (const WrittenChannel& channel : writeup.channels) {
    for (const TestedCapacitor& tested : channel.capacitors) {
      if (!is_waiting(channel, tested)) continue;
      sentences.push_back(lead_in(channel) + tested.name + ". " +
                          recommended(*tested.verdict, writeup.job->scope));
    }
    for (const WrittenReading& reading : channel.readings) {
      if (!answers::is_left_outside(channel, reading)) continue;
      sentences.push_back(
          lead_in(channel) +
          outside_words(channel, reading, reading.after ? reading.after : reading.before) +
          " That is to be looked into before loudspeakers are connected.");
    }
  }
  sentences.emplace_back(
      "Should it sound thin or harsh, hum, smell, or run hotter than it used to, switch it off and "
      "have it looked at.");
  return sentences;
}

Sentences caution_words() {
  return {
      "There is mains voltage inside, and capacitors that hold their charge long after the plug "
      "is out. Leave the cover on.",
      "It is warm at rest, as such amplifiers are: leave its slots free, and nothing on top.",
      "Before it goes back its electrical safety is tested: earth, insulation, leakage. Where "
      "the law asks for a licence for such work, that law comes first."};
}

Sentences where_figures_come_from(const answers::Writeup& writeup) {
  Sentences sentences = {
      "Under \"should read\" stands the limit that is given for this amplifier; where there is "
      "none, "
      "the range in which 19 sound channels in 20 lie, from just switched on to warmed through, "
      "with the trimmers in their places and the new parts in.",
      "That range is calculated from the drawing and the parts' data, and is no measurement. \"As "
      "it "
      "came\" and \"as it left\" are what the meter showed."};
  for (const WrittenChannel& channel : writeup.channels) {
    if (channel.why_nothing_expected.empty()) continue;
    sentences.push_back(lead_in(channel) +
                        "no range could be calculated: " + channel.why_nothing_expected + ".");
  }
  return sentences;
}

std::string fate_in_words(const circuit::Channel& channel, const TestedCapacitor& tested) {
  if (answers::is_replaced(channel, tested)) return "replaced";
  if (!tested.verdict || tested.verdict->limits.empty()) return "not judged";
  return tested.verdict->keep ? "kept" : "to be replaced";
}

Sentences diagnose_commands(const answers::Writeup& writeup) {
  Sentences commands;
  for (const WrittenChannel& channel : writeup.channels) {
    const bool outside = std::any_of(
        channel.readings.begin(), channel.readings.end(), [&](const WrittenReading& reading) {
          return answers::is_left_outside(channel, reading);
        });
    if (!outside) continue;
    std::string command = "idlepoint diagnose " + writeup.job->file;
    if (!channel.channel->name.empty()) command += " --channel " + channel.channel->name;
    commands.push_back(command + (answers::was_worked_on(channel) ? " --after" : ""));
  }
  return commands;
}

}  // namespace idlepoint::report
