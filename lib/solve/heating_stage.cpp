#include "solve/heating_stage.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <utility>

#include "solve/make_operating_point.hpp"

namespace idlepoint::solve {
namespace {

Conditions warmed(Conditions conditions) {
  conditions.heat = HeatState::warm;
  return conditions;
}

}  // namespace

HeatingStage::HeatingStage(circuit::CheckedCircuit stage, const Conditions& conditions)
    : stage_(std::move(stage)),
      conditions_(warmed(conditions)),
      capacity_j_per_k_(sink_capacities(*stage_)),
      finder_(*stage_, conditions_) {}

HeatModel HeatingStage::held_at(const Eigen::VectorXd& rise_k) const {
  HeatModel held = heat();
  held.sink_k_per_w.setZero();
  held.sink_base_k = rise_k;
  return held;
}

// With heat sinks of no resistance the warm state is the first instant.
RestOrStory HeatingStage::begin() {
  const auto cold_sinks = stage_.edited([](circuit::Circuit& circuit) {
    for (auto& sink : circuit.heatsinks) sink.resistance_k_per_w = 0.0;
  });
  StateFinder finder(*cold_sinks, conditions_);
  auto found = finder.find();
  auto* rest = std::get_if<Rest>(&found);
  if (rest == nullptr) return found;
  auto held = hold(Eigen::VectorXd::Zero(sinks()), *rest);
  if (!held) return finder_.trouble(ThermalTrouble::Kind::runaway, *rest);
  held->has_other_states = rest->has_other_states;
  return *std::move(held);
}

bool HeatingStage::junctions_hold(const Rest& rest) {
  BorderedNewton& newton = finder_.newton();
  const auto border = newton.border({}, rest.at);
  if (!border) return false;
  newton.set_heat(held_at(Eigen::VectorXd::Zero(sinks())));
  return newton.loop_gain(*border) < 1.0;
}

std::optional<Rest> HeatingStage::settle(const HeatModel& heat, const Rest& near) {
  Rest rest = near;
  if (!finder_.settle(rest, heat) || !junctions_hold(rest)) return std::nullopt;
  return rest;
}

std::optional<Rest> HeatingStage::hold(const Eigen::VectorXd& rise_k, const Rest& near) {
  return settle(held_at(rise_k), near);
}

std::optional<Rest> HeatingStage::step(const Eigen::VectorXd& base_k,
                                       double seconds,
                                       const Eigen::VectorXd& extra_w,
                                       const Rest& near) {
  const Eigen::VectorXd from_k = base_k + seconds * extra_w.cwiseQuotient(capacity_j_per_k_);
  return settle(implicit_step(heat(), capacity_j_per_k_, from_k, seconds), near);
}

std::optional<Rest> HeatingStage::leap(const Rest& rest, std::optional<ThermalTrouble>& passed) {
  // A hair warmer: at the very end of what is left behind the junctions would stay.
  constexpr double hair_k = 0.02;
  const Eigen::VectorXd rise_k = rest.sink_rise_k.array() + hair_k;
  Rest beyond = rest;
  if (!finder_.follow_junctions(beyond, held_at(rise_k), passed)) return std::nullopt;
  return hold(rise_k, beyond);
}

std::optional<Rest> HeatingStage::equilibrium(const Rest& near) {
  auto rest = settle(heat(), near);
  if (!rest || rest->loop_gain >= 1.0) return std::nullopt;
  return rest;
}

Eigen::VectorXd HeatingStage::warming(const Rest& rest, const Eigen::VectorXd& extra_w) const {
  Eigen::VectorXd net_w = extra_w;
  for (Eigen::Index j = 0; j < rest.power_w.size(); ++j) {
    const auto& sink = heat().parts[static_cast<std::size_t>(j)].sink;
    if (sink) net_w[static_cast<Eigen::Index>(*sink)] += rest.power_w[j];
  }
  for (Eigen::Index k = 0; k < net_w.size(); ++k) {
    const double resistance = heat().sink_k_per_w[k];
    net_w[k] = resistance > 0.0 ? net_w[k] - rest.sink_rise_k[k] / resistance : 0.0;
  }
  return net_w.cwiseQuotient(capacity_j_per_k_);
}

// With T the junctions, s the sinks, G = dP/dT: dT = coupling ds + own dP, so
// dP/ds = (1 - G own)^-1 G coupling.
Eigen::MatrixXd HeatingStage::warming_by_rise(const Rest& rest) {
  const auto border = finder_.newton().border({}, rest.at);
  const auto size = static_cast<Eigen::Index>(heat().parts.size());
  Eigen::MatrixXd sees = Eigen::MatrixXd::Zero(size, sinks());
  Eigen::MatrixXd gathers = Eigen::MatrixXd::Zero(sinks(), size);
  Eigen::VectorXd own(size);
  for (Eigen::Index j = 0; j < size; ++j) {
    const HeatedPart& part = heat().parts[static_cast<std::size_t>(j)];
    own[j] = part.own_k_per_w;
    if (!part.sink) continue;
    sees(j, static_cast<Eigen::Index>(*part.sink)) = part.coupling;
    gathers(static_cast<Eigen::Index>(*part.sink), j) = 1.0;
  }
  Eigen::MatrixXd by_rise = Eigen::MatrixXd::Zero(sinks(), sinks());
  if (border && size > 0) {
    const Eigen::MatrixXd by_temperature = border->power_by.leftCols(size);
    const Eigen::MatrixXd loop =
        Eigen::MatrixXd::Identity(size, size) - by_temperature * own.asDiagonal();
    by_rise = gathers * loop.fullPivLu().solve(by_temperature * sees);
  }
  for (Eigen::Index k = 0; k < sinks(); ++k) {
    const double resistance = heat().sink_k_per_w[k];
    if (resistance > 0.0) {
      by_rise(k, k) -= 1.0 / resistance;
    } else {
      by_rise.row(k).setZero();
    }
    by_rise.row(k) /= capacity_j_per_k_[k];
  }
  return by_rise;
}

OperatingPoint HeatingStage::moment(const Rest& rest) {
  return make_operating_point(*stage_, conditions_, finder_, rest);
}

double HeatingStage::slowest_s() const {
  return sinks() == 0 ? 0.0 : heat().sink_k_per_w.cwiseProduct(capacity_j_per_k_).maxCoeff();
}

}  // namespace idlepoint::solve
