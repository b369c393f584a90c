#include "report/text_hazards.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <variant>

#include "report/figures.hpp"
#include "report/hazard_words.hpp"
#include "report/trimmer_words.hpp"
#include "report/words.hpp"

namespace idlepoint::report {
namespace {

using answers::Hazard;
using answers::HazardEffect;
using answers::Hazards;

const char* heading(HazardEffect effect) {
  switch (effect) {
    case HazardEffect::hard_on:
      return "Hard on: the rails deliver more than one and a half times what they should.";
    case HazardEffect::output_at_rail:
      return "Output at a rail, without that much power: the loudspeaker pays.";
    case HazardEffect::over_stressed:
      break;
  }
  return "A part beyond its rating, and little else to see.";
}

bool is_close(const std::optional<double>& one, const std::optional<double>& other) {
  constexpr double close = 1e-5;
  if (one.has_value() != other.has_value()) return false;
  return !one || std::abs(*one - *other) <= close * std::max(std::abs(*one), std::abs(*other));
}

// No meter could tell one from the other.
bool is_alike(const Hazard& one, const Hazard& other) {
  return one.effect == other.effect && one.parts_at_risk == other.parts_at_risk &&
         is_close(one.total_power_w, other.total_power_w) && is_close(one.output_v, other.output_v);
}

std::string section(const Hazards& hazards, HazardEffect effect, const Page& page) {
  struct Alike {
    const Hazard* first;
    std::vector<std::string> faults;
  };
  std::vector<Alike> groups;
  for (const auto& hazard : hazards.critical) {
    if (hazard.effect != effect) continue;
    const auto found = std::find_if(groups.begin(), groups.end(), [&](const Alike& group) {
      return is_alike(*group.first, hazard);
    });
    auto& group = found == groups.end() ? groups.emplace_back(Alike{&hazard, {}}) : *found;
    group.faults.push_back(hazard.fault);
  }
  if (groups.empty()) return {};
  std::string text = "\n" + fold(heading(effect), page) + "\n";
  for (const auto& group : groups) {
    text += fold(fmt::format("{}", fmt::join(group.faults, ", or ")), page, 2, 2);
    text += fold(hazard_in_words(hazards, *group.first), page, 6, 6);
  }
  return text;
}

struct PartOf {
  std::optional<circuit::PartId> operator()(const circuit::Bridge&) const { return std::nullopt; }
  std::optional<circuit::PartId> operator()(const circuit::LoseRail&) const { return std::nullopt; }
  std::optional<circuit::PartId> operator()(const auto& edit) const { return edit.part; }
};

// Each part once, in the order of what it can do.
std::string parts_to_test(const Hazards& hazards, const Page& page) {
  std::vector<std::string> names;
  for (const auto& hazard : hazards.critical) {
    const auto part = std::visit(PartOf{}, hazard.edit);
    if (hazard.effect != HazardEffect::hard_on || !part) continue;
    const std::string& name = hazards.stage->at(*part).name;
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
  if (names.empty()) return {};
  return "\n" + fold("Test out of circuit before you switch on, the worst first: " +
                         list_in_words(names) + ".",
                     page);
}

// The trimmer's end that takes the sting out of most of the first kind.
std::string where_to_start(const Hazards& hazards, const Page& page) {
  struct Counted {
    answers::SaferPlace place;
    std::size_t times = 0;
  };
  std::vector<Counted> places;
  std::size_t hard_on = 0;
  for (const auto& hazard : hazards.critical) {
    if (hazard.effect != HazardEffect::hard_on) continue;
    ++hard_on;
    for (const auto& safer : hazard.safer) {
      const auto found = std::find_if(places.begin(), places.end(), [&](const Counted& one) {
        return one.place.trimmer == safer.trimmer && one.place.end == safer.end;
      });
      auto& place = found == places.end() ? places.emplace_back(Counted{safer}) : *found;
      ++place.times;
    }
  }
  const auto best =
      std::max_element(places.begin(), places.end(), [](const Counted& one, const Counted& other) {
        return one.times < other.times;
      });
  if (best == places.end()) return {};
  const auto& trimmer = hazards.stage->at(best->place.trimmer);
  return fold(fmt::format("With {} at {} {} of the {} that turn it hard on would not: start there.",
                          trimmer.name,
                          end_in_words(*hazards.stage, trimmer, best->place.end),
                          best->times,
                          hard_on),
              page);
}

std::string sound_line(const Hazards& hazards, const Page& page) {
  std::string text =
      fmt::format("Sound, it takes {} from the rails", watts(hazards.sound.total_power_w()));
  if (const auto output = circuit::output_node(*hazards.stage)) {
    text += fmt::format(", output {}", volts(hazards.sound.voltage_v(*output)));
  }
  text += fmt::format(
      ". {} faults tried, one at a time, each at the first cold moment with the current not "
      "limited: "
      "{} do no harm, {} do.",
      hazards.tried,
      hazards.harmless,
      hazards.critical.size());
  return fold(text, page);
}

}  // namespace

std::string text_of(const Hazards& hazards, const Page& page) {
  const auto& circuit = *hazards.stage;
  std::string text = opening(circuit, hazards.sound.conditions(), hazards.changes, page);
  text += trimmers_line(circuit, page) + sound_line(hazards, page);
  for (const auto effect :
       {HazardEffect::hard_on, HazardEffect::output_at_rail, HazardEffect::over_stressed}) {
    text += section(hazards, effect, page);
  }
  text += parts_to_test(hazards, page) + where_to_start(hazards, page);
  const std::string warnings = warnings_list(hazards.warnings, page);
  if (!warnings.empty()) text += "\n" + warnings;
  text += "\n" + fold(
                     "In brackets: what 19 in 20 of such faulty stages would show with their parts "
                     "within tolerance.",
                     page);
  text += taken_as_given(circuit, hazards.sound.conditions(), page);
  return text + standing_caution(circuit, page);
}

}  // namespace idlepoint::report
