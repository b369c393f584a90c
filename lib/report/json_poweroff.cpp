#include "report/json_poweroff.hpp"

namespace idlepoint::report {
namespace {

using answers::OffFigure;
using answers::OffPoint;
using answers::OffRange;
using answers::OffSuspect;

constexpr std::size_t at(OffRange range) { return static_cast<std::size_t>(range); }

const char* word(OffPoint::Group group) {
  switch (group) {
    case OffPoint::Group::asked:
      return "reading";
    case OffPoint::Group::junction:
      return "junction";
    case OffPoint::Group::resistor:
      break;
  }
  return "resistor";
}

/// The diode range stands at its limit where there is no way through.
double volts_or_limit(const std::optional<double>& volts) {
  return volts.value_or(circuit::diode_range_v);
}

void add_ohms(Json& object, const OffFigure& ohms, const OffFigure& reversed) {
  object["ohms"] = number_or_null(ohms.value);
  object["low"] = number_or_null(ohms.low);
  object["high"] = number_or_null(ohms.high);
  object["ohms_reversed"] = number_or_null(reversed.value);
  object["low_reversed"] = number_or_null(reversed.low);
  object["high_reversed"] = number_or_null(reversed.high);
}

void add_diode(Json& object, const OffFigure& diode, const OffFigure& reversed) {
  object["diode_V"] = volts_or_limit(diode.value);
  object["diode_low"] = volts_or_limit(diode.low);
  object["diode_high"] = volts_or_limit(diode.high);
  object["diode_V_reversed"] = volts_or_limit(reversed.value);
  object["diode_low_reversed"] = volts_or_limit(reversed.low);
  object["diode_high_reversed"] = volts_or_limit(reversed.high);
}

Json json_suspect(const OffSuspect& suspect) {
  Json object;
  object["fault"] = suspect.fault;
  object["ohms"] = number_or_null(suspect.reads[at(OffRange::ohms)]);
  object["ohms_reversed"] = number_or_null(suspect.reads[at(OffRange::ohms_reversed)]);
  object["diode_V"] = volts_or_limit(suspect.reads[at(OffRange::diode)]);
  object["diode_V_reversed"] = volts_or_limit(suspect.reads[at(OffRange::diode_reversed)]);
  return object;
}

Json json_point(const circuit::Circuit& circuit, const OffPoint& point) {
  Json object;
  object["a"] = circuit.at(point.points.a).name;
  object["b"] = circuit.at(point.points.b).name;
  object["group"] = word(point.group);
  object["name"] = point.name.empty() ? Json(nullptr) : Json(point.name);
  object["parts"] = Json::array();
  for (const auto part : point.parts) object["parts"].push_back(circuit.at(part).name);
  add_ohms(object, point.figures[at(OffRange::ohms)], point.figures[at(OffRange::ohms_reversed)]);
  add_diode(
      object, point.figures[at(OffRange::diode)], point.figures[at(OffRange::diode_reversed)]);
  object["suspects"] = Json::array();
  for (const auto& suspect : point.suspects) object["suspects"].push_back(json_suspect(suspect));
  return object;
}

Json json_trimmer(const circuit::Circuit& circuit, const answers::OffTrimmer& trimmer) {
  Json object;
  object["trimmer"] = circuit.at(trimmer.trimmer).name;
  object["position"] = trimmer.travel;
  object["reached"] = trimmer.reached;
  object["safe_end"] = nullptr;
  if (trimmer.safe_end) {
    object["safe_end"] = *trimmer.safe_end == circuit::TrackEnd::a ? "a" : "b";
  }
  object["at_preset"] = json_legs(circuit, trimmer.ohms.at_preset);
  object["at_safe_end"] = json_legs(circuit, trimmer.ohms.at_safe_end);
  return object;
}

}  // namespace

Json json_legs(const circuit::Circuit& circuit, const std::vector<answers::LegsInCircuit>& legs) {
  Json list = Json::array();
  for (const auto& pair : legs) {
    Json object;
    object["a"] = circuit.at(pair.points.a).name;
    object["b"] = circuit.at(pair.points.b).name;
    add_ohms(object, pair.ohms, pair.ohms_reversed);
    list.push_back(std::move(object));
  }
  return list;
}

std::string json_of(const answers::PowerOff& answer) {
  const auto& circuit = *answer.stage;
  Json object = json_opening("poweroff", circuit);
  object["conditions"] = json_conditions(circuit, answer.conditions, answer.changes);
  object["points"] = Json::array();
  for (const auto& point : answer.points) object["points"].push_back(json_point(circuit, point));
  object["trimmers"] = Json::array();
  for (const auto& trimmer : answer.trimmers) {
    object["trimmers"].push_back(json_trimmer(circuit, trimmer));
  }
  if (answer.no_preset) object["no_preset"] = *answer.no_preset;
  object["tried"] = answer.tried;
  object["warnings"] = answer.warnings;
  return printed(object);
}

}  // namespace idlepoint::report
