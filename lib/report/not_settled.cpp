#include "report/not_settled.hpp"

#include <fmt/format.h>

#include <cmath>
#include <string>
#include <variant>
#include <vector>

#include "report/figures.hpp"
#include "report/words.hpp"

namespace idlepoint::report {
namespace {

using solve::NotSettled;

std::string headline(const NotSettled& story) {
  switch (story.reason) {
    case NotSettled::Reason::did_not_settle:
      return "this stage did not settle to a DC state";
    case NotSettled::Reason::no_finite_solution:
      return "this stage has no DC state";
    case NotSettled::Reason::outside_law:
      return "the only state found lies where the data of a part no longer hold";
  }
  return {};
}

std::vector<std::string> names_in_loop(const circuit::Circuit& circuit,
                                       const std::vector<solve::LoopMember>& loop) {
  std::vector<std::string> names;
  for (const auto& member : loop) {
    const auto* rail = std::get_if<circuit::RailId>(&member);
    names.push_back(rail != nullptr ? circuit.at(circuit.at(*rail).node).name
                                    : circuit.at(std::get<circuit::PartId>(member)).name);
  }
  return names;
}

std::string where(const circuit::Circuit& circuit, const NotSettled& story) {
  if (!story.loop.empty()) {
    return fmt::format("The volts of {} do not add up around the loop they form.",
                       list_in_words(names_in_loop(circuit, story.loop)));
  }
  if (!story.node) return {};
  std::string text =
      "The point that would not come to rest is " + circuit::node_in_words(circuit, *story.node);
  if (story.part) text += ", held by " + circuit.at(*story.part).name;
  if (std::isfinite(story.worst_balance_a) && story.worst_balance_a != 0.0) {
    text += fmt::format("; {} were left over there", amps(std::abs(story.worst_balance_a)));
  }
  return text + ".";
}

// What a strategy does, for someone who never heard its name.
std::string attempt_in_words(const solve::Attempt& attempt) {
  std::string text = attempt.strategy;
  if (attempt.strategy == "newton") text = "straight from the cold start";
  if (attempt.strategy == "conductance") text = "with a leak from every point to gnd, taken away";
  if (attempt.strategy == "rails") text = "bringing the rails up from nothing";
  if (attempt.strategy == "pseudo-transient") text = "letting it come to rest in time";
  if (attempt.stopped_at.empty()) return text + fmt::format(": {} steps", attempt.steps);
  const bool is_a_count = attempt.stopped_at.starts_with("after");
  return text + (is_a_count ? ": gave up " : ": stopped at ") + attempt.stopped_at;
}

}  // namespace

std::string text_of(const circuit::Circuit& circuit, const NotSettled& story, const Page& page) {
  std::string text = fold(circuit.file + ": " + headline(story) + ".", page) + "\n";
  const std::string place = where(circuit, story);
  if (!place.empty()) text += fold(place, page, 2, 2);
  if (!story.tried.empty()) {
    text += "  Tried:\n";
    for (const auto& attempt : story.tried) text += fold(attempt_in_words(attempt), page, 4, 6);
  }
  if (!story.likely.empty()) text += fold("Likely: " + story.likely + ".", page, 2, 4);
  return text;
}

}  // namespace idlepoint::report
