#include "solve/stress.hpp"

#include <algorithm>
#include <cmath>

namespace idlepoint::solve {
namespace {

using circuit::Circuit;
using circuit::Part;
using circuit::PartKind;
using circuit::Ratings;

bool exceeds(double demand, const std::optional<double>& rating) {
  return rating && demand > *rating;
}

/// From lead `a` to lead `b`; 0 where one of them is left off.
double across_v(const Part& part, std::size_t a, std::size_t b, const OperatingPoint& point) {
  const auto node_a = circuit::lead(part, a);
  const auto node_b = circuit::lead(part, b);
  if (!node_a || !node_b) return 0.0;
  return point.voltage_v(*node_a) - point.voltage_v(*node_b);
}

bool exceeds_common(const Ratings& ratings, const PartState& state) {
  return exceeds(std::abs(state.lead_current_a[0]), ratings.max_current_a) ||
         exceeds(state.power_w, ratings.max_power_w) ||
         state.junction_k > ratings.max_junction_temperature_k;
}

bool is_transistor_stressed(const Circuit& circuit,
                            const Part& part,
                            const PartState& state,
                            const OperatingPoint& point) {
  const circuit::PartType& type = circuit.at(*part.type);
  const double sign = circuit::is_p_kind(part.kind) ? -1.0 : 1.0;
  if (exceeds_common(type.ratings, state)) return true;
  if (exceeds(sign * across_v(part, 0, 2, point), type.ratings.max_voltage_v)) return true;
  if (!circuit::is_bipolar(part.kind)) return false;
  const double reverse_v = sign * across_v(part, 2, 1, point);
  return exceeds(reverse_v, type.ratings.max_base_emitter_voltage_v);
}

bool is_diode_stressed(const Circuit& circuit,
                       const Part& part,
                       const PartState& state,
                       const OperatingPoint& point) {
  const Ratings& ratings = circuit.at(*part.type).ratings;
  return exceeds_common(ratings, state) ||
         exceeds(across_v(part, 1, 0, point), ratings.max_voltage_v);
}

}  // namespace

bool exceeds_rating(const Circuit& circuit, circuit::PartId id, const OperatingPoint& point) {
  const Part& part = circuit.at(id);
  const PartState& state = point.part(id);
  if (part.damage.absent || part.damage.is_link) return false;
  if (circuit::is_transistor(part.kind)) return is_transistor_stressed(circuit, part, state, point);
  switch (part.kind) {
    case PartKind::diode:
      return is_diode_stressed(circuit, part, state, point);
    case PartKind::resistor:
      return exceeds(state.power_w, std::get<circuit::ResistorDetails>(part.details).power_w);
    case PartKind::capacitor:
      return exceeds(std::abs(across_v(part, 0, 1, point)),
                     std::get<circuit::CapacitorDetails>(part.details).rated_v);
    case PartKind::fuse:
      return std::abs(state.lead_current_a[0]) > part.value;
    case PartKind::lamp:
      return state.power_w > std::get<circuit::LampDetails>(part.details).rated_w;
    default:
      return false;
  }
}

}  // namespace idlepoint::solve
