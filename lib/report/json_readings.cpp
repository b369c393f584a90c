#include "report/json_readings.hpp"

#include "report/json_pieces.hpp"
#include "report/json_thermal.hpp"
#include "values/constants.hpp"

namespace idlepoint::report {
namespace {

using answers::Readings;
using circuit::PartId;

Json json_nodes(const Readings& answer) {
  Json nodes = Json::object();
  for (std::size_t index = 0; index < answer.stage->nodes.size(); ++index) {
    const auto& node = answer.stage->nodes[index];
    if (!node.lifted) nodes[node.name] = answer.state.voltage_v(circuit::NodeId{index});
  }
  return nodes;
}

Json json_rails(const Readings& answer) {
  Json rails = Json::object();
  for (std::size_t index = 0; index < answer.stage->rails.size(); ++index) {
    const auto& found = answer.state.rail(circuit::RailId{index});
    Json rail;
    rail["volts"] = found.voltage_v;
    rail["current_A"] = found.delivered_a;
    rail["power_W"] = found.power_w;
    rails[answer.stage->at(answer.stage->rails[index].node).name] = std::move(rail);
  }
  return rails;
}

Json voltage_across(const circuit::Part& part, const solve::OperatingPoint& state) {
  const auto first = circuit::lead(part, 0);
  const auto second = circuit::lead(part, 1);
  if (!first || !second) return nullptr;
  return state.voltage_v(*first) - state.voltage_v(*second);
}

Json json_part(const circuit::Part& part,
               const solve::PartState& found,
               const solve::OperatingPoint& state) {
  Json object;
  object["kind"] = circuit::keyword(part.kind);
  const auto names = circuit::lead_names(part.kind);
  if (names.size() == 2) {
    object["current_A"] = found.lead_current_a.front();
    object["voltage_V"] = voltage_across(part, state);
  } else {
    Json currents;
    for (std::size_t lead = 0; lead < names.size(); ++lead) {
      currents[std::string(names[lead])] = found.lead_current_a.at(lead);
    }
    object["currents_A"] = std::move(currents);
  }
  object["power_W"] = found.power_w;
  if (circuit::has_type(part.kind)) {
    object["junction_C"] = values::celsius_from_kelvin(found.junction_k);
  }
  if (found.conduction) object["conduction"] = solve::word(*found.conduction);
  object["over_stressed"] = found.over_stressed;
  return object;
}

Json json_parts(const Readings& answer) {
  Json parts = Json::object();
  for (std::size_t index = 0; index < answer.stage->parts.size(); ++index) {
    const auto& part = answer.stage->parts[index];
    parts[part.name] = json_part(part, answer.state.part(PartId{index}), answer.state);
  }
  return parts;
}

Json json_heatsinks(const Readings& answer) {
  Json heatsinks = Json::object();
  for (std::size_t index = 0; index < answer.stage->heatsinks.size(); ++index) {
    const auto& found = answer.state.heatsink(circuit::HeatsinkId{index});
    Json heatsink;
    heatsink["temperature_C"] = values::celsius_from_kelvin(found.temperature_k);
    heatsink["power_W"] = found.power_w;
    heatsinks[answer.stage->heatsinks[index].name] = std::move(heatsink);
  }
  return heatsinks;
}

Json json_hot(const Readings& answer) {
  Json list = Json::array();
  for (const auto& hot : answer.hot.parts) {
    Json object;
    object["part"] = answer.stage->at(hot.part).name;
    object["state"] = hot.is_played_loud ? "played loud" : "at rest";
    object["power_W"] = hot.power_w;
    object["rating_W"] = hot.rating_w;
    object["suggested_W"] = number_or_null(hot.suggested_w);
    list.push_back(std::move(object));
  }
  return list;
}

}  // namespace

std::string json_of(const Readings& answer) {
  const auto& circuit = *answer.stage;
  Json object = json_opening("readings", circuit);
  object["conditions"] = json_conditions(circuit, answer.state.conditions(), answer.changes);
  object["solver"] = json_solver(answer.state.solver());
  object["nodes"] = json_nodes(answer);
  object["rails"] = json_rails(answer);
  object["total_power_W"] = answer.state.total_power_w();
  object["parts"] = json_parts(answer);
  object["heatsinks"] = json_heatsinks(answer);
  object["readings"] = json_readings(circuit, answer.readings);
  if (answer.cold) object["cold_readings"] = json_readings(circuit, answer.cold->readings);
  if (answer.thermal) add_thermal(object, circuit, *answer.thermal);
  object["hot"] = json_hot(answer);
  object["warnings"] = answer.warnings;
  return printed(object);
}

}  // namespace idlepoint::report
