#include "report/json_sheet.hpp"

#include <fmt/format.h>

#include <iterator>

#include "report/json_crossover.hpp"
#include "report/json_drawing.hpp"
#include "report/json_hazards.hpp"
#include "report/json_powerup.hpp"
#include "report/json_preset.hpp"
#include "report/json_readings.hpp"
#include "report/json_spread.hpp"
#include "report/json_swap.hpp"
#include "report/json_warmup.hpp"

namespace idlepoint::report {
namespace {

using answers::SheetChannel;
using answers::SliderGrid;
using answers::SliderPoint;

// Figures enough for a tenth of a millivolt at a rail; the page would be twice as heavy with all.
constexpr int figures = 6;

void add_point(std::string& text, const SliderPoint& point) {
  if (point.values.empty()) {
    text += fmt::format("\"{}\"", answers::word(point.why_not));
    return;
  }
  text += '[';
  for (const double value : point.values) {
    if (text.back() != '[') text += ',';
    fmt::format_to(std::back_inserter(text), "{:.{}g}", value, figures);
  }
  text += ']';
}

std::string points_in_json(const std::vector<SliderPoint>& points) {
  std::string text = "[";
  for (const auto& point : points) {
    if (text.back() != '[') text += ",\n";
    add_point(text, point);
  }
  return text + "]";
}

std::string grid_in_json(const circuit::Circuit& circuit, const SliderGrid& grid) {
  Json head;
  head["trimmers"] = Json::array();
  for (const auto trimmer : grid.trimmers) head["trimmers"].push_back(circuit.at(trimmer).name);
  return fmt::format("{{\"trimmers\":{},\"axes\":{},\"cold\":{},\"warm\":{}}}",
                     head["trimmers"].dump(),
                     Json(grid.axes).dump(),
                     points_in_json(grid.cold),
                     points_in_json(grid.warm));
}

/// The travels that the page begins with, and the solutions around them.
std::string sliders_in_json(const SheetChannel& channel) {
  const circuit::Circuit& circuit = *channel.sliders.stage;
  Json begins = Json::object();
  for (const auto& grid : channel.sliders.grids) {
    for (const auto trimmer : grid.trimmers) {
      const auto& part = circuit.at(trimmer);
      begins[part.name] = std::get<circuit::TrimmerDetails>(part.details).travel;
    }
  }
  std::string text = "{\"begins_at\":" + printed(begins) + ",\"grids\":[";
  for (const auto& grid : channel.sliders.grids) {
    if (text.back() != '[') text += ',';
    text += grid_in_json(circuit, grid);
  }
  return text + "]}";
}

/// `,"name": object`, where there is one.
template <class Answer>
std::string member(const char* name, const std::optional<Answer>& answer) {
  return answer ? fmt::format(",\"{}\":{}", name, json_of(*answer)) : std::string();
}

std::string channel_in_json(const SheetChannel& channel) {
  std::string text = "{\"drawing\":" + printed(json_drawing(channel));
  text += ",\"words\":" + printed(json_words(channel));
  text += ",\"readings\":" + json_of(channel.readings);
  text += member("preset", channel.preset);
  text += member("powerup", channel.powerup);
  text += member("hazards", channel.hazards);
  text += member("warmup", channel.warmup);
  text += member("spread", channel.spread);
  text += member("crossover", channel.crossover);
  text += member("swap", channel.swap);
  return text + ",\"sliders\":" + sliders_in_json(channel) + "}";
}

}  // namespace

std::string json_of(const std::vector<SheetChannel>& channels) {
  std::string text = "{\"command\":\"sheet\",\"channels\":[";
  for (const auto& channel : channels) {
    if (text.back() != '[') text += ',';
    text += channel_in_json(channel);
  }
  return for_a_page(text + "]}") + "\n";
}

std::string for_a_page(const std::string& json) {
  std::string text;
  text.reserve(json.size());
  bool in_string = false;
  for (std::size_t k = 0; k < json.size(); ++k) {
    const char letter = json[k];
    if (letter == '"') in_string = !in_string;
    if (letter == '<') {
      text += "\\u003c";
    } else if (in_string || (letter != ' ' && letter != '\n')) {
      text += letter;
    }
    if (in_string && letter == '\\') text += json[++k];
  }
  return text;
}

}  // namespace idlepoint::report
