#include "report/json_check.hpp"

#include "report/json_pieces.hpp"
#include "report/json_thermal.hpp"

namespace idlepoint::report {
namespace {

using answers::Check;

Json json_comparison(const circuit::Circuit& circuit, const answers::PrintedComparison& one) {
  Json object;
  object["a"] = circuit.at(one.a).name;
  object["b"] = circuit.at(one.b).name;
  object["text"] = one.text;
  object["printed_V"] = one.printed_v;
  object["calculated_V"] = one.calculated_v;
  object["off_V"] = one.off_v;
  object["disagrees"] = one.disagrees;
  if (one.agrees_with_all_parts) object["agrees_with_all_parts"] = true;
  return object;
}

}  // namespace

std::string json_of(const Check& answer) {
  Json object = json_opening("check", answer.circuit);
  if (answer.state) {
    object["conditions"] =
        json_conditions(answer.circuit, answer.state->conditions(), answer.changes);
  }
  object["complaints"] = Json::array();
  for (const auto& complaint : answer.complaints) {
    object["complaints"].push_back(json_complaint(complaint));
  }
  object["blanks"] = Json::array();
  for (const auto& blank : answer.circuit.blanks) object["blanks"].push_back(blank.text);
  object["printed"] = Json::array();
  for (const auto& one : answer.printed) {
    object["printed"].push_back(json_comparison(answer.circuit, one));
  }
  if (answer.trouble) object["runaway"] = json_runaway(*answer.trouble);
  object["warnings"] = answer.warnings;
  return printed(object);
}

}  // namespace idlepoint::report
