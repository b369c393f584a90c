#include "report/json_fault.hpp"

#include "report/fault_words.hpp"
#include "report/json_pieces.hpp"

namespace idlepoint::report {
namespace {

using answers::ChainStep;
using answers::Fault;
using answers::StepKind;
using circuit::Circuit;

Json name_or_null(const Circuit& circuit, const std::vector<circuit::PartId>& parts) {
  return parts.empty() ? Json(nullptr) : Json(circuit.at(parts.front()).name);
}

Json json_names(const Circuit& circuit, const std::vector<circuit::PartId>& parts) {
  Json names = Json::array();
  for (const auto part : parts) names.push_back(circuit.at(part).name);
  return names;
}

/// What `was` and `now` are: the node's volts, the part's amperes.
Json unit_of(const ChainStep& step) { return step.node ? "V" : "A"; }

Json json_chain(const Fault& answer) {
  const Circuit& circuit = *answer.faulty;
  Json list = Json::array();
  for (std::size_t index = 0; index < answer.chain.size(); ++index) {
    const ChainStep& step = answer.chain[index];
    Json object;
    object["step"] = index + 1;
    object["part"] = name_or_null(circuit, step.parts.empty() ? step.by : step.parts);
    object["was"] = step.value.was;
    object["now"] = step.value.now;
    object["unit"] = unit_of(step);
    object["node"] = step.node ? Json(circuit.at(*step.node).name) : Json(nullptr);
    object["parts"] = json_names(circuit, step.parts);
    object["because_of"] = Json::array();
    for (const std::size_t cause : step.because_of) object["because_of"].push_back(cause + 1);
    object["text"] = step_in_words(answer, step);
    list.push_back(std::move(object));
  }
  return list;
}

Json json_dangers(const Fault& answer) {
  Json list = Json::array();
  for (const auto& danger : answer.dangers) {
    Json object;
    const Circuit& circuit = *answer.faulty;
    if (danger.part) {
      object["part"] = circuit.at(*danger.part).name;
    } else {
      object["part"] = circuit.at(circuit.at(*danger.rail).node).name;
    }
    object["what"] = answers::word(danger.peril);
    object["state"] = danger.is_warm ? "warm" : "as asked";
    object["value"] = danger.value;
    object["limit"] = danger.limit == 0.0 ? Json(nullptr) : Json(danger.limit);
    object["text"] = danger_in_words(answer, danger);
    list.push_back(std::move(object));
  }
  return list;
}

Json json_pairs(const Fault& answer) {
  Json list = Json::array();
  for (const auto& reading : answer.readings) {
    Json object;
    object["name"] = reading.name;
    object["probe"] = circuit::write_probe(*answer.sound, reading.probe);
    object["healthy"] = reading.healthy;
    object["faulty"] = reading.faulty;
    object["unit"] = answers::symbol(reading.unit);
    object["shown"] = reading.is_shown;
    if (answer.blown_state) object["once_blown"] = number_or_null(reading.once_blown);
    list.push_back(std::move(object));
  }
  return list;
}

}  // namespace

std::string json_of(const Fault& answer) {
  const Circuit& circuit = *answer.sound;
  Json object = json_opening("fault", circuit);
  object["conditions"] = json_conditions(circuit, answer.faulty_state.conditions(), answer.changes);
  object["faults"] = Json::array();
  for (const auto& fault : answer.faults) {
    object["faults"].push_back(circuit::write_fault(*answer.faulty, fault));
  }
  object["readings"] = json_pairs(answer);
  object["chain"] = json_chain(answer);
  object["dangers"] = json_dangers(answer);
  object["replace"] = json_names(*answer.faulty, answers::parts_to_replace(answer.dangers));
  object["blown"] = json_names(*answer.faulty, answer.blown);
  object["clues"] = clues(answer);
  object["warnings"] = answer.warnings;
  return printed(object);
}

}  // namespace idlepoint::report
