#include "answers/part_demand.hpp"

#include <algorithm>
#include <cmath>

#include "answers/node_swings.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Circuit;
using circuit::PartId;

/// A part that sees more than this of the swing stands between the output and a rail, and sees all.
constexpr double most_of_the_swing = 0.5;

}  // namespace

StageAsked stage_asked(const Circuit& circuit,
                       const solve::OperatingPoint& state,
                       const PlayedLoud* loud) {
  return {circuit, state, loud, loud == nullptr ? node_swings(circuit, state) : loud->swings};
}

PartDemand::PartDemand(const StageAsked& stage, PartId id)
    : stage_(stage), id_(id), part_(stage.circuit.at(id)) {
  swing_ = swing_across(stage.swings, part_, 0, part_.leads.size() - 1);
  if (stage.loud == nullptr) return;
  const auto& parts = stage.loud->output_parts;
  const auto found = std::find_if(
      parts.begin(), parts.end(), [&](const OutputPart& one) { return one.part == id; });
  if (found != parts.end()) output_ = *found;
}

bool PartDemand::sees_the_swing() const noexcept { return std::abs(swing_) > most_of_the_swing; }

double PartDemand::voltage_v() const {
  const auto sources = outermost_sources(stage_.circuit, stage_.state.conditions());
  if (sees_the_swing()) return sources.widest_v();
  double at_rest_v = -across_v(0, part_.leads.size() - 1, stage_.state);
  if (circuit::is_transistor(part_.kind)) at_rest_v = std::abs(at_rest_v);
  const double tolerance = std::max(sources.low_tolerance, sources.high_tolerance);
  return std::max(0.0, at_rest_v * (1.0 + tolerance) + std::abs(swing_) * sources.peak_v());
}

std::optional<double> PartDemand::current_a() const {
  const double at_rest_a = std::abs(amps_of(stage_.circuit, id_, stage_.state));
  if (const auto tops = top_currents_a()) {
    return std::max({at_rest_a, std::abs((*tops)[0]), std::abs((*tops)[1])});
  }
  if (output_) return std::max(at_rest_a, output_->share * stage_.loud->full.peak_a);
  return std::nullopt;
}

std::optional<double> PartDemand::reverse_base_v() const {
  if (!top_currents_a()) return std::nullopt;
  return std::max({0.0,
                   reverse_base_v(stage_.state),
                   reverse_base_v(*stage_.loud->gives),
                   reverse_base_v(*stage_.loud->takes)});
}

std::optional<OutputPart> PartDemand::carries() const {
  if (output_) return output_;
  const auto tops = top_currents_a();
  if (!tops || !sees_the_swing()) return std::nullopt;
  const double rest_a = amps_of(stage_.circuit, id_, stage_.loud->rest);
  const Half half = (*tops)[0] >= (*tops)[1] ? Half::upper : Half::lower;
  const double rise_a = std::max((*tops)[0], (*tops)[1]) - rest_a;
  return OutputPart{id_, half, std::max(0.0, rise_a) / stage_.loud->full.peak_a};
}

double PartDemand::loud_w(const OutputPart& carried, double phase_rad) const {
  const double standing_w = output_ ? 0.0 : std::max(0.0, stage_.state.part(id_).power_w);
  return standing_w +
         carried.share * mean_dissipation_w(stage_.loud->full, worst_level(phase_rad), phase_rad);
}

LoadLine PartDemand::load_line(const OutputPart& carried, double phase_rad) const {
  const PlayedLoud& loud = *stage_.loud;
  const OutermostSources high = loud.sources.with_mains_high();
  LoadLine line;
  line.supply_v =
      carried.half == Half::upper ? high.high_v - high.mid_v() : high.mid_v() - high.low_v;
  line.peak_v = loud.full.peak_v;
  line.peak_a = output_ ? carried.share * loud.full.peak_a : current_a().value_or(0.0);
  line.phase_rad = phase_rad;
  return line;
}

std::optional<std::array<double, 2>> PartDemand::top_currents_a() const {
  const PlayedLoud* loud = stage_.loud;
  if (loud == nullptr || !loud->gives || !loud->takes) return std::nullopt;
  return std::array{amps_of(stage_.circuit, id_, *loud->gives),
                    amps_of(stage_.circuit, id_, *loud->takes)};
}

double PartDemand::across_v(std::size_t lead_1,
                            std::size_t lead_2,
                            const solve::OperatingPoint& state) const {
  const auto one = circuit::lead(part_, lead_1);
  const auto other = circuit::lead(part_, lead_2);
  return one && other ? state.voltage_v(*one) - state.voltage_v(*other) : 0.0;
}

double PartDemand::reverse_base_v(const solve::OperatingPoint& state) const {
  const double emitter_over_base_v =
      across_v(circuit::emitter_or_source, circuit::base_or_gate, state);
  return circuit::is_p_kind(part_.kind) ? -emitter_over_base_v : emitter_over_base_v;
}

}  // namespace idlepoint::answers
