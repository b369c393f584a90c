#include "report/hazard_words.hpp"

#include <fmt/format.h>

#include <vector>

#include "report/figures.hpp"
#include "report/trimmer_words.hpp"
#include "report/words.hpp"

namespace idlepoint::report {
namespace {

using answers::Hazard;
using answers::Hazards;

std::string power_of(const Hazard& hazard) {
  std::string text = watts(*hazard.total_power_w);
  if (hazard.power_band) {
    const std::string brackets = band(hazard.power_band->low,
                                      hazard.power_band->high,
                                      *hazard.total_power_w,
                                      answers::ReadingUnit::watt);
    if (!brackets.empty()) text += " " + brackets;
  }
  return text + " from the rails";
}

std::string output_of(const Hazard& hazard) {
  if (!hazard.output_v) return {};
  std::string text = ", output " + volts(*hazard.output_v);
  if (hazard.output_band) {
    const std::string brackets = band(hazard.output_band->low,
                                      hazard.output_band->high,
                                      *hazard.output_v,
                                      answers::ReadingUnit::volt);
    if (!brackets.empty()) text += " " + brackets;
  }
  return text;
}

std::string risk_of(const Hazards& hazards, const Hazard& hazard) {
  std::vector<std::string> names;
  for (const auto id : hazard.parts_at_risk) names.push_back(hazards.stage->at(id).name);
  if (names.empty()) return {};
  return fmt::format("; beyond {} rating{}: {}",
                     names.size() == 1 ? "its" : "their",
                     names.size() == 1 ? "" : "s",
                     list_in_words(names));
}

std::string safer_of(const Hazards& hazards, const Hazard& hazard) {
  std::vector<std::string> places;
  for (const auto& place : hazard.safer) {
    const auto& trimmer = hazards.stage->at(place.trimmer);
    places.push_back(
        fmt::format("{} at {}", trimmer.name, end_in_words(*hazards.stage, trimmer, place.end)));
  }
  if (places.empty()) return {};
  return fmt::format(" Not so with {}.", fmt::join(places, ", or with "));
}

}  // namespace

std::string hazard_in_words(const Hazards& hazards, const Hazard& hazard) {
  if (!hazard.finds_state) {
    return "no DC state is found with it." + safer_of(hazards, hazard);
  }
  return power_of(hazard) + output_of(hazard) + risk_of(hazards, hazard) + "." +
         safer_of(hazards, hazard);
}

}  // namespace idlepoint::report
