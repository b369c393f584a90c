#include "solve/heat_model.hpp"

#include <algorithm>

namespace idlepoint::solve {
namespace {

using circuit::Circuit;
using circuit::Part;
using circuit::PartKind;

/// Of a part that has come loose and whose type does not say.
constexpr double loose_k_per_w = 40.0;

std::optional<HeatedPart> heated(const Circuit& circuit, circuit::PartId id) {
  const Part& part = circuit.at(id);
  if (part.damage.absent || part.damage.is_link) return std::nullopt;
  const bool is_mounted = part.mounting.heatsink && !part.damage.loose;
  if (part.kind == PartKind::thermistor) {
    if (!is_mounted) return std::nullopt;
    return HeatedPart{id, part.mounting.heatsink->index, 0.0, 1.0};
  }
  if (!circuit::has_type(part.kind)) return std::nullopt;
  const circuit::Ratings& ratings = circuit.at(*part.type).ratings;
  if (is_mounted) {
    return HeatedPart{id,
                      part.mounting.heatsink->index,
                      ratings.junction_to_case_k_per_w.value_or(0.0) + part.mounting.washer_k_per_w,
                      part.mounting.coupling};
  }
  if (ratings.junction_to_ambient_k_per_w) {
    return HeatedPart{id, {}, *ratings.junction_to_ambient_k_per_w, 1.0};
  }
  if (part.damage.loose) return HeatedPart{id, {}, loose_k_per_w, 1.0};
  return std::nullopt;
}

}  // namespace

HeatModel heat_model(const Circuit& circuit) {
  HeatModel model;
  model.ambient_k = circuit.ambient_k;
  std::vector<bool> has_heat(circuit.parts.size(), false);
  for (std::size_t k = 0; k < circuit.parts.size(); ++k) {
    model.part_of.push_back(model.parts.size());
    const auto part = heated(circuit, circuit::PartId{k});
    if (!part) continue;
    has_heat[k] = true;
    model.parts.push_back(*part);
  }
  for (std::size_t k = 0; k < has_heat.size(); ++k) {
    if (!has_heat[k]) model.part_of[k] = model.parts.size();
  }
  const auto sinks = static_cast<Eigen::Index>(circuit.heatsinks.size());
  model.sink_k_per_w.resize(sinks);
  model.sink_base_k = Eigen::VectorXd::Zero(sinks);
  for (Eigen::Index k = 0; k < sinks; ++k) {
    model.sink_k_per_w[k] = circuit.heatsinks[static_cast<std::size_t>(k)].resistance_k_per_w;
  }
  return model;
}

HeatModel no_heat(const Circuit& circuit) {
  HeatModel model = heat_model(circuit);
  std::fill(model.part_of.begin(), model.part_of.end(), 0);
  model.parts.clear();
  return model;
}

Eigen::MatrixXd rise_per_watt(const HeatModel& model) {
  const auto size = static_cast<Eigen::Index>(model.parts.size());
  Eigen::MatrixXd rise = Eigen::MatrixXd::Zero(size, size);
  for (Eigen::Index j = 0; j < size; ++j) {
    const HeatedPart& part = model.parts[static_cast<std::size_t>(j)];
    rise(j, j) += model.scale * part.own_k_per_w;
    if (!part.sink) continue;
    const double through_sink =
        model.scale * part.coupling * model.sink_k_per_w[static_cast<Eigen::Index>(*part.sink)];
    for (Eigen::Index i = 0; i < size; ++i) {
      if (model.parts[static_cast<std::size_t>(i)].sink == part.sink) rise(j, i) += through_sink;
    }
  }
  return rise;
}

Eigen::VectorXd base_temperatures(const HeatModel& model) {
  Eigen::VectorXd base(static_cast<Eigen::Index>(model.parts.size()));
  for (Eigen::Index j = 0; j < base.size(); ++j) {
    const HeatedPart& part = model.parts[static_cast<std::size_t>(j)];
    base[j] = model.ambient_k;
    if (part.sink) {
      base[j] += part.coupling * model.sink_base_k[static_cast<Eigen::Index>(*part.sink)];
    }
  }
  return base;
}

Eigen::VectorXd sink_rises(const HeatModel& model, const Eigen::VectorXd& power_w) {
  Eigen::VectorXd rises = model.sink_base_k;
  for (Eigen::Index j = 0; j < power_w.size(); ++j) {
    const auto& sink = model.parts[static_cast<std::size_t>(j)].sink;
    if (!sink) continue;
    const auto row = static_cast<Eigen::Index>(*sink);
    rises[row] += model.scale * model.sink_k_per_w[row] * power_w[j];
  }
  return rises;
}

}  // namespace idlepoint::solve
