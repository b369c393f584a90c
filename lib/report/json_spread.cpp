#include "report/json_spread.hpp"

#include "report/json_pieces.hpp"
#include "report/words.hpp"

namespace idlepoint::report {
namespace {

using answers::Spread;

/// `mean` to `p97_5`; null where no stage came to rest.
void add_distribution(Json& object, const std::optional<answers::Distribution>& values) {
  const auto add = [&](const char* key, double answers::Distribution::*member) {
    object[key] = values ? Json((*values).*member) : Json(nullptr);
  };
  add("mean", &answers::Distribution::mean);
  add("deviation", &answers::Distribution::deviation);
  add("p2_5", &answers::Distribution::p2_5);
  add("p50", &answers::Distribution::p50);
  add("p97_5", &answers::Distribution::p97_5);
}

Json json_shares(const circuit::Circuit& circuit, const answers::Shares& shares) {
  Json list = Json::array();
  for (const answers::Share& one : shares.parts) {
    Json object;
    object["part"] = owners_of(circuit, one.parameters);
    object["field"] = one.parameters.front().field;
    object["per_percent"] = one.per_percent;
    object["share"] = one.share;
    list.push_back(std::move(object));
  }
  return list;
}

Json json_reading(const circuit::Circuit& circuit, const answers::SpreadOfReading& reading) {
  Json object;
  object["name"] = reading.nominal.name;
  object["probe"] = circuit::write_probe(circuit, reading.nominal.probe);
  object["unit"] = answers::symbol(reading.nominal.unit);
  object["nominal"] = reading.nominal.value;
  add_distribution(object, reading.as_it_stands.values);
  object["shares"] = json_shares(circuit, reading.shares);
  object["within_limit"] =
      reading.nominal.within_limit ? Json(*reading.nominal.within_limit) : Json(nullptr);
  object["outside_limit"] = number_or_null(reading.as_it_stands.outside_limit);
  if (reading.when_set) {
    Json set;
    add_distribution(set, reading.when_set->values);
    set["outside_limit"] = number_or_null(reading.when_set->outside_limit);
    object["when_set"] = std::move(set);
  }
  return object;
}

Json json_position(const circuit::Circuit& circuit, const answers::SpreadOfPosition& position) {
  Json object;
  object["trimmer"] = circuit.at(position.trimmer).name;
  object["reading"] = circuit.at(position.reading).name;
  object["nominal"] = position.nominal_travel;
  add_distribution(object, position.travel);
  object["reached"] = position.reached;
  object["shares"] = json_shares(circuit, position.shares);
  return object;
}

void add_positions(Json& object, const Spread& answer) {
  if (answer.why_not_set) object["not_set"] = *answer.why_not_set;
  if (!answer.when_set) return;
  Json set;
  set["done"] = answer.when_set->done;
  set["failed"] = answer.when_set->failed;
  set["too_hot"] = answer.when_set->too_hot;
  set["out_of_reach"] = answer.when_set->out_of_reach;
  object["when_set"] = std::move(set);
}

}  // namespace

std::string json_of(const Spread& answer) {
  const auto& circuit = *answer.stage;
  Json object = json_opening("spread", circuit);
  object["conditions"] = json_conditions(circuit, answer.conditions, answer.changes);
  object["samples"] = answer.samples;
  object["seed"] = answer.seed;
  object["done"] = answer.as_it_stands.done;
  object["interrupted"] = answer.interrupted;
  object["failed"] = answer.as_it_stands.failed;
  object["too_hot"] = answer.as_it_stands.too_hot;
  Json readings = Json::array();
  for (const auto& reading : answer.readings) readings.push_back(json_reading(circuit, reading));
  object["readings"] = std::move(readings);
  add_positions(object, answer);
  Json positions = Json::array();
  for (const auto& position : answer.positions) {
    positions.push_back(json_position(circuit, position));
  }
  object["positions"] = std::move(positions);
  object["warnings"] = answer.warnings;
  return printed(object);
}

}  // namespace idlepoint::report
