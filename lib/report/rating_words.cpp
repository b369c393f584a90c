#include "report/rating_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "answers/verdict.hpp"
#include "report/figures.hpp"
#include "report/words.hpp"

namespace idlepoint::report {
namespace {

using answers::Rating;
using answers::RatingCheck;
using circuit::Circuit;
using circuit::PartId;

/// "must stand 71 V with the mains high", for one part and for several.
std::string asked(const RatingCheck& check) {
  const std::string demand = rating_figure(check.rating, check.demand.value_or(0.0));
  switch (check.rating) {
    case Rating::voltage:
      return "must stand " + demand + " with the mains high";
    case Rating::base_emitter_voltage:
      return "must stand " + demand + " backwards between base and emitter";
    case Rating::current:
      return "must carry " + demand + " at most";
    case Rating::idle_power:
      return "must shed " + demand + " at rest";
    case Rating::junction_temperature:
      return "must bear a junction of " + demand + " at rest";
    case Rating::resistive_power:
      return "must shed " + demand + " at the worst level of a sine";
    case Rating::reactive_power:
      return "must shed " + demand + " into a 60-degree loudspeaker";
    case Rating::safe_area_resistive:
      return fmt::format("must carry {} at {} on the load line", demand, volts(*check.at_v));
    case Rating::safe_area_reactive:
      return fmt::format("must carry {} at {} into 60 degrees", demand, volts(*check.at_v));
  }
  return {};
}

const char* name_of(Rating rating) {
  switch (rating) {
    case Rating::voltage:
      return "the volts it stands";
    case Rating::base_emitter_voltage:
      return "the volts it stands backwards at its base";
    case Rating::current:
      return "the current it may carry";
    case Rating::junction_temperature:
      return "how hot its junction may be";
    case Rating::safe_area_resistive:
    case Rating::safe_area_reactive:
      return "its safe area";
    case Rating::idle_power:
    case Rating::resistive_power:
    case Rating::reactive_power:
      return "the watts it may shed";
  }
  return "";
}

const char* graded(const RatingCheck& check) {
  switch (answers::allowed_by(check)) {
    case answers::Verdict::suitable:
      return "good";
    case answers::Verdict::with_care:
      return "enough, no more";
    case answers::Verdict::unsuitable:
      break;
  }
  return "too little";
}

bool is_alike(const RatingCheck& one, const RatingCheck& other) {
  constexpr double close = 0.03;
  if (one.limit != other.limit || one.demand.has_value() != other.demand.has_value()) return false;
  if (!one.demand) return true;
  return std::abs(*one.demand - *other.demand) <= close * std::max(*one.demand, *other.demand);
}

}  // namespace

std::string rating_figure(Rating rating, double value) {
  switch (rating) {
    case Rating::voltage:
    case Rating::base_emitter_voltage:
      return volts(value);
    case Rating::current:
    case Rating::safe_area_resistive:
    case Rating::safe_area_reactive:
      return amps(value);
    case Rating::idle_power:
    case Rating::resistive_power:
    case Rating::reactive_power:
      return watts(value);
    case Rating::junction_temperature:
      return figure(value, answers::ReadingUnit::celsius);
  }
  return {};
}

std::string rating_clause(const RatingCheck& check) {
  if (!check.limit && !check.demand) {
    return fmt::format("{} is not given, nor could be found what is asked", name_of(check.rating));
  }
  if (!check.demand) {
    return fmt::format("of {}, {} is allowed; what is asked could not be found",
                       name_of(check.rating),
                       rating_figure(check.rating, *check.limit));
  }
  const bool is_safe_area =
      check.rating == Rating::safe_area_resistive || check.rating == Rating::safe_area_reactive;
  if (!check.limit && is_safe_area) return fmt::format("{} is not given", name_of(check.rating));
  if (!check.limit) return fmt::format("{}; {} is not given", asked(check), name_of(check.rating));
  const std::string up_to =
      check.kept_to_rad ? fmt::format(" (kept up to {:.0f} degrees)",
                                      std::floor(*check.kept_to_rad * 180.0 / std::numbers::pi))
                        : std::string();
  return fmt::format("{}, {} allowed{}: {}",
                     asked(check),
                     rating_figure(check.rating, *check.limit),
                     up_to,
                     graded(check));
}

std::string rating_sentence(const Circuit& circuit,
                            const std::vector<PartId>& parts,
                            const RatingCheck& check) {
  std::vector<std::string> names;
  for (const PartId id : parts) names.push_back(circuit.at(id).name);
  return fmt::format("{}{}{} {}.",
                     list_in_words(names),
                     names.size() > 1 ? " each" : "",
                     check.demand && check.limit ? "" : ":",
                     rating_clause(check));
}

std::vector<AskedAlike> asked_alike(const std::vector<RatingCheck>& checks) {
  std::vector<AskedAlike> groups;
  for (const auto& check : checks) {
    const auto found = std::find_if(groups.begin(), groups.end(), [&](const AskedAlike& group) {
      return is_alike(group.check, check);
    });
    if (found == groups.end()) {
      groups.push_back({{check.part}, check});
      continue;
    }
    found->parts.push_back(check.part);
    if (check.demand > found->check.demand) found->check = check;
  }
  return groups;
}

}  // namespace idlepoint::report
