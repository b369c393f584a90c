#include "report/thermal_words.hpp"

#include <fmt/format.h>

#include <cmath>
#include <vector>

#include "report/figures.hpp"
#include "report/trimmer_words.hpp"
#include "report/words.hpp"
#include "values/constants.hpp"

namespace idlepoint::report {
namespace {

using answers::ThermalStory;
using circuit::Circuit;
using Kind = solve::ThermalTrouble::Kind;

// Two figures, never above the value: what holds is held by less, too.
std::string at_most(double k_per_w) {
  const double scale = std::pow(10.0, 1.0 - std::floor(std::log10(k_per_w)));
  return fmt::format("{:.2g} K/W", std::floor(k_per_w * scale + 1e-9) / scale);
}

std::string as_entered(double k_per_w) { return fmt::format("{:.3g} K/W", k_per_w); }

// Whole per cent of the track, on the safe side of where it begins to hold.
double safe_travel(double travel, double present) {
  const double per_cent = 100.0 * travel;
  return (travel < present ? std::floor(per_cent) : std::ceil(per_cent)) / 100.0;
}

std::vector<std::string> same_washer(const Circuit& circuit, circuit::PartId leader) {
  const auto& mounting = circuit.at(leader).mounting;
  std::vector<std::string> names;
  for (const auto& part : circuit.parts) {
    if (part.mounting.heatsink == mounting.heatsink &&
        part.mounting.washer_k_per_w == mounting.washer_k_per_w) {
      names.push_back(part.name);
    }
  }
  return names;
}

std::string setting_that_holds(const Circuit& circuit,
                               const answers::WhatWouldHold::Setting& setting) {
  const double present =
      std::get<circuit::TrimmerDetails>(circuit.at(setting.trimmer).details).travel;
  const double travel = safe_travel(setting.travel, present);
  const auto end = travel < present ? circuit::TrackEnd::a : circuit::TrackEnd::b;
  const auto& trimmer = circuit.at(setting.trimmer);
  std::string text = setting_in_words(circuit, trimmer, travel);
  if (travel > 0.0 && travel < 1.0) text += ", or nearer to " + end_in_words(circuit, trimmer, end);
  return text;
}

std::vector<std::string> sensors_on(const Circuit& circuit, circuit::HeatsinkId sink) {
  std::vector<std::string> names;
  for (const auto& part : circuit.parts) {
    const bool feels_less = part.mounting.heatsink == sink && part.mounting.coupling < 1.0;
    if (feels_less && !part.damage.loose) names.push_back(part.name);
  }
  return names;
}

void add_heatsink(const ThermalStory& story, std::vector<std::string>& lines) {
  const auto& circuit = *story.stage;
  const auto& remedies = story.remedies;
  const auto& sink = circuit.at(*story.trouble.heatsink);
  if (remedies.coupling) {
    lines.push_back(fmt::format("{} so mounted as to feel at least {:.0f} % of the rise of {}",
                                list_in_words(sensors_on(circuit, *story.trouble.heatsink)),
                                std::ceil(100.0 * *remedies.coupling),
                                sink.name));
  }
  if (remedies.heatsink_k_per_w) {
    lines.push_back(fmt::format("a heat sink of {} or less in the place of {}, which has {}",
                                at_most(*remedies.heatsink_k_per_w),
                                sink.name,
                                as_entered(sink.resistance_k_per_w)));
  }
}

void add_mounting(const ThermalStory& story, std::vector<std::string>& lines) {
  const auto& circuit = *story.stage;
  const auto& remedies = story.remedies;
  const auto& leader = circuit.at(story.trouble.part);
  for (const auto part : remedies.put_back) {
    lines.push_back(circuit.at(part).name + " back on its heat sink");
  }
  if (story.trouble.heatsink) add_heatsink(story, lines);
  if (remedies.washer_k_per_w) {
    lines.push_back(
        fmt::format("washers of {} or less under {}, where {} is entered",
                    *remedies.washer_k_per_w > 0.0 ? at_most(*remedies.washer_k_per_w) : "0 K/W",
                    list_in_words(same_washer(circuit, story.trouble.part)),
                    as_entered(leader.mounting.washer_k_per_w)));
  }
  if (remedies.free_air_k_per_w) {
    lines.push_back(fmt::format("a cooler on {} that brings it to {} or less from junction to air",
                                leader.name,
                                at_most(*remedies.free_air_k_per_w)));
  }
}

/// Below this a stage that meets no rest is cooked by its watts, not by their coming back.
constexpr double little_comes_back = 0.5;

std::string what_happens(const ThermalStory& story) {
  const auto& circuit = *story.stage;
  const auto& trouble = story.trouble;
  const auto& leader = circuit.at(trouble.part);
  const std::string so = story.at_preset ? " set for what the file asks" : "";
  const std::string where =
      trouble.heatsink
          ? fmt::format("{} at {}", circuit.at(*trouble.heatsink).name, celsius(trouble.heatsink_k))
          : std::string("in free air");
  const std::string gain =
      fmt::format(" Each extra watt comes back as {:.2f} W there.", trouble.loop_gain);
  const std::string limit =
      leader.type ? celsius(circuit.at(*leader.type).ratings.max_junction_temperature_k) : "";
  if (trouble.kind == Kind::too_hot) {
    return fmt::format(
        "TOO HOT: do not leave this stage on{}. As it warms up it comes to rest only with the "
        "junction of {} at {}, {}; its maximum is {}.{}",
        so,
        leader.name,
        celsius(trouble.junction_k),
        where,
        limit,
        gain);
  }
  if (trouble.loop_gain < little_comes_back) {
    return fmt::format(
        "TOO HOT: do not leave this stage on{}. As it warms up the junction of {} passes {}, {}, "
        "and comes to no rest below 400 C. Little of its heat comes back ({:.2f} W of a watt): it "
        "is simply more than its mounting can carry.",
        so,
        leader.name,
        limit,
        where,
        trouble.loop_gain);
  }
  return fmt::format(
      "RUNS AWAY: do not leave this stage on{}. As it warms up it finds no rest. {} leads: its "
      "junction passes {}, {}, and climbs on.{}",
      so,
      leader.name,
      limit,
      where,
      gain);
}

std::vector<std::string> what_would_hold(const ThermalStory& story) {
  std::vector<std::string> lines;
  for (const auto& setting : story.remedies.settings) {
    lines.push_back(setting_that_holds(*story.stage, setting));
  }
  add_mounting(story, lines);
  if (story.remedies.ambient_k) {
    const double whole_c = std::floor(values::celsius_from_kelvin(*story.remedies.ambient_k));
    lines.push_back(
        fmt::format("a room of {} or less", figure(whole_c, answers::ReadingUnit::celsius)));
  }
  return lines;
}

const char* const nothing_holds =
    "No trimmer, heat sink, washer or cooler room alone would hold it: find what drives it so "
    "hard.";

}  // namespace

std::string advice(const ThermalStory& story) {
  const auto lines = what_would_hold(story);
  if (lines.empty()) return nothing_holds;
  return fmt::format("Each alone and only just would hold it: {}.", fmt::join(lines, "; "));
}

std::string trouble_section(const ThermalStory& story, const Page& page) {
  std::string text = fold(what_happens(story), page) + "\n";
  const auto lines = what_would_hold(story);
  if (lines.empty()) return text + fold(nothing_holds, page);
  text += fold("What would hold it, each alone and only just, all else as it is:", page);
  for (const auto& line : lines) text += fold(line, page, 2, 4);
  return text;
}

std::string text_of(const ThermalStory& story, const Page& page) {
  const auto& circuit = *story.stage;
  std::string text = opening(circuit, story.conditions, story.changes, page);
  text += trimmers_line(circuit, page) + "\n" + trouble_section(story, page);
  const std::string warnings = warnings_list(story.warnings, page);
  if (!warnings.empty()) text += "\n" + warnings;
  text += "\n" + taken_as_given(circuit, story.conditions, page);
  return text + standing_caution(circuit, page);
}

}  // namespace idlepoint::report
