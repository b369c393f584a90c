#include "report/json_pieces.hpp"

#include "answers/taken_out.hpp"
#include "values/constants.hpp"

namespace idlepoint::report {
namespace {

const char* word(answers::WithPartsOut standing) {
  switch (standing) {
    case answers::WithPartsOut::reads_nothing:
      return "reads nothing";
    case answers::WithPartsOut::reads_others:
      return "reads others";
    case answers::WithPartsOut::not_judged:
      return "not judged";
    case answers::WithPartsOut::as_usual:
      break;
  }
  return "as usual";
}

Json json_reading(const circuit::Circuit& circuit, const answers::ReadingValue& reading) {
  Json object;
  object["name"] = reading.name;
  object["probe"] = circuit::write_probe(circuit, reading.probe);
  object["value"] = reading.value;
  object["unit"] = answers::symbol(reading.unit);
  object["low"] = low_or_null(reading.band);
  object["high"] = high_or_null(reading.band);
  if (reading.band) object["band"] = reading.band->bends ? "sampled" : "linear";
  if (reading.band && reading.band->lost > 0.0) object["band_lost"] = reading.band->lost;
  if (reading.within_limit) {
    object["within_limit"] = *reading.within_limit;
  } else {
    object["within_limit"] = nullptr;
  }
  if (reading.with_parts_out != answers::WithPartsOut::as_usual) {
    object["with_parts_out"] = word(reading.with_parts_out);
  }
  if (reading.unit == answers::ReadingUnit::volt) {
    object["as_metered"] = number_or_null(reading.as_metered);
    object["as_metered_low"] = low_or_null(reading.metered_band);
    object["as_metered_high"] = high_or_null(reading.metered_band);
  }
  return object;
}

}  // namespace

Json json_opening(const std::string& command, const circuit::Circuit& circuit) {
  Json object;
  object["command"] = command;
  object["stage"] = circuit.title.empty() ? circuit.file : circuit.title;
  return object;
}

Json json_conditions(const circuit::Circuit& circuit,
                     const solve::Conditions& conditions,
                     const std::vector<std::string>& changes) {
  Json object;
  object["ambient_C"] = values::celsius_from_kelvin(circuit.ambient_k);
  object["rails"] = conditions.rails;
  object["state"] = conditions.heat == solve::HeatState::warm ? "warm" : "cold";
  object["load_connected"] = conditions.load_connected;
  object["changes"] = changes;
  for (const auto part : answers::taken_out(circuit)) {
    object["without"].push_back(circuit.at(part).name);
  }
  return object;
}

Json json_solver(const solve::SolverReport& solver) {
  Json object;
  object["iterations"] = solver.iterations;
  object["strategy"] = solver.strategy;
  object["residual_A"] = solver.residual_a;
  return object;
}

Json json_readings(const circuit::Circuit& circuit,
                   const std::vector<answers::ReadingValue>& readings) {
  Json list = Json::array();
  for (const auto& reading : readings) list.push_back(json_reading(circuit, reading));
  return list;
}

Json number_or_null(const std::optional<double>& value) {
  return value ? Json(*value) : Json(nullptr);
}

Json low_or_null(const std::optional<answers::Band>& band) {
  return band ? Json(band->low) : Json(nullptr);
}

Json high_or_null(const std::optional<answers::Band>& band) {
  return band ? Json(band->high) : Json(nullptr);
}

Json json_complaint(const complaints::Complaint& complaint) {
  const auto& facts = complaints::facts(complaint.kind);
  const auto& place = complaint.places.front();
  Json object;
  object["kind"] = facts.name;
  object["severity"] = facts.gravity == complaints::Gravity::warning ? "warning" : "error";
  object["file"] = place.file;
  object["line"] = place.line;
  object["column"] = place.column;
  object["text"] = complaint.headline;
  object["try"] = complaint.instead;
  return object;
}

std::string printed(const Json& object) {
  return object.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace idlepoint::report
