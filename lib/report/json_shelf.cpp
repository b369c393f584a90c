#include "report/json_shelf.hpp"

#include "report/json_pieces.hpp"
#include "report/shelf_words.hpp"
#include "report/swap_words.hpp"

namespace idlepoint::report {

std::string json_of(const answers::Shelf& shelf) {
  const auto& circuit = *shelf.stage;
  Json object = json_opening("shelf", circuit);
  object["conditions"] = json_conditions(circuit, shelf.conditions, shelf.changes);
  object["place"] = circuit.at(shelf.part).name;
  object["now"] = circuit.at(*circuit.at(shelf.part).type).name;
  object["candidates"] = Json::array();
  for (const auto& candidate : shelf.candidates) {
    Json one;
    one["part"] = circuit.at(candidate.type).name;
    one["verdict"] = word(candidate.verdict);
    one["reason"] = reason_of(shelf, candidate);
    object["candidates"].push_back(std::move(one));
  }
  object["warnings"] = shelf.warnings;
  return printed(object);
}

}  // namespace idlepoint::report
