#include "answers/writeup.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "answers/at_rail.hpp"
#include "answers/emitter_resistors.hpp"
#include "answers/preset.hpp"
#include "answers/readings.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Channel;
using circuit::Circuit;
using circuit::PartId;
using circuit::Probe;

Meaning meaning_of_volts(const Circuit& circuit, const circuit::VoltsBetween& volts) {
  const auto output = circuit::output_node(circuit);
  const bool against_ground = volts.a == circuit::ground || volts.b == circuit::ground;
  if (output && against_ground && (volts.a == *output || volts.b == *output)) {
    const OutermostRails rails = outermost_rails(circuit, {});
    return rails.low_v < 0.0 && rails.high_v > 0.0 ? Meaning::direct_voltage : Meaning::half_supply;
  }
  const auto resistors = resistors_read(circuit, volts);
  const bool is_emitter = resistors && (resistors->second || resistors->is_emitter_resistor);
  return is_emitter ? Meaning::idling_current : Meaning::other;
}

Meaning meaning_of(const Circuit& circuit, const circuit::Measurement& measurement) {
  const auto* probe = std::get_if<Probe>(&measurement);
  if (probe == nullptr) return Meaning::other;
  if (const auto* volts = std::get_if<circuit::VoltsBetween>(probe)) {
    return meaning_of_volts(circuit, *volts);
  }
  if (std::holds_alternative<circuit::CelsiusOf>(*probe)) return Meaning::temperature;
  const auto* amps = std::get_if<circuit::AmpsThrough>(probe);
  if (amps == nullptr) return Meaning::other;
  const auto* part = std::get_if<PartId>(&amps->what);
  const bool is_fuse = part != nullptr && circuit.at(*part).kind == circuit::PartKind::fuse;
  return part == nullptr || is_fuse ? Meaning::supply_current : Meaning::other;
}

// One line for each measurement, in the order of the job.
std::vector<WrittenReading> written_readings_of(const Channel& channel) {
  std::vector<WrittenReading> lines;
  for (const circuit::Measured& measured : channel.measured) {
    auto line = std::find_if(lines.begin(), lines.end(), [&](const WrittenReading& one) {
      return circuit::is_same_measurement(one.measurement, measured.reading.measurement);
    });
    if (line == lines.end()) {
      WrittenReading fresh;
      fresh.name = measured.reading.name;
      fresh.measurement = measured.reading.measurement;
      fresh.meaning = meaning_of(channel.circuit, fresh.measurement);
      line = lines.insert(lines.end(), std::move(fresh));
    }
    (measured.when == circuit::When::before ? line->before : line->after) = measured.reading;
  }
  return lines;
}

// The channel as it was left, with every measurement with the power on among its readings.
Circuit with_measurements(const Channel& channel, const std::vector<WrittenReading>& lines) {
  Circuit circuit = channel.circuit;
  for (const WrittenReading& line : lines) {
    const auto* probe = std::get_if<Probe>(&line.measurement);
    if (probe == nullptr || circuit::find_reading(circuit, line.name)) continue;
    circuit.readings.push_back({.name = line.name, .probe = *probe, .limit = {}, .place = {}});
  }
  return circuit;
}

std::optional<Setup> setup_of(const Channel& channel, const Circuit& circuit) {
  auto checked = circuit::check_circuit(circuit);
  if (!checked.has_value()) return std::nullopt;
  Setup setup{*checked, {}, {}, {}};
  for (const auto& replaced : channel.replaced) {
    auto edited = circuit::apply(setup.stage, replaced.edit);
    if (auto* stage = std::get_if<circuit::CheckedCircuit>(&edited)) {
      setup.stage = std::move(*stage);
    }
  }
  setup.conditions.heat = usual_state(*setup.stage);
  return setup;
}

/// The readings of a sound channel, just switched on and warmed through; the second may be empty.
struct Sound {
  std::vector<ReadingValue> readings;
  std::vector<ReadingValue> beside;
};

template <class Answer>
Sound sound_of(Answer&& answer) {
  Sound sound{std::move(answer.readings), {}};
  if (answer.cold) sound.beside = std::move(answer.cold->readings);
  return sound;
}

std::optional<Sound> predict_sound(const Setup& setup) {
  if (!setup.stage->adjustments.empty()) {
    auto preset = ask_preset(setup);
    auto* answer = std::get_if<Preset>(&preset);
    if (answer != nullptr && !answer->refused) return sound_of(std::move(*answer));
  }
  auto outcome = ask_readings(setup);
  auto* answer = std::get_if<Readings>(&outcome);
  if (answer == nullptr) return std::nullopt;
  return sound_of(std::move(*answer));
}

void widen(std::optional<Band>& band, const ReadingValue& reading) {
  const auto& own = reading.metered_band ? reading.metered_band : reading.band;
  const Band one = own ? *own : Band{reading.value, reading.value};
  if (!band) {
    band = one;
    return;
  }
  band->low = std::min(band->low, one.low);
  band->high = std::max(band->high, one.high);
}

bool is_taken_outside(const std::optional<circuit::BenchReading>& taken,
                      const WrittenReading& line) {
  if (!taken || !taken->value || !line.expected) return false;
  if (taken->firmness != circuit::Firmness::shown) return false;
  const double value = in_own_unit(*taken->value, *line.unit);
  return value < line.expected->low || value > line.expected->high;
}

void expect(WrittenReading& line, const Sound& sound) {
  for (const auto* list : {&sound.readings, &sound.beside}) {
    for (const ReadingValue& reading : *list) {
      if (reading.name != line.name) continue;
      line.unit = reading.unit;
      if (reading.limit) {
        line.is_limit = true;
        line.expected = Band{in_own_unit(reading.limit->low, reading.unit),
                             in_own_unit(reading.limit->high, reading.unit)};
      } else {
        widen(line.expected, reading);
      }
    }
  }
  line.outside_before = is_taken_outside(line.before, line);
  line.outside_after = is_taken_outside(line.after, line);
}

PartId changed_part(const circuit::Replaced& replaced) {
  if (const auto* type = std::get_if<circuit::SetType>(&replaced.edit)) return type->part;
  return std::get<circuit::SetValue>(replaced.edit).part;
}

std::vector<PartId> untested_capacitors(const Channel& channel) {
  std::vector<PartId> untested;
  for (std::size_t index = 0; index < channel.circuit.parts.size(); ++index) {
    const PartId part{index};
    if (channel.circuit.at(part).kind != circuit::PartKind::capacitor) continue;
    const bool tested = std::any_of(channel.capacitor_tests.begin(),
                                    channel.capacitor_tests.end(),
                                    [&](const auto& test) { return test.part == part; });
    const bool replaced = std::any_of(channel.replaced.begin(),
                                      channel.replaced.end(),
                                      [&](const auto& one) { return changed_part(one) == part; });
    if (!tested && !replaced) untested.push_back(part);
  }
  return untested;
}

WrittenChannel write_channel(const Channel& channel) {
  WrittenChannel written{&channel, written_readings_of(channel)};
  written.untested = untested_capacitors(channel);
  const auto setup = setup_of(channel, with_measurements(channel, written.readings));
  if (!setup) {
    written.why_nothing_expected = "its drawing does not pass its checks";
  } else if (const auto sound = predict_sound(*setup)) {
    for (WrittenReading& line : written.readings) expect(line, *sound);
  } else {
    written.why_nothing_expected = "its drawing finds no state at rest";
  }
  if (setup && !channel.capacitor_tests.empty()) {
    auto leaks = ask_leaks(*setup);
    if (auto* found = std::get_if<CapacitorLeaks>(&leaks)) written.leaks = std::move(*found);
  }
  written.capacitors = judge_tests(channel, written.leaks ? &*written.leaks : nullptr);
  return written;
}

}  // namespace

bool is_replaced(const Channel& channel, const TestedCapacitor& tested) {
  return std::any_of(channel.replaced.begin(), channel.replaced.end(), [&](const auto& one) {
    return channel.circuit.at(changed_part(one)).name == tested.name;
  });
}

Writeup ask_writeup(const circuit::Job& job) {
  Writeup writeup{&job, {}};
  for (const Channel& channel : job.channels) writeup.channels.push_back(write_channel(channel));
  return writeup;
}

bool was_worked_on(const WrittenChannel& channel) noexcept {
  return !channel.channel->replaced.empty() ||
         std::any_of(channel.readings.begin(),
                     channel.readings.end(),
                     [](const WrittenReading& reading) { return reading.after.has_value(); });
}

bool is_left_outside(const WrittenChannel& channel, const WrittenReading& reading) noexcept {
  if (reading.after) return reading.outside_after;
  return reading.outside_before && !was_worked_on(channel);
}

bool is_good(const Writeup& writeup) noexcept {
  for (const WrittenChannel& channel : writeup.channels) {
    for (const WrittenReading& line : channel.readings) {
      if (is_left_outside(channel, line)) return false;
    }
    for (const TestedCapacitor& tested : channel.capacitors) {
      if (tested.verdict && !tested.verdict->keep && !is_replaced(*channel.channel, tested)) {
        return false;
      }
    }
  }
  return true;
}

}  // namespace idlepoint::answers
