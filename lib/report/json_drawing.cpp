#include "report/json_drawing.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "circuit/part_value.hpp"
#include "report/figures.hpp"
#include "report/hot_words.hpp"
#include "report/page.hpp"
#include "report/readings_table.hpp"
#include "report/thermal_words.hpp"
#include "report/trimmer_states_words.hpp"
#include "report/trimmer_words.hpp"
#include "report/words.hpp"
#include "values/format.hpp"

namespace idlepoint::report {
namespace {

using answers::SheetChannel;
using circuit::Circuit;
using circuit::Part;
using circuit::PartKind;
using values::Unit;

// The page folds by itself.
constexpr Page endless{1000000, false};

std::string kind_in_words(PartKind kind) {
  switch (kind) {
    case PartKind::npn:
      return "NPN transistor";
    case PartKind::pnp:
      return "PNP transistor";
    case PartKind::n_jfet:
      return "N-channel junction FET";
    case PartKind::p_jfet:
      return "P-channel junction FET";
    case PartKind::n_mosfet:
      return "N-channel MOSFET";
    case PartKind::p_mosfet:
      return "P-channel MOSFET";
    case PartKind::hold:
      return "stand-in: holds its volts";
    case PartKind::feed:
      return "stand-in: feeds its current";
    case PartKind::load:
      return "loudspeaker or load";
    default:
      return std::string(circuit::keyword(kind));
  }
}

/// What stands on it, or what it says on the drawing beside the name.
std::string part_value_in_words(const Circuit& circuit, const Part& part) {
  if (part.type) return circuit.at(*part.type).name;
  if (part.kind == PartKind::link) return "";
  if (const auto* lamp = std::get_if<circuit::LampDetails>(&part.details)) {
    return values::format_value(lamp->rated_v, Unit::volt) + " " +
           values::format_value(lamp->rated_w, Unit::watt);
  }
  const Unit unit = circuit::unit_of_value(part.kind);
  return unit == Unit::ohm ? values::format_ohms(part.value, 4)
                           : values::format_value(part.value, unit);
}

/// What else of it is to be seen on the drawing or on the board.
struct MoreOfPart {
  const Circuit& circuit;
  const Part& part;

  std::string operator()(const circuit::ResistorDetails& details) const {
    return details.power_w ? values::format_value(*details.power_w, Unit::watt) : "";
  }
  std::string operator()(const circuit::CapacitorDetails& details) const {
    return details.rated_v ? values::format_value(*details.rated_v, Unit::volt) : "";
  }
  std::string operator()(const circuit::SeriesDetails& details) const {
    return details.resistance_ohm > 0.0 ? values::format_ohms(details.resistance_ohm) + " in itself"
                                        : "";
  }
  std::string operator()(const circuit::TrimmerDetails& details) const {
    std::string text = details.turns == 1.0 ? "" : fmt::format("{:g} turns, ", details.turns);
    switch (details.spare) {
      case circuit::SpareLeg::tied:
        return text + "spare leg tied to the wiper";
      case circuit::SpareLeg::free:
        return text + "spare leg free";
      case circuit::SpareLeg::unknown:
        return text + "spare leg: look, tied or free?";
      case circuit::SpareLeg::none:
        break;
    }
    return text.substr(0, text.empty() ? 0 : text.size() - 2);
  }
  std::string operator()(const circuit::DiodeDetails& details) const {
    return details.junctions == 1 ? "" : fmt::format("{} junctions", details.junctions);
  }
  template <class Other>
  std::string operator()(const Other&) const {
    return {};
  }
};

std::string more_in_words(const Circuit& circuit, const Part& part) {
  std::vector<std::string> more;
  const std::string own = std::visit(MoreOfPart{circuit, part}, part.details);
  if (!own.empty()) more.push_back(own);
  if (part.mounting.heatsink) more.push_back("on " + circuit.at(*part.mounting.heatsink).name);
  if (part.damage.taken_out) more.emplace_back("taken out");
  return fmt::format("{}", fmt::join(more, ", "));
}

Json json_leads(const Circuit& circuit, const Part& part) {
  Json leads = Json::array();
  const auto names = circuit::lead_names(part.kind);
  for (std::size_t k = 0; k < names.size(); ++k) {
    const auto node = circuit::lead(part, k);
    Json lead;
    lead["lead"] = names[k];
    lead["node"] = node ? Json(circuit.at(*node).name) : Json(nullptr);
    if (node) lead["words"] = circuit::node_in_words(circuit, *node);
    leads.push_back(std::move(lead));
  }
  return leads;
}

Json json_drawn_part(const Circuit& circuit, const Part& part, bool load_connected) {
  Json object;
  object["name"] = part.name;
  object["kind"] = circuit::keyword(part.kind);
  object["kind_in_words"] = kind_in_words(part.kind);
  object["leads"] = json_leads(circuit, part);
  object["value"] = part_value_in_words(circuit, part);
  object["more"] = more_in_words(circuit, part);
  // No direct current can flow: open in the drawing as solved, though not on the board.
  const auto* capacitor = std::get_if<circuit::CapacitorDetails>(&part.details);
  const bool is_open = (capacitor != nullptr && !capacitor->leakage_ohm && !part.damage.is_link) ||
                       (part.kind == PartKind::load && !load_connected) || part.damage.absent;
  object["open"] = is_open;
  if (const auto* track = std::get_if<circuit::TrimmerDetails>(&part.details)) {
    object["track_ohm"] = part.value;
    object["end_ohm"] = track->end_resistance_ohm + track->wiper_resistance_ohm;
    object["travel"] = track->travel;
    object["is_variable_resistor"] = is_variable_resistor(part);
    object["end_a"] = end_in_words(circuit, part, circuit::TrackEnd::a);
    object["end_b"] = end_in_words(circuit, part, circuit::TrackEnd::b);
  }
  return object;
}

Json json_named_reading(const Circuit& circuit, const circuit::Reading& reading) {
  const auto unit = answers::unit_of(reading.probe);
  Json object;
  object["name"] = reading.name;
  object["where"] = probe_in_words(circuit, reading.probe);
  object["unit"] = answers::symbol(unit);
  if (reading.limit) {
    object["limit"] = as_written(answers::in_own_unit(reading.limit->low, unit), unit) + " to " +
                      as_written(answers::in_own_unit(reading.limit->high, unit), unit);
  }
  return object;
}

Json json_rail(const Circuit& circuit, const circuit::Rail& rail) {
  Json object;
  object["node"] = circuit.at(rail.node).name;
  object["volts"] = circuit::source_v(rail);
  return object;
}

/// Each sentence about a trimmer, in the order the preset report says them.
Json trimmer_sentences(const Circuit& circuit, const answers::TrimmerAnswer& answer) {
  Json object;
  object["trimmer"] = circuit.at(answer.trimmer).name;
  object["heading"] = trimmer_heading(circuit, answer);
  object["safe"] = safe_place(circuit, answer);
  Json rest = Json::array();
  for (std::string sentence : {answer.is_of_whole ? only_with_all_parts(circuit, answer) : "",
                               expected_place(circuit, answer),
                               found_in_circuit(circuit, answer),
                               other_places(circuit, answer),
                               how_fast(circuit, answer),
                               both_ends(circuit, answer)}) {
    if (!sentence.empty()) rest.push_back(std::move(sentence));
  }
  object["sentences"] = std::move(rest);
  object["lifted"] = lifted_wiper(circuit, answer);
  return object;
}

Json lines_of(const std::string& text) {
  Json lines = Json::array();
  std::size_t begin = 0;
  while (begin < text.size()) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    if (end > begin) lines.push_back(text.substr(begin, end - begin));
    begin = end + 1;
  }
  return lines;
}

void add_preset_words(Json& words, const answers::Preset& preset) {
  words["trimmers"] = Json::array();
  for (const std::size_t index : preset.order) {
    words["trimmers"].push_back(trimmer_sentences(*preset.stage, preset.adjustments[index]));
  }
  words["goes_round_twice"] = preset.goes_round_twice;
}

}  // namespace

Json json_drawing(const SheetChannel& channel) {
  const Circuit& circuit = *channel.setup.stage;
  Json object;
  object["title"] = circuit.title.empty() ? circuit.file : circuit.title;
  object["file"] = circuit.file;
  object["nodes"] = Json::array();
  for (const auto& node : circuit.nodes) object["nodes"].push_back(node.name);
  object["rails"] = Json::array();
  for (const auto& rail : circuit.rails) object["rails"].push_back(json_rail(circuit, rail));
  const auto output = circuit::output_node(circuit);
  object["output"] = output ? Json(circuit.at(*output).name) : Json(nullptr);
  object["parts"] = Json::array();
  for (const auto& part : circuit.parts) {
    object["parts"].push_back(
        json_drawn_part(circuit, part, channel.setup.conditions.load_connected));
  }
  object["readings"] = Json::array();
  for (const auto& reading : circuit.readings) {
    object["readings"].push_back(json_named_reading(circuit, reading));
  }
  return object;
}

Json json_words(const SheetChannel& channel) {
  const answers::Readings& readings = channel.readings;
  const answers::Preset* preset =
      channel.preset && !channel.preset->refused ? &*channel.preset : nullptr;
  const Circuit& circuit = preset != nullptr ? *preset->stage : *readings.stage;
  const auto& shown = preset != nullptr ? preset->readings : readings.readings;
  const auto& cold = preset != nullptr ? preset->cold : readings.cold;
  const auto& state = preset != nullptr ? *preset->state : readings.state;
  Json words;
  words["opening"] = opening(circuit, state.conditions(), readings.changes, endless);
  words["trimmers_stand"] = trimmers_line(circuit, endless);
  words["remarks"] = lines_of(readings_remarks(circuit, state, shown, endless));
  words["bands"] = bands_in_words(circuit, shown, cold, endless);
  words["taken_as_given"] = taken_as_given(circuit, state.conditions(), endless);
  words["caution"] = standing_caution(circuit, endless);
  if (readings.thermal) {
    words["warming"] =
        lines_of(warming_section(*readings.stage, readings.state, *readings.thermal, endless));
  }
  words["hot"] = lines_of(hot_section(*readings.stage, readings.hot, endless));
  if (preset != nullptr) add_preset_words(words, *preset);
  if (channel.preset && channel.preset->refused) words["no_preset"] = *channel.preset->refused;
  if (channel.no_preset) words["no_preset"] = text_of(*channel.no_preset, endless);
  if (channel.runs_away) words["runs_away"] = lines_of(text_of(*channel.runs_away, endless));
  if (!channel.no_swap.empty()) words["no_swap"] = channel.no_swap;
  return words;
}

}  // namespace idlepoint::report
