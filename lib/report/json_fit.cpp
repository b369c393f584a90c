#include "report/json_fit.hpp"

#include "circuit/part_kind.hpp"
#include "report/json_pieces.hpp"

namespace idlepoint::report {
namespace {

Json json_field(const answers::FitField& field) {
  Json object;
  object["name"] = field.name;
  object["value"] = number_or_null(field.value);
  object["determined"] = field.determined;
  object["why"] = field.why;
  object["known_to"] = number_or_null(field.known_to);
  return object;
}

Json json_point(const answers::FitPoint& point) {
  Json object;
  object["text"] = point.text;
  object["aim"] = number_or_null(point.aim);
  object["fitted"] = number_or_null(point.predicted);
  object["residual_percent"] = point.residual ? Json(100.0 * *point.residual) : Json(nullptr);
  object["holds"] = point.holds ? Json(*point.holds) : Json(nullptr);
  return object;
}

}  // namespace

std::string json_of(const answers::TypeFit& fit, const std::string& statement) {
  Json object;
  object["command"] = "fit";
  object["stage"] = nullptr;
  object["part"] = fit.type.name;
  object["kind"] = circuit::keyword(fit.type.kind);
  object["statement"] = statement;
  object["source"] = fit.type.source;
  object["fields"] = Json::array();
  for (const auto& field : fit.fields) object["fields"].push_back(json_field(field));
  object["points"] = Json::array();
  for (const auto& point : fit.points) object["points"].push_back(json_point(point));
  object["contradictions"] = Json::array();
  for (const auto& complaint : fit.contradictions) {
    object["contradictions"].push_back(json_complaint(complaint));
  }
  object["warnings"] = fit.notes;
  return printed(object);
}

}  // namespace idlepoint::report
