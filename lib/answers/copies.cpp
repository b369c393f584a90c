#include "answers/copies.hpp"

#include <utility>

namespace idlepoint::answers {
namespace {

using circuit::CheckedCircuit;

}  // namespace

Copies::Copies(const CheckedCircuit& stage, const solve::Conditions& conditions, Looked looked)
    : stage_(stage),
      conditions_(conditions),
      looked_(std::move(looked)),
      uncertainty_(circuit::uncertainty(*stage)),
      copy_(*circuit::with_own_types(stage, uncertainty_)),
      finder_(copy_, conditions) {
  auto found = finder_.find();
  auto* rest = std::get_if<solve::Rest>(&found);
  if (rest == nullptr) return;
  nominal_ = std::move(*rest);
  nominal_values_ = read_now(*nominal_);
  for (const circuit::Adjustment& one : looked_.following) {
    targets_.push_back(finder_.read(copy_.at(one.reading).probe, *nominal_));
    const auto& details = copy_.at(one.trimmer).details;
    travels_.push_back(std::get<circuit::TrimmerDetails>(details).travel);
  }
}

std::vector<double> Copies::read_now(const solve::Rest& rest) {
  std::vector<double> values;
  for (const circuit::Probe& probe : looked_.probes) values.push_back(finder_.read(probe, rest));
  return values;
}

std::vector<solve::Wanted> Copies::wanted() {
  std::vector<solve::Wanted> list;
  for (std::size_t k = 0; k < looked_.following.size(); ++k) {
    const circuit::Adjustment& one = looked_.following[k];
    const auto track = solve::track_of(finder_.solver().system().wiring, one.trimmer);
    list.push_back({track.value(), copy_.at(one.reading).probe, targets_[k]});
  }
  return list;
}

std::optional<std::vector<std::vector<double>>> Copies::slopes() {
  const std::vector<double> middle(uncertainty_.draws.size(), 0.0);
  const solve::Rest* rest = settle(middle);
  if (rest == nullptr) return std::nullopt;
  const auto list = wanted();
  const auto all =
      solve::sensitivities(copy_, finder_, *rest, {looked_.probes, list, uncertainty_.parameters});
  if (!all) return std::nullopt;
  std::vector<std::vector<double>> slopes;
  const auto add = [&](const solve::Sensitivity& one) {
    std::vector<double> by_draw;
    for (const circuit::Draw& draw : uncertainty_.draws) {
      by_draw.push_back(circuit::slope_by_draw(*stage_, uncertainty_, draw, one.by_parameter));
    }
    slopes.push_back(std::move(by_draw));
  };
  for (const solve::Sensitivity& one : all->readings) add(one);
  for (const solve::Sensitivity& one : all->positions) add(one);
  return slopes;
}

void Copies::load(std::span<const double> u) {
  circuit::set_parameters(
      copy_, uncertainty_.parameters, circuit::values_at(*stage_, uncertainty_, u));
  finder_.load(conditions_);
}

const solve::Rest* Copies::settle(std::span<const double> u) {
  load(u);
  moved_ = finder_.find_quickly(&*nominal_);
  return moved_ ? &*moved_ : nullptr;
}

std::optional<std::vector<double>> Copies::read(std::span<const double> u) {
  const solve::Rest* rest = settle(u);
  if (rest == nullptr) return std::nullopt;
  return read_now(*rest);
}

/// Straight from the stage as drawn: with its trimmers where they were a copy may run away.
std::optional<std::vector<double>> Copies::place(std::span<const double> u) {
  load(u);
  solve::BorderedState at = nominal_->at;
  at.travels = travels_;
  if (!finder_.newton().iterate(wanted(), at).settled) return std::nullopt;
  return at.travels;
}

}  // namespace idlepoint::answers
