#include "report/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "answers/taken_out.hpp"
#include "report/figures.hpp"
#include "values/format.hpp"

namespace idlepoint::report {
namespace {

using circuit::Circuit;
using circuit::PartKind;

std::string name_of(const Circuit& circuit, circuit::PartId id) { return circuit.at(id).name; }
std::string name_of(const Circuit& circuit, circuit::HeatsinkId id) { return circuit.at(id).name; }
std::string name_of(const Circuit& circuit, circuit::RailId id) {
  return circuit.at(circuit.at(id).node).name;
}

struct ProbeInWords {
  const Circuit& circuit;

  std::string operator()(const circuit::VoltsBetween& points) const {
    return fmt::format("{} to {}",
                       circuit::node_in_words(circuit, points.a),
                       circuit::node_in_words(circuit, points.b));
  }
  std::string operator()(const circuit::AmpsThrough& amps) const {
    if (const auto* rail = std::get_if<circuit::RailId>(&amps.what)) {
      return "amps from " + name_of(circuit, *rail);
    }
    const auto& part = circuit.at(std::get<circuit::PartId>(amps.what));
    if (circuit::is_bipolar(part.kind)) return "collector amps of " + part.name;
    if (circuit::is_fet(part.kind)) return "drain amps of " + part.name;
    return "amps through " + part.name;
  }
  std::string operator()(const circuit::WattsIn& watts) const {
    if (const auto* rail = std::get_if<circuit::RailId>(&watts.what)) {
      return "watts from " + name_of(circuit, *rail);
    }
    return "watts in " + name_of(circuit, std::get<circuit::PartId>(watts.what));
  }
  std::string operator()(const circuit::CelsiusOf& celsius) const {
    return std::visit([this](auto id) { return name_of(circuit, id); }, celsius.what);
  }
};

std::string volts_of(const circuit::Rail& rail, double scale) {
  const double value = circuit::source_v(rail) * scale;
  return (value > 0.0 ? "+" : "") + values::format_value(value, values::Unit::volt);
}

std::string rail_in_words(const Circuit& circuit, const circuit::Rail& rail, double scale) {
  const std::string& name = circuit.at(rail.node).name;
  if (rail.lost) return name + " lost";
  std::string text = name + " " + volts_of(rail, scale);
  if (rail.measured_v) {
    text += fmt::format(" (as measured; {} on the drawing)",
                        values::format_value(rail.nominal_v, values::Unit::volt));
  }
  return text;
}

std::string rails_in_words(const Circuit& circuit, double scale) {
  if (circuit.rails.empty()) return "No rails";
  std::vector<std::string> rails;
  for (const auto& rail : circuit.rails) rails.push_back(rail_in_words(circuit, rail, scale));
  const std::string list = list_in_words(rails);
  if (scale == 1.0) return (rails.size() == 1 ? "Rail " : "Rails ") + list;
  return fmt::format("Rails at {}: {}", percent(scale), list);
}

std::vector<std::string> names_where(const Circuit& circuit, auto&& wanted) {
  std::vector<std::string> names;
  for (const auto& part : circuit.parts) {
    if (!part.damage.absent && wanted(part)) names.push_back(part.name);
  }
  return names;
}

bool is_tight_capacitor(const circuit::Part& part) {
  const auto* capacitor = std::get_if<circuit::CapacitorDetails>(&part.details);
  return part.kind == PartKind::capacitor && capacitor != nullptr && !capacitor->leakage_ohm &&
         !part.damage.is_link;
}

bool has_assumed_beta(const circuit::Part& part) {
  const auto* thermistor = std::get_if<circuit::ThermistorDetails>(&part.details);
  return thermistor != nullptr && thermistor->beta_assumed;
}

// "Q606, Q607, D601 (sees 85 % of the rise) on HS601", one a heat sink.
std::vector<std::string> mountings(const Circuit& circuit) {
  std::vector<std::string> given;
  for (std::size_t index = 0; index < circuit.heatsinks.size(); ++index) {
    std::vector<std::string> names;
    for (const auto& part : circuit.parts) {
      const auto& mounting = part.mounting;
      if (mounting.heatsink != circuit::HeatsinkId{index} || part.damage.absent ||
          part.damage.loose) {
        continue;
      }
      names.push_back(part.name);
      if (mounting.coupling != 1.0) {
        names.back() += fmt::format(" (feels {} of its rise)", percent(mounting.coupling));
      }
    }
    if (!names.empty()) {
      given.push_back(list_in_words(names) + " on " + circuit.heatsinks[index].name);
    }
  }
  return given;
}

std::vector<std::string> assumptions(const Circuit& circuit, const solve::Conditions& conditions) {
  std::vector<std::string> given;
  const std::string room = values::format_value(circuit.ambient_k, values::Unit::temperature);
  if (conditions.heat == solve::HeatState::cold) {
    given.push_back("every part at " + room);
  } else {
    for (auto& mounted : mountings(circuit)) given.push_back(std::move(mounted));
    given.push_back(
        fmt::format("what is on no heat sink stays at {} unless its type says how it "
                    "stands in free air",
                    room));
  }
  given.emplace_back("rails as entered");
  if (!names_where(circuit, is_tight_capacitor).empty())
    given.emplace_back("capacitors do not leak");
  const auto stand_ins = names_where(circuit, [](const circuit::Part& part) {
    return part.kind == PartKind::hold || part.kind == PartKind::feed;
  });
  if (!stand_ins.empty()) {
    given.push_back(list_in_words(stand_ins) + " in place of what is not drawn");
  }
  for (const auto& name : names_where(circuit, has_assumed_beta)) {
    given.push_back(fmt::format("a beta of 3500 K for {}, as none was entered", name));
  }
  const auto loads =
      names_where(circuit, [](const circuit::Part& part) { return part.kind == PartKind::load; });
  if (!loads.empty()) {
    given.push_back(list_in_words(loads) +
                    (conditions.load_connected ? " connected" : " not connected"));
  }
  return given;
}

}  // namespace

std::string probe_in_words(const Circuit& circuit, const circuit::Probe& probe) {
  return std::visit(ProbeInWords{circuit}, probe);
}

std::string count_in_words(std::size_t count, const char* what) {
  return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
}

std::vector<std::string> names_of(const Circuit& circuit,
                                  const std::vector<circuit::PartId>& parts) {
  std::vector<std::string> names;
  for (const circuit::PartId part : parts) names.push_back(circuit.at(part).name);
  return names;
}

std::string list_in_words(const std::vector<std::string>& names) {
  if (names.empty()) return {};
  if (names.size() == 1) return names.front();
  return fmt::format("{} and {}", fmt::join(names.begin(), names.end() - 1, ", "), names.back());
}

std::string owners_of(const Circuit& circuit, const std::vector<circuit::Parameter>& parameters) {
  std::vector<std::string> names;
  for (const auto& parameter : parameters) {
    names.push_back(
        std::visit([&](auto owner) { return name_of(circuit, owner); }, parameter.owner));
  }
  return fmt::format("{}", fmt::join(names, " "));
}

bool is_variable_resistor(const circuit::Part& trimmer) {
  const auto& track = std::get<circuit::TrimmerDetails>(trimmer.details);
  const auto second_end = circuit::lead(trimmer, 2);
  return track.spare != circuit::SpareLeg::none ||
         (second_end && second_end == circuit::lead(trimmer, 1));
}

std::string setting_in_words(const Circuit& circuit, const circuit::Part& trimmer, double travel) {
  if (is_variable_resistor(trimmer)) {
    return fmt::format("{} at {}", trimmer.name, values::format_ohms(travel * trimmer.value));
  }
  const auto first = circuit::lead(trimmer, 0);
  return fmt::format("{} {} of the way from {}",
                     trimmer.name,
                     percent(travel),
                     first ? circuit::node_in_words(circuit, *first) : "its first-named end");
}

std::string opening(const Circuit& circuit,
                    const solve::Conditions& conditions,
                    const std::vector<std::string>& changes,
                    const Page& page) {
  std::string text = circuit.title.empty() ? circuit.file : circuit.title;
  text += ". " + rails_in_words(circuit, conditions.rails) + ", room " +
          values::format_value(circuit.ambient_k, values::Unit::temperature) + ", " +
          (conditions.load_connected ? "load connected." : "no load.");
  const std::string out = answers::names_taken_out(circuit);
  if (!out.empty()) text += " Taken out: " + out + ".";
  if (!changes.empty()) text += " Changed from the drawing: " + list_in_words(changes) + ".";
  return fold(text, page);
}

std::string trimmers_line(const Circuit& circuit, const Page& page) {
  std::vector<std::string> settings;
  for (const auto& part : circuit.parts) {
    if (part.kind == PartKind::trimmer && !part.damage.absent) {
      const auto& track = std::get<circuit::TrimmerDetails>(part.details);
      settings.push_back(setting_in_words(circuit, part, track.travel));
    }
  }
  return settings.empty() ? "" : fold("Trimmers: " + list_in_words(settings) + ".", page);
}

std::string taken_as_given(const Circuit& circuit,
                           const solve::Conditions& conditions,
                           const Page& page) {
  return fold(fmt::format("Taken as given: {}.", fmt::join(assumptions(circuit, conditions), "; ")),
              page);
}

std::string spread_of_parts(const Circuit& circuit, const Page& page) {
  const auto transistors = names_where(
      circuit, [](const circuit::Part& part) { return circuit::is_transistor(part.kind); });
  if (transistors.empty() || circuit.adjustments.empty()) {
    return fold("Nominal parts, without bands: real parts differ, and so will the readings.", page);
  }
  return fold(
      "Nominal parts, without bands: real transistors differ, and a sound stage set like this "
      "can "
      "carry half or double the standing current shown, or be further off. That is why every "
      "trimmer "
      "starts at its safe end.",
      page);
}

namespace {

bool is_sampled(const answers::ReadingValue& reading) {
  return reading.band && reading.band->bends;
}

std::vector<std::string> sampled_readings(const std::vector<answers::ReadingValue>& readings,
                                          const std::optional<answers::ColdMoment>& cold) {
  std::vector<std::string> names;
  for (std::size_t index = 0; index < readings.size(); ++index) {
    const bool was_cold = cold && is_sampled(cold->readings.at(index));
    if (is_sampled(readings[index]) || was_cold) names.push_back("`" + readings[index].name + "`");
  }
  return names;
}

/// What became of sampled stages that are in no band.
std::string lost_in_words(const std::vector<answers::ReadingValue>& readings) {
  double lost = 0.0;
  for (const answers::ReadingValue& reading : readings) {
    if (reading.band) lost = std::max(lost, reading.band->lost);
  }
  if (lost == 0.0) return {};
  const double in_100 = 100.0 * lost;
  return fmt::format(
      " {} in 100 of those would find no rest at this setting but run away or get too hot; they "
      "are not in the brackets. Start at the safe end.",
      in_100 < 1.0 ? "Less than one" : fmt::format("{:.0f}", in_100));
}

}  // namespace

std::string bands_in_words(const Circuit& circuit,
                           const std::vector<answers::ReadingValue>& readings,
                           const std::optional<answers::ColdMoment>& cold,
                           const Page& page) {
  std::string text =
      "In brackets: what 19 sound stages in 20 would show, as far as the tolerances "
      "and spreads entered tell";
  if (!circuit.adjustments.empty()) text += ", the trimmers as set here and not yet adjusted";
  text += ".";
  const std::vector<std::string> bent = sampled_readings(readings, cold);
  if (!bent.empty()) {
    text += fmt::format(
        " Those of {} bend too far for a sum of tolerances and are the middle of {} stages drawn "
        "by lot.",
        list_in_words(bent),
        answers::band_samples);
    text += lost_in_words(readings);
  }
  std::vector<std::string> exact;
  for (const circuit::Part& part : circuit.parts) {
    if (!part.type || part.damage.absent) continue;
    const circuit::PartType& type = circuit.at(*part.type);
    const bool is_known = std::find(exact.begin(), exact.end(), type.name) != exact.end();
    if (type.spreads.empty() && !is_known) exact.push_back(type.name);
  }
  if (!exact.empty()) {
    text += fmt::format(" {} {} no spread and {} as exact: real ones widen the brackets.",
                        list_in_words(exact),
                        exact.size() == 1 ? "has" : "have",
                        exact.size() == 1 ? "counts" : "count");
  }
  return fold(text, page);
}

std::string warnings_list(const std::vector<std::string>& warnings, const Page& page) {
  if (warnings.empty()) return {};
  std::string text = "Worth knowing:\n";
  for (const auto& warning : warnings) text += fold(warning, page, 2, 4);
  return text;
}

std::string standing_caution(const Circuit& circuit, const Page& page) {
  const std::string caution =
      "Worked out from the values entered: it is no measurement, and no leave to apply power.";
  const bool has_trimmers = !circuit.adjustments.empty();
  return fold(
      caution + (has_trimmers ? " Begin at the safe end, with the current limited and the "
                                "loudspeakers off."
                              : " Begin with the current limited and the loudspeakers off."),
      page);
}

}  // namespace idlepoint::report
