#include "answers/derating.hpp"

#include <algorithm>
#include <limits>

namespace idlepoint::answers {
namespace {

constexpr double rated_at_k = 298.15;

std::optional<double> way_out_k_per_w(const circuit::Ratings& ratings, bool on_heatsink) {
  const auto& given =
      on_heatsink ? ratings.junction_to_case_k_per_w : ratings.junction_to_ambient_k_per_w;
  if (given) return given;
  // With a way to the case the sheet's watts are those of a cooled one: no word of free air.
  const bool cooled = ratings.junction_to_case_k_per_w.has_value();
  if (!ratings.max_power_w || (cooled && !on_heatsink)) return std::nullopt;
  return (ratings.max_junction_temperature_k - rated_at_k) / *ratings.max_power_w;
}

}  // namespace

Surroundings surroundings_of(const circuit::Circuit& circuit,
                             circuit::PartId id,
                             const solve::OperatingPoint& state) {
  const auto& part = circuit.at(id);
  if (!part.mounting.heatsink || part.damage.loose) return {circuit.ambient_k, false, 0.0};
  const double rise_k = state.heatsink(*part.mounting.heatsink).temperature_k - circuit.ambient_k;
  return {circuit.ambient_k + part.mounting.coupling * rise_k, true, part.mounting.washer_k_per_w};
}

std::optional<double> allowed_w(const circuit::Ratings& ratings, const Surroundings& surroundings) {
  const auto way_out = way_out_k_per_w(ratings, surroundings.on_heatsink);
  if (!way_out) return std::nullopt;
  const double most_w = ratings.max_power_w.value_or(std::numeric_limits<double>::infinity());
  const double room_k = ratings.max_junction_temperature_k - surroundings.temperature_k;
  const double resistance = *way_out + surroundings.washer_k_per_w;
  if (!(resistance > 0.0)) return ratings.max_power_w;
  return std::clamp(room_k / resistance, 0.0, most_w);
}

double power_share(const circuit::Ratings& ratings, const Surroundings& surroundings) {
  const auto allowed = allowed_w(ratings, surroundings);
  const auto at_rated = allowed_w(ratings, {rated_at_k, surroundings.on_heatsink, 0.0});
  if (!allowed || !at_rated || !(*at_rated > 0.0)) return 1.0;
  return std::min(1.0, *allowed / *at_rated);
}

std::optional<double> allowed_w(const circuit::Circuit& circuit,
                                circuit::PartId part,
                                const solve::OperatingPoint& state) {
  const auto& type = circuit.at(part).type;
  if (!type) return std::nullopt;
  return allowed_w(circuit.at(*type).ratings, surroundings_of(circuit, part, state));
}

}  // namespace idlepoint::answers
