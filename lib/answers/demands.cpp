#include "answers/demands.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "answers/derating.hpp"
#include "answers/safe_area.hpp"
#include "values/constants.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Circuit;
using circuit::Part;
using circuit::PartId;

/// A part that sees more than this of the swing stands between the output and a rail, and sees all.
constexpr double sees_the_swing = 0.5;
constexpr double reactive_angle_rad = std::numbers::pi / 3.0;

constexpr std::size_t base_or_gate = 1;
constexpr std::size_t emitter_or_source = 2;

RatingCheck judged(PartId part,
                   Rating rating,
                   std::optional<double> limit,
                   std::optional<double> demand) {
  RatingCheck check{part, rating, limit, demand};
  if (!limit || !demand) return check;
  check.ok = *demand <= *limit;
  if (*limit > 0.0) check.margin = 1.0 - *demand / *limit;
  return check;
}

/// What one part is asked for.
class Asked {
 public:
  Asked(const Circuit& circuit,
        const solve::OperatingPoint& state,
        const PlayedLoud* loud,
        PartId id)
      : circuit_(circuit), state_(state), loud_(loud), id_(id), part_(circuit.at(id)) {
    if (loud == nullptr) return;
    swing_ = loud->swing_across(part_, 0, part_.leads.size() - 1);
    const auto found = std::find_if(loud->output_parts.begin(),
                                    loud->output_parts.end(),
                                    [&](const OutputPart& one) { return one.part == id; });
    if (found != loud->output_parts.end()) output_ = *found;
  }

  [[nodiscard]] bool sees_the_swing() const { return std::abs(swing_) > answers::sees_the_swing; }

  /// Backwards across a diode, either way across a transistor.
  [[nodiscard]] double voltage_v() const {
    const OutermostSources sources = outermost_sources(circuit_, state_.conditions());
    if (sees_the_swing()) return sources.widest_v();
    double at_rest_v = -across_v(0, part_.leads.size() - 1, state_);
    if (circuit::is_transistor(part_.kind)) at_rest_v = std::abs(at_rest_v);
    const double peak_v = loud_ == nullptr ? 0.0 : loud_->full.peak_v;
    const double tolerance = std::max(sources.low_tolerance, sources.high_tolerance);
    return std::max(0.0, at_rest_v * (1.0 + tolerance) + std::abs(swing_) * peak_v);
  }

  [[nodiscard]] std::optional<double> current_a() const {
    const double at_rest_a = std::abs(amps_of(circuit_, id_, state_));
    if (const auto tops = top_currents_a()) {
      return std::max({at_rest_a, std::abs((*tops)[0]), std::abs((*tops)[1])});
    }
    if (output_) return std::max(at_rest_a, output_->share * loud_->full.peak_a);
    return std::nullopt;
  }

  [[nodiscard]] std::optional<double> reverse_base_v() const {
    if (!has_tops()) return std::nullopt;
    return std::max({0.0,
                     reverse_base_v(state_),
                     reverse_base_v(*loud_->gives),
                     reverse_base_v(*loud_->takes)});
  }

  /// The part's share of the load's current, and the half it is the larger in; none where it does
  /// not stand across the moving output, or where that is not known.
  [[nodiscard]] std::optional<OutputPart> carries() const {
    if (output_) return output_;
    const auto tops = top_currents_a();
    if (!tops || !sees_the_swing()) return std::nullopt;
    const double rest_a = amps_of(circuit_, id_, loud_->rest);
    const Half half = (*tops)[0] >= (*tops)[1] ? Half::upper : Half::lower;
    const double rise_a = std::max((*tops)[0], (*tops)[1]) - rest_a;
    return OutputPart{id_, half, std::max(0.0, rise_a) / loud_->full.peak_a};
  }

  /// Mean watts at the worst level of a sine. An output part's standing current is part of the
  /// sine; a driver's stays beside it.
  [[nodiscard]] double loud_w(const OutputPart& carried, double phase_rad) const {
    const double standing_w = output_ ? 0.0 : std::max(0.0, state_.part(id_).power_w);
    return standing_w +
           carried.share * mean_dissipation_w(loud_->full, worst_level(phase_rad), phase_rad);
  }

  [[nodiscard]] LoadLine load_line(const OutputPart& carried, double phase_rad) const {
    OutermostSources high = loud_->sources;
    high.low_v *= 1.0 + high.low_tolerance;
    high.high_v *= 1.0 + high.high_tolerance;
    LoadLine line;
    line.supply_v =
        carried.half == Half::upper ? high.high_v - high.mid_v() : high.mid_v() - high.low_v;
    line.peak_v = loud_->full.peak_v;
    line.peak_a = output_ ? carried.share * loud_->full.peak_a : current_a().value_or(0.0);
    line.phase_rad = phase_rad;
    return line;
  }

 private:
  [[nodiscard]] bool has_tops() const { return loud_ != nullptr && loud_->gives && loud_->takes; }

  [[nodiscard]] std::optional<std::array<double, 2>> top_currents_a() const {
    if (!has_tops()) return std::nullopt;
    return std::array{amps_of(circuit_, id_, *loud_->gives), amps_of(circuit_, id_, *loud_->takes)};
  }

  [[nodiscard]] double across_v(std::size_t lead_1,
                                std::size_t lead_2,
                                const solve::OperatingPoint& state) const {
    const auto one = circuit::lead(part_, lead_1);
    const auto other = circuit::lead(part_, lead_2);
    return one && other ? state.voltage_v(*one) - state.voltage_v(*other) : 0.0;
  }

  [[nodiscard]] double reverse_base_v(const solve::OperatingPoint& state) const {
    const double emitter_over_base_v = across_v(emitter_or_source, base_or_gate, state);
    return circuit::is_p_kind(part_.kind) ? -emitter_over_base_v : emitter_over_base_v;
  }

  const Circuit& circuit_;
  const solve::OperatingPoint& state_;
  const PlayedLoud* loud_;
  PartId id_;
  const Part& part_;
  double swing_ = 0.0;
  std::optional<OutputPart> output_;
};

RatingCheck safe_area_check(PartId id,
                            Rating rating,
                            const circuit::Ratings& ratings,
                            double share_of_power,
                            const LoadLine& line) {
  const auto worst = worst_point(ratings, share_of_power, line);
  if (!worst) return judged(id, rating, std::nullopt, line.peak_a);
  RatingCheck check = judged(id, rating, worst->limit_a, worst->current_a);
  check.at_v = worst->voltage_v;
  return check;
}

void check_at_rest(const Circuit& circuit,
                   const solve::OperatingPoint& state,
                   const PlayedLoud* loud,
                   PartId id,
                   std::vector<RatingCheck>& checks) {
  const Part& part = circuit.at(id);
  const circuit::Ratings& ratings = circuit.at(*part.type).ratings;
  const Asked asked(circuit, state, loud, id);
  checks.push_back(judged(id, Rating::voltage, ratings.max_voltage_v, asked.voltage_v()));
  checks.push_back(judged(id, Rating::current, ratings.max_current_a, asked.current_a()));
  if (circuit::is_bipolar(part.kind)) {
    checks.push_back(judged(id,
                            Rating::base_emitter_voltage,
                            ratings.max_base_emitter_voltage_v,
                            asked.reverse_base_v()));
  }
  checks.push_back(judged(id,
                          Rating::idle_power,
                          allowed_w(circuit, id, state),
                          std::max(0.0, state.part(id).power_w)));
  checks.push_back(judged(id,
                          Rating::junction_temperature,
                          values::celsius_from_kelvin(ratings.max_junction_temperature_k),
                          values::celsius_from_kelvin(state.part(id).junction_k)));
}

void check_played_loud(const Circuit& circuit,
                       const solve::OperatingPoint& state,
                       const PlayedLoud& loud,
                       PartId id,
                       std::vector<RatingCheck>& checks) {
  const Asked asked(circuit, state, &loud, id);
  const auto carried = asked.carries();
  if (!carried) return;
  const circuit::Ratings& ratings = circuit.at(*circuit.at(id).type).ratings;
  const auto allowed = allowed_w(circuit, id, state);
  checks.push_back(judged(id, Rating::resistive_power, allowed, asked.loud_w(*carried, 0.0)));
  checks.push_back(
      judged(id, Rating::reactive_power, allowed, asked.loud_w(*carried, reactive_angle_rad)));
  const double of_power = power_share(ratings, surroundings_of(circuit, id, state));
  checks.push_back(safe_area_check(
      id, Rating::safe_area_resistive, ratings, of_power, asked.load_line(*carried, 0.0)));
  checks.push_back(safe_area_check(id,
                                   Rating::safe_area_reactive,
                                   ratings,
                                   of_power,
                                   asked.load_line(*carried, reactive_angle_rad)));
}

}  // namespace

std::string_view word(Rating rating) noexcept {
  switch (rating) {
    case Rating::voltage:
      return "voltage";
    case Rating::current:
      return "current";
    case Rating::base_emitter_voltage:
      return "base_emitter_voltage";
    case Rating::idle_power:
      return "idle_power";
    case Rating::junction_temperature:
      return "junction_temperature";
    case Rating::resistive_power:
      return "resistive_power";
    case Rating::reactive_power:
      return "reactive_power";
    case Rating::safe_area_resistive:
      return "safe_area_resistive";
    case Rating::safe_area_reactive:
      return "safe_area_reactive";
  }
  return "";
}

std::vector<RatingCheck> check_ratings(const Circuit& circuit,
                                       const solve::OperatingPoint& state,
                                       const PlayedLoud* loud,
                                       const std::vector<PartId>& parts) {
  std::vector<RatingCheck> checks;
  for (const PartId id : parts) {
    const Part& part = circuit.at(id);
    if (!part.type || part.damage.absent || part.damage.is_link) continue;
    check_at_rest(circuit, state, loud, id, checks);
    if (loud != nullptr && circuit::is_transistor(part.kind)) {
      check_played_loud(circuit, state, *loud, id, checks);
    }
  }
  return checks;
}

std::vector<RatingCheck> check_ratings(const circuit::CheckedCircuit& stage,
                                       const solve::OperatingPoint& state,
                                       const solve::Conditions& conditions,
                                       const std::vector<PartId>& parts) {
  const auto played = play_loud(stage, conditions);
  return check_ratings(*stage, state, std::get_if<PlayedLoud>(&played), parts);
}

std::vector<PeakDrive> peak_drives(const Circuit& circuit,
                                   const PlayedLoud& loud,
                                   const std::vector<PartId>& parts) {
  std::vector<PeakDrive> drives;
  for (const PartId id : parts) {
    const Part& part = circuit.at(id);
    if (!circuit::is_bipolar(part.kind) || part.damage.absent) continue;
    const double sign = circuit::is_p_kind(part.kind) ? -1.0 : 1.0;
    std::optional<double> most_a;
    for (const auto* top : {&loud.gives, &loud.takes}) {
      if (!*top) continue;
      const double base_a = sign * (*top)->part(id).lead_current_a[base_or_gate];
      most_a = most_a ? std::max(*most_a, base_a) : base_a;
    }
    if (most_a) drives.push_back({id, *most_a});
  }
  return drives;
}

}  // namespace idlepoint::answers
