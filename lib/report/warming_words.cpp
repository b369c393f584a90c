// How much of its own heat comes back to a stage, in words. Declared in report/thermal_words.hpp.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "answers/taken_out.hpp"
#include "report/figures.hpp"
#include "report/thermal_words.hpp"
#include "report/words.hpp"
#include "values/constants.hpp"

namespace idlepoint::report {
namespace {

using answers::Edge;
using answers::ThermalMargin;
using circuit::Circuit;

constexpr double nothing_comes_back = 0.005;

std::string heatsinks_in_words(const Circuit& circuit, const solve::OperatingPoint& warm) {
  std::vector<std::string> sinks;
  for (std::size_t index = 0; index < circuit.heatsinks.size(); ++index) {
    const auto& found = warm.heatsink(circuit::HeatsinkId{index});
    sinks.push_back(fmt::format("{} {} with {} going into it",
                                circuit.heatsinks[index].name,
                                celsius(found.temperature_k),
                                watts(found.power_w)));
  }
  return list_in_words(sinks);
}

std::string hottest_junction(const Circuit& circuit, const solve::OperatingPoint& warm) {
  std::optional<circuit::PartId> hottest;
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    const auto& part = circuit.parts[index];
    if (!circuit::has_type(part.kind) || part.damage.absent || part.damage.is_link) continue;
    const circuit::PartId id{index};
    if (!hottest || warm.part(id).junction_k > warm.part(*hottest).junction_k) hottest = id;
  }
  if (!hottest) return {};
  return fmt::format(" The hottest junction is that of {}, {}.",
                     circuit.at(*hottest).name,
                     celsius(warm.part(*hottest).junction_k));
}

// Whether rails or a room that much above the present ones would end it.
bool ends_within(const Circuit& circuit, const ThermalMargin& margin, double rails, double room_k) {
  const auto rails_edge = margin.rails.first();
  const auto room_edge_k = margin.ambient_k.first();
  return (rails_edge && *rails_edge < rails) ||
         (room_edge_k && *room_edge_k < circuit.ambient_k + room_k);
}

// Bands of common practice: no rule of the trade has a number for it. Mains a tenth high, or a
// closed case 20 K above the room, are nothing out of the ordinary.
std::string judged(const Circuit& circuit, const ThermalMargin& margin) {
  constexpr double much = 0.5;
  constexpr double too_much = 0.8;
  const std::string text = comes_back(margin.loop_gain);
  if (margin.loop_gain >= too_much || ends_within(circuit, margin, 1.05, 10.0)) {
    return text + ": do not leave it alone.";
  }
  if (margin.loop_gain >= much || ends_within(circuit, margin, 1.15, 20.0)) {
    return text + ": keep an eye on it while it warms.";
  }
  return text + (margin.loop_gain < nothing_comes_back ? "." : ": it can bear that.");
}

struct Said {
  std::vector<std::string> runs_away;
  std::vector<std::string> too_hot;
  std::vector<std::string> neither;
};

void say_edge(const Edge& edge, const std::string& where, Said& said) {
  if (edge.too_hot_at) {
    said.too_hot.push_back(where);
  } else if (edge.reaches_one_at) {
    said.runs_away.push_back(where);
  }
}

void say_trimmer(const Circuit& circuit, const answers::TrimmerEdges& edges, Said& said) {
  const auto say = [&](const Edge& edge, const char* onwards) {
    if (!edge.first()) return;
    const auto& trimmer = circuit.at(edges.trimmer);
    say_edge(edge, "with " + setting_in_words(circuit, trimmer, *edge.first()) + onwards, said);
  };
  say(edges.towards_a, " or less");
  say(edges.towards_b, " or more");
  if (edges.towards_a.first() || edges.towards_b.first()) return;
  said.neither.push_back(fmt::format("anywhere on {}", circuit.at(edges.trimmer).name));
}

Said say_all(const Circuit& circuit, const ThermalMargin& margin) {
  Said said;
  if (const auto room_k = margin.ambient_k.first()) {
    say_edge(margin.ambient_k, "in a room of " + celsius(*room_k), said);
  } else {
    said.neither.push_back("in a room below " + celsius(answers::hottest_room_tried_k));
  }
  if (const auto rails = margin.rails.first()) {
    say_edge(margin.rails, "with the rails at " + percent(*rails), said);
  } else {
    said.neither.push_back("with the rails below " + percent(answers::highest_rails_tried));
  }
  for (const auto& trimmer : margin.trimmers) say_trimmer(circuit, trimmer, said);
  return said;
}

std::string edges_in_words(const Circuit& circuit, const ThermalMargin& margin) {
  const Said said = say_all(circuit, margin);
  const auto one_of = [](const std::vector<std::string>& list) {
    return fmt::format("{}", fmt::join(list, ", or "));
  };
  std::string text;
  if (!said.runs_away.empty()) text += " It would run away " + one_of(said.runs_away) + ".";
  if (!said.too_hot.empty()) {
    text += " A junction would pass its maximum " + one_of(said.too_hot) + ".";
  }
  if (said.neither.empty()) return text;
  const bool is_all = said.runs_away.empty() && said.too_hot.empty();
  return text + (is_all ? " It runs away neither " : " Neither happens ") +
         fmt::format("{}", fmt::join(said.neither, ", nor ")) + ".";
}

}  // namespace

std::string comes_back(double loop_gain) {
  if (loop_gain < nothing_comes_back) return "Of an extra watt nothing comes back";
  return fmt::format("Each extra watt comes back as {:.2f} W", loop_gain);
}

std::string warming_section(const Circuit& circuit,
                            const solve::OperatingPoint& warm,
                            const ThermalMargin& margin,
                            const Page& page) {
  const std::string sinks = heatsinks_in_words(circuit, warm);
  std::string text = "Warmed through: " + (sinks.empty() ? "no heat sink" : sinks) + ".";
  text += hottest_junction(circuit, warm);
  std::string edges = judged(circuit, margin) + edges_in_words(circuit, margin);
  const std::string out = answers::names_taken_out(circuit);
  if (!out.empty()) edges += " That is without " + out + ": it says nothing of the whole stage.";
  return fold(text, page) + fold(edges, page);
}

}  // namespace idlepoint::report
