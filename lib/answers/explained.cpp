#include "answers/explained.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace idlepoint::answers {
namespace {

using circuit::CheckedCircuit;

std::optional<CheckedCircuit> with_faults(const Evidence& evidence,
                                          const std::vector<SuspectedFault>& faults) {
  CheckedCircuit faulty = *evidence.light;
  for (const SuspectedFault& fault : faults) {
    if (const auto* other = std::get_if<circuit::SetType>(&fault.edit)) {
      faulty = faulty.edited([&](circuit::Circuit& circuit) {
        circuit.types[other->type.index] = (*evidence.stage)->at(other->type);
      });
    }
    auto applied = circuit::apply(faulty, fault.edit);
    auto* next = std::get_if<CheckedCircuit>(&applied);
    if (next == nullptr) return std::nullopt;
    faulty = std::move(*next);
  }
  return faulty;
}

double three_figures(double value) {
  if (value == 0.0) return 0.0;
  const double scale = std::pow(10.0, 2.0 - std::floor(std::log10(std::abs(value))));
  return std::round(value * scale) / scale;
}

circuit::Edit rounded(circuit::Edit edit) {
  if (auto* value = std::get_if<circuit::SetValue>(&edit))
    value->value = three_figures(value->value);
  if (auto* leak = std::get_if<circuit::Leak>(&edit)) leak->ohm = three_figures(leak->ohm);
  if (auto* gain = std::get_if<circuit::SetGain>(&edit)) gain->gain = three_figures(gain->gain);
  if (auto* travel = std::get_if<circuit::SetTravel>(&edit)) {
    travel->travel = std::round(travel->travel * 1e3) / 1e3;
  }
  return edit;
}

}  // namespace

CheckedCircuit without_unused_types(const CheckedCircuit& stage) {
  return stage.edited([](circuit::Circuit& circuit) {
    for (std::size_t index = 0; index < circuit.types.size(); ++index) {
      const bool is_used =
          std::any_of(circuit.parts.begin(), circuit.parts.end(), [&](const auto& part) {
            return part.type && part.type->index == index;
          });
      if (!is_used) circuit.types[index] = {};
    }
  });
}

std::optional<BenchStage> Evidence::sound_channel() const {
  if (sound_readings.empty()) return std::nullopt;
  std::vector<SuspectedFault> travels;
  for (std::size_t index = 0; index < (*stage)->parts.size(); ++index) {
    const circuit::Part& part = (*stage)->parts[index];
    if (part.kind != circuit::PartKind::trimmer || part.damage.absent) continue;
    travels.push_back({circuit::SetTravel{circuit::PartId{index}, 0.5},
                       FaultKind::set_elsewhere,
                       0.0,
                       SizeRange{0.0, 1.0, false},
                       {},
                       circuit::PartId{index}});
  }
  return BenchStage(*light, conditions, std::move(travels), sound_measurements);
}

std::vector<SuspectedFault> Explanation::sized() const {
  std::vector<SuspectedFault> list;
  for (const SuspectedFault& fault : faults) {
    if (fault.size) list.push_back(fault);
  }
  return list;
}

std::vector<circuit::Edit> Explanation::edits() const {
  std::vector<circuit::Edit> list;
  std::size_t size = 0;
  for (const SuspectedFault& fault : faults) {
    const double t = fault.size && fit ? fit->t[size] : 0.0;
    list.push_back(rounded(edit_at(fault, t)));
    if (fault.size) ++size;
  }
  return list;
}

namespace {

/// The measurements of a diagnosis only grow: their number tells a bench's from later ones.
std::shared_ptr<BenchStage> bench_of(const Explanation& explanation, const Evidence& evidence) {
  const BenchStage* earlier = nullptr;
  for (const auto* known : {&explanation.bench, &explanation.first_bench}) {
    if (*known && (*known)->measurements() == evidence.measurements.size()) return *known;
    if (*known && earlier == nullptr) earlier = known->get();
  }
  return std::make_shared<BenchStage>(*explanation.faulty,
                                      evidence.conditions,
                                      explanation.sized(),
                                      evidence.measurements,
                                      evidence.sound_when_off,
                                      earlier);
}

/// What the readings that came since the stretch was fitted show where that has ended.
std::optional<Shown> shown_since(const Explanation& explanation,
                                 const Evidence& evidence,
                                 const Stretch& stretch) {
  const ToleranceFit& earlier = *stretch.fit;
  const auto sized = explanation.sized();
  const PlannedStage stage{
      *explanation.faulty, evidence.conditions, sized, evidence.sound_when_off};
  Shown all;
  for (std::size_t k = earlier.off.size(); k < evidence.measurements.size(); ++k) {
    const std::vector<circuit::Measurement> one = {evidence.measurements[k]};
    const Standing from{earlier.slopes_u, earlier.slopes_t};
    const Standing at{earlier.u, earlier.t};
    auto shown = circuit::is_power_off(one.front())
                     ? stretch.planned->show_off(stage, one, at, Slopes::of_all)
                     : stretch.planned->show_on(*explanation.bench, one, from, at);
    if (!shown) return std::nullopt;
    all.values.push_back(shown->values.front());
    all.by_draw.push_back(std::move(shown->by_draw.front()));
  }
  return all;
}

/// A suspect's stage, the channel that works, and what was read on both.
struct BothChannels {
  BothChannels(BenchStage& suspect, const Evidence& evidence) : sound(evidence.sound_channel()) {
    channels.push_back({&suspect, evidence.readings});
    if (sound) channels.push_back({&*sound, evidence.sound_readings});
  }
  std::optional<BenchStage> sound;
  std::vector<Channel> channels;
};

/// Brings every stretch up straight from where it was. False where that cannot be done.
bool fit_straight(Explanation& explanation, const Evidence& evidence) {
  const BothChannels both(*explanation.bench, evidence);
  for (Stretch& stretch : explanation.stretches) {
    if (!stretch.fit) continue;
    const auto shown = shown_since(explanation, evidence, stretch);
    if (!shown) return false;
    auto fit = fit_tolerances(both.channels, {{}, &*stretch.fit, &*shown}, -1e300);
    if (!fit) return false;
    stretch.fit = std::move(fit);
  }
  return true;
}

/// The explanation's fit: the best of its stretches with the evidence of all.
void sum_up(Explanation& explanation, double least) {
  const auto [best, log_evidence] = best_of_stretches(explanation.stretches);
  if (best == nullptr || log_evidence < least) return;
  explanation.fit = best->fit;
  explanation.fit->log_evidence = log_evidence;
  explanation.planned = best->planned;
}

}  // namespace

void explain(Explanation& explanation, const Evidence& evidence, double hopeless, Fitting fitting) {
  const bool is_fitted = explanation.fit.has_value();
  explanation.fit.reset();
  if (!explanation.faulty) explanation.faulty = with_faults(evidence, explanation.faults);
  if (!explanation.faulty) return;
  const double least = hopeless - explanation.log_prior;
  if (fitting == Fitting::straight && is_fitted && explanation.bench &&
      fit_straight(explanation, evidence)) {
    sum_up(explanation, least);
    return;
  }
  const auto suspect = bench_of(explanation, evidence);
  if (explanation.stretches.empty()) explanation.stretches = stretches_of(suspect->sizes());
  if (evidence.keeps_benches && !explanation.first_bench) explanation.first_bench = suspect;
  const BothChannels both(*suspect, evidence);
  fit_stretches(explanation.stretches, both.channels, least);
  sum_up(explanation, least);
  explanation.bench = explanation.fit ? suspect : nullptr;
}

namespace {

/// As before_the_readings, straight from where the readings have put the parts.
Before straight_before(const Explanation& explanation, const Evidence& evidence) {
  const ToleranceFit& fit = *explanation.fit;
  const Unknowns unknowns(*explanation.bench, nullptr);
  Before before;
  auto slopes = fit.slopes;
  for (std::size_t s = 0; s < fit.t.size(); ++s) slopes.col(unknowns.of_size(s)).setZero();
  const Eigen::VectorXd back = slopes * fit.unknowns;
  for (std::size_t k = 0; k < fit.off.size(); ++k) {
    const auto row = static_cast<Eigen::Index>(k);
    before.mean.push_back(fit.shown[k] - back[row]);
    before.deviation.push_back(std::hypot(
        slopes.row(row).norm(),
        meter_deviation((*evidence.stage)->meter, evidence.measurements[k], before.mean[k])));
  }
  return before;
}

}  // namespace

std::optional<Before> before_the_readings(const Explanation& explanation,
                                          const Evidence& evidence) {
  if (explanation.fit->is_straight && evidence.sound_readings.empty()) {
    return straight_before(explanation, evidence);
  }
  const auto suspect = bench_of(explanation, evidence);
  const std::vector<double> middle(suspect->draws(), 0.0);
  const auto shown = suspect->show(middle, explanation.fit->t, Slopes::of_all);
  if (!shown) return std::nullopt;
  const Unknowns unknowns(*suspect, nullptr);
  auto slopes = unknowns.by_unknown(0, shown->by_draw);
  for (std::size_t s = 0; s < suspect->sizes(); ++s) slopes.col(unknowns.of_size(s)).setZero();
  Before before{shown->values, {}};
  for (std::size_t k = 0; k < before.mean.size(); ++k) {
    before.deviation.push_back(std::hypot(
        slopes.row(static_cast<Eigen::Index>(k)).norm(),
        meter_deviation((*evidence.stage)->meter, evidence.measurements[k], before.mean[k])));
  }
  return before;
}

}  // namespace idlepoint::answers
