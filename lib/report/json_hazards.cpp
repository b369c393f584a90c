#include "report/json_hazards.hpp"

#include "report/hazard_words.hpp"
#include "report/json_pieces.hpp"

namespace idlepoint::report {
namespace {

using answers::Hazard;
using answers::Hazards;

Json json_hazard(const Hazards& hazards, const Hazard& hazard) {
  Json object;
  object["fault"] = hazard.fault;
  object["output_V"] = number_or_null(hazard.output_v);
  object["output_low"] = low_or_null(hazard.output_band);
  object["output_high"] = high_or_null(hazard.output_band);
  object["total_power_W"] = number_or_null(hazard.total_power_w);
  object["power_low"] = low_or_null(hazard.power_band);
  object["power_high"] = high_or_null(hazard.power_band);
  object["effect"] = answers::word(hazard.effect);
  object["parts_at_risk"] = Json::array();
  for (const auto id : hazard.parts_at_risk) {
    object["parts_at_risk"].push_back(hazards.stage->at(id).name);
  }
  object["safer"] = Json::array();
  for (const auto& place : hazard.safer) {
    Json one;
    one["trimmer"] = hazards.stage->at(place.trimmer).name;
    one["end"] = place.end == circuit::TrackEnd::a ? "a" : "b";
    object["safer"].push_back(std::move(one));
  }
  object["text"] = hazard.fault + ": " + hazard_in_words(hazards, hazard);
  return object;
}

}  // namespace

std::string json_of(const Hazards& hazards) {
  const auto& circuit = *hazards.stage;
  Json object = json_opening("hazards", circuit);
  object["conditions"] = json_conditions(circuit, hazards.sound.conditions(), hazards.changes);
  object["total_power_W"] = hazards.sound.total_power_w();
  object["critical"] = Json::array();
  for (const auto& hazard : hazards.critical) {
    object["critical"].push_back(json_hazard(hazards, hazard));
  }
  object["harmless"] = hazards.harmless;
  object["tried"] = hazards.tried;
  object["warnings"] = hazards.warnings;
  return printed(object);
}

}  // namespace idlepoint::report
