#include "report/json_diagnosis.hpp"

#include <array>
#include <variant>

#include "report/diagnosis_words.hpp"
#include "report/json_pieces.hpp"
#include "report/measure_words.hpp"
#include "values/constants.hpp"

namespace idlepoint::report {
namespace {

using answers::Diagnosis;
using answers::Expected;
using answers::Suspect;
using circuit::BenchReading;
using circuit::Circuit;
using circuit::Measurement;

std::string_view symbol_of(const Measurement& measurement) {
  if (std::holds_alternative<circuit::OhmsBetween>(measurement)) return "ohm";
  const auto* probe = std::get_if<circuit::Probe>(&measurement);
  return probe == nullptr ? "V" : answers::symbol(answers::unit_of(*probe));
}

std::optional<double> own_value(const BenchReading& reading) {
  if (!reading.value) return std::nullopt;
  const auto* probe = std::get_if<circuit::Probe>(&reading.measurement);
  if (probe == nullptr) return reading.value;
  return answers::in_own_unit(*reading.value, answers::unit_of(*probe));
}

const char* key_of(circuit::Firmness firmness) {
  constexpr std::array words{"shown", "about", "open", "jumps", "drifts up", "drifts down"};
  return words[static_cast<std::size_t>(firmness)];
}

const char* key_of(answers::AnswersTo answers_to) {
  constexpr std::array words{"nothing", "tapping", "warmth"};
  return words[static_cast<std::size_t>(answers_to)];
}

Json json_readings_given(const Circuit& circuit, const std::vector<BenchReading>& readings) {
  Json list = Json::array();
  for (const auto& reading : readings) {
    Json object;
    object["name"] = reading.name;
    object["measurement"] = circuit::write_measurement(circuit, reading.measurement);
    object["value"] = number_or_null(own_value(reading));
    object["unit"] = symbol_of(reading.measurement);
    object["firmness"] = key_of(reading.firmness);
    object["text"] = reading_in_words(reading);
    list.push_back(std::move(object));
  }
  return list;
}

Json names_at(const Diagnosis& diagnosis, const std::vector<std::size_t>& readings) {
  Json names = Json::array();
  for (const std::size_t index : readings) names.push_back(diagnosis.readings[index].name);
  return names;
}

// Null where the range shows no way through.
Json value_of(const Expected& expected) {
  return expected.beyond_range ? Json(nullptr) : Json(expected.value);
}

Json json_expected(const Expected& expected) {
  Json object;
  object["value"] = value_of(expected);
  object["low"] = expected.beyond_range ? Json(nullptr) : Json(expected.low);
  object["high"] = expected.beyond_range ? Json(nullptr) : Json(expected.high);
  object["open"] = expected.beyond_range;
  return object;
}

Json json_swings(const Diagnosis& diagnosis, const Suspect& suspect) {
  Json list = Json::array();
  for (const auto& swing : suspect.swings) {
    Json object;
    object["reading"] = diagnosis.readings[swing.reading].name;
    object["from"] = swing.from;
    object["to"] = swing.to;
    list.push_back(std::move(object));
  }
  return list;
}

Json json_ranking(const Diagnosis& diagnosis) {
  Json list = Json::array();
  for (const auto& suspect : diagnosis.ranking) {
    Json object;
    object["fault"] = suspect.fault;
    object["equivalent"] = suspect.equivalent;
    object["probability"] = suspect.probability;
    object["chi_square"] = suspect.chi_square;
    object["unexplained"] = names_at(diagnosis, suspect.unexplained);
    object["expected"] = Json::object();
    for (std::size_t index = 0; index < suspect.expected.size(); ++index) {
      object["expected"][diagnosis.readings[index].name] = json_expected(suspect.expected[index]);
    }
    object["answers_to"] = key_of(suspect.answers_to);
    object["swings"] = json_swings(diagnosis, suspect);
    list.push_back(std::move(object));
  }
  return list;
}

Json json_next(const Diagnosis& diagnosis) {
  Json list = Json::array();
  for (const auto& next : diagnosis.next) {
    Json object;
    object["reading"] = next.reading;
    object["bits"] = next.bits;
    object["unit"] = symbol_of(next.measurement);
    object["expected"] = Json::object();
    object["bands"] = Json::object();
    for (const auto& under : next.under) {
      const std::string& fault = diagnosis.ranking[under.suspect].fault;
      object["expected"][fault] = value_of(under.expected);
      object["bands"][fault] = json_expected(under.expected);
    }
    object["how"] = how_to_take(*diagnosis.stage, next.measurement);
    list.push_back(std::move(object));
  }
  return list;
}

Json json_ruled_out(const Diagnosis& diagnosis) {
  Json list = Json::array();
  for (const auto& fault : diagnosis.ruled_out) {
    Json object;
    object["fault"] = fault.fault;
    object["reading"] = diagnosis.readings[fault.reading].name;
    object["expected"] = json_expected(fault.expected);
    list.push_back(std::move(object));
  }
  return list;
}

}  // namespace

std::string json_of(const Diagnosis& diagnosis,
                    const solve::Conditions& conditions,
                    const std::vector<std::string>& taken) {
  const Circuit& circuit = *diagnosis.stage;
  Json object = json_opening("diagnose", circuit);
  object["conditions"] = json_conditions(circuit, conditions, diagnosis.changes);
  object["readings"] = json_readings_given(circuit, diagnosis.readings);
  object["sound_channel"] = json_readings_given(circuit, diagnosis.sound_channel);
  object["good"] = Json::array();
  for (const auto part : diagnosis.good) object["good"].push_back(circuit.at(part).name);
  object["healthy_fit"] = diagnosis.healthy_chi_square;
  object["healthy_chance"] = diagnosis.healthy_chance;
  object["ranking"] = json_ranking(diagnosis);
  object["next"] = json_next(diagnosis);
  object["ruled_out"] = json_ruled_out(diagnosis);
  object["contradicted"] = names_at(diagnosis, diagnosis.contradicted);
  object["pairs_tried"] = diagnosis.pairs_tried;
  object["tried"] = diagnosis.tried;
  object["assumed"] = diagnosis.assumed;
  object["taken"] = taken;
  object["before"] = before_it_is_changed(diagnosis);
  object["warnings"] = diagnosis.warnings;
  return printed(object);
}

}  // namespace idlepoint::report
