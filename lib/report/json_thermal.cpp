#include "report/json_thermal.hpp"

#include <cmath>

#include "report/thermal_words.hpp"
#include "values/constants.hpp"

namespace idlepoint::report {
namespace {

using answers::Edge;
using answers::ThermalMargin;
using Place = std::optional<double> Edge::*;

// The nearer of the two ways.
std::optional<double> nearest(const circuit::Circuit& circuit,
                              const answers::TrimmerEdges& edges,
                              Place place) {
  const auto& towards_a = edges.towards_a.*place;
  const auto& towards_b = edges.towards_b.*place;
  if (!towards_a || !towards_b) return towards_a ? towards_a : towards_b;
  const double travel = std::get<circuit::TrimmerDetails>(circuit.at(edges.trimmer).details).travel;
  return std::abs(*towards_a - travel) < std::abs(*towards_b - travel) ? towards_a : towards_b;
}

Json json_places(const circuit::Circuit& circuit, const ThermalMargin& margin, Place place) {
  Json object;
  const auto& room_k = margin.ambient_k.*place;
  object["ambient_C"] = room_k ? Json(values::celsius_from_kelvin(*room_k)) : Json(nullptr);
  object["rails"] = number_or_null(margin.rails.*place);
  object["positions"] = Json::object();
  for (const auto& edges : margin.trimmers) {
    object["positions"][circuit.at(edges.trimmer).name] =
        number_or_null(nearest(circuit, edges, place));
  }
  return object;
}

}  // namespace

void add_thermal(Json& object, const circuit::Circuit& circuit, const ThermalMargin& margin) {
  object["thermal_loop_gain"] = margin.loop_gain;
  object["thermal_margin"] = 1.0 - margin.loop_gain;
  object["reaches_one_at"] = json_places(circuit, margin, &Edge::reaches_one_at);
  object["too_hot_at"] = json_places(circuit, margin, &Edge::too_hot_at);
}

Json json_runaway(const answers::ThermalStory& story) {
  const auto& trouble = story.trouble;
  Json object;
  object["kind"] = trouble.kind == solve::ThermalTrouble::Kind::runaway ? "runaway" : "too hot";
  object["part"] = story.stage->at(trouble.part).name;
  object["heatsink_C"] = values::celsius_from_kelvin(trouble.heatsink_k);
  object["junction_C"] = values::celsius_from_kelvin(trouble.junction_k);
  object["loop_gain"] = trouble.loop_gain;
  object["advice"] = advice(story);
  return object;
}

std::string json_of(const std::string& command, const answers::ThermalStory& story) {
  Json object = json_opening(command, *story.stage);
  object["conditions"] = json_conditions(*story.stage, story.conditions, story.changes);
  object["runaway"] = json_runaway(story);
  object["warnings"] = story.warnings;
  return printed(object);
}

}  // namespace idlepoint::report
