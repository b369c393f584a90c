#include "answers/explained.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace idlepoint::answers {
namespace {

using circuit::CheckedCircuit;

/// Sizes of a fault that are tried first: one basin each.
constexpr std::array<double, 2> first_sizes = {-0.45, 0.45};

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

/// Every combination of first sizes, one row each.
std::vector<std::vector<double>> starts(std::size_t sizes) {
  std::vector<std::vector<double>> rows = {{}};
  for (std::size_t s = 0; s < sizes; ++s) {
    std::vector<std::vector<double>> longer;
    for (const auto& row : rows) {
      for (const double size : first_sizes) {
        longer.push_back(row);
        longer.back().push_back(size);
      }
    }
    rows = std::move(longer);
  }
  return rows;
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
  for (const auto* known : {&explanation.bench, &explanation.first_bench}) {
    if (*known && (*known)->measurements() == evidence.measurements.size()) return *known;
  }
  return std::make_shared<BenchStage>(
      *explanation.faulty, evidence.conditions, explanation.sized(), evidence.measurements);
}

/// Sets the explanation's fit, from the `earlier` one where that leads to any.
void fit_bench(Explanation& explanation,
               const Evidence& evidence,
               double hopeless,
               const std::optional<ToleranceFit>& earlier,
               BenchStage& suspect) {
  auto sound = evidence.sound_channel();
  std::vector<Channel> channels = {{&suspect, evidence.readings}};
  if (sound) channels.push_back({&*sound, evidence.sound_readings});
  const double least = hopeless - explanation.log_prior;
  const auto keep_better = [&](std::optional<ToleranceFit> fit) {
    if (fit && (!explanation.fit || fit->log_evidence > explanation.fit->log_evidence)) {
      explanation.fit = std::move(fit);
    }
  };
  if (earlier) {
    keep_better(fit_tolerances(channels, {{}, &*earlier}, least));
    if (explanation.fit) return;
  }
  for (const auto& start : starts(suspect.sizes())) {
    keep_better(fit_tolerances(channels, {start, nullptr}, least));
  }
}

}  // namespace

void explain(Explanation& explanation, const Evidence& evidence, double hopeless) {
  const auto earlier = std::exchange(explanation.fit, std::nullopt);
  if (!explanation.faulty) explanation.faulty = with_faults(evidence, explanation.faults);
  if (!explanation.faulty) return;
  const auto suspect = bench_of(explanation, evidence);
  if (evidence.keeps_benches && !explanation.first_bench) explanation.first_bench = suspect;
  fit_bench(explanation, evidence, hopeless, earlier, *suspect);
  explanation.bench = explanation.fit ? suspect : nullptr;
}
std::optional<Before> before_the_readings(const Explanation& explanation,
                                          const Evidence& evidence) {
  const auto suspect = bench_of(explanation, evidence);
  const std::vector<double> middle(suspect->draws(), 0.0);
  const auto shown = suspect->show(middle, explanation.fit->t, true);
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
