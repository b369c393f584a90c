#include "report/poweroff_words.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/figures.hpp"
#include "report/words.hpp"
#include "values/format.hpp"

namespace idlepoint::report {
namespace {

using answers::OffFigure;
using answers::OffPoint;
using answers::OffRange;
using answers::OffSuspect;

constexpr std::size_t at(OffRange range) { return static_cast<std::size_t>(range); }

/// A display's last digit is a tenth of an ohm, or with patience a hundredth.
std::string ohms_shown(double ohms) {
  constexpr double nothing_ohm = 0.005;
  if (ohms < nothing_ohm) return "0R";
  return values::format_ohms(ohms, ohms < 1.0 ? 2 : 3);
}

std::string legs_in_words(const circuit::Circuit& circuit, const answers::LegsInCircuit& legs) {
  std::string text = fmt::format("{} to {} reads {}",
                                 circuit::node_in_words(circuit, legs.points.a),
                                 circuit::node_in_words(circuit, legs.points.b),
                                 off_figure_in_words(OffRange::ohms, legs.ohms));
  if (!answers::can_tell(OffRange::ohms, legs.ohms, legs.ohms_reversed.value)) return text;
  return text + fmt::format(", {} with the leads exchanged",
                            off_figure_in_words(OffRange::ohms_reversed, legs.ohms_reversed));
}

/// The range in which a suspect shows best: the one that the group is read in first.
std::optional<OffRange> telling_range(const OffPoint& point, const OffSuspect& suspect) {
  constexpr std::array diode_first = {
      OffRange::diode, OffRange::diode_reversed, OffRange::ohms, OffRange::ohms_reversed};
  const auto& order =
      point.group == OffPoint::Group::junction ? diode_first : answers::every_off_range;
  for (const OffRange range : order) {
    const bool is_shown = point.group != OffPoint::Group::resistor || answers::is_ohms(range);
    if (is_shown && suspect.tells[at(range)]) return range;
  }
  return std::nullopt;
}

std::string how_held(const OffPoint& point, OffRange range) {
  const bool is_reversed = range == OffRange::ohms_reversed || range == OffRange::diode_reversed;
  const bool is_main = answers::is_ohms(range) == (point.group != OffPoint::Group::junction);
  std::string text = is_main ? "" : (answers::is_ohms(range) ? "ohms range " : "diode range ");
  return is_reversed ? text + "leads exchanged " : text;
}

}  // namespace

std::string off_value(OffRange range, const std::optional<double>& value) {
  if (!value) return "open";
  return answers::is_ohms(range) ? ohms_shown(*value) : volts(*value);
}

std::string off_figure_in_words(OffRange range, const OffFigure& figure) {
  std::string text = off_value(range, figure.value);
  if (!figure.value) {
    return figure.low ? fmt::format("{} (over {})", text, off_value(range, figure.low)) : text;
  }
  if (!answers::is_ohms(range) && figure.low && figure.high) {
    const auto ends = band(*figure.low, *figure.high, *figure.value, answers::ReadingUnit::volt);
    return ends.empty() ? text : text + " " + ends;
  }
  const std::string low = off_value(range, figure.low);
  const std::string high = off_value(range, figure.high);
  return low == high ? text : fmt::format("{} ({} to {})", text, low, high);
}

std::string all_legs_in_words(const circuit::Circuit& circuit,
                              const std::vector<answers::LegsInCircuit>& legs) {
  std::vector<std::string> texts;
  for (const auto& pair : legs) texts.push_back(legs_in_words(circuit, pair));
  return list_in_words(texts);
}

std::string part_between(const circuit::Part& part, const circuit::VoltsBetween& points) {
  if (part.leads.size() < 3) return part.name;
  const auto names = circuit::lead_names(part.kind);
  const auto lead_on = [&](circuit::NodeId node) -> std::string {
    for (std::size_t lead = 0; lead < part.leads.size(); ++lead) {
      if (part.leads[lead] == node) return std::string(names[lead]);
    }
    return {};
  };
  return fmt::format("{} {} to {}", part.name, lead_on(points.a), lead_on(points.b));
}

std::string suspects_in_words(const OffPoint& point,
                              std::size_t most,
                              const std::vector<std::string>& leave_out) {
  struct Alike {
    std::string shows;
    std::vector<std::string> faults;
  };
  std::vector<Alike> groups;
  std::size_t told = 0;
  for (const auto& suspect : point.suspects) {
    const bool is_out =
        std::find(leave_out.begin(), leave_out.end(), suspect.fault) != leave_out.end();
    const auto range = telling_range(point, suspect);
    if (is_out || !range) continue;
    if (told++ == most) break;
    const std::string shows =
        how_held(point, *range) + off_value(*range, suspect.reads[at(*range)]);
    const auto found = std::find_if(
        groups.begin(), groups.end(), [&](const Alike& group) { return group.shows == shows; });
    auto& group = found == groups.end() ? groups.emplace_back(Alike{shows, {}}) : *found;
    group.faults.push_back(suspect.fault);
  }
  std::vector<std::string> texts;
  for (const auto& group : groups) {
    texts.push_back(fmt::format("{}: {}", group.shows, fmt::join(group.faults, " or ")));
  }
  return fmt::format("{}", fmt::join(texts, "; "));
}

}  // namespace idlepoint::report
