#include "answers/diagnose.hpp"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <numeric>
#include <utility>

#include "answers/assumed_spreads.hpp"
#include "answers/diagnosis_page.hpp"
#include "answers/explained.hpp"
#include "answers/movements.hpp"
#include "answers/unlisted.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::answers {
namespace {

using circuit::CheckedCircuit;

/// Prior times evidence this far below that of "none of these" is not looked at: e to the 9.
constexpr double hopeless_below = 9.0;

/// A suspect that earlier readings have left below this share of the best is fitted to a new one as
/// if all were straight from where it was.
constexpr double worth_settling = 0.1;

/// Above this share "none of these" means that no single fault fits, and pairs are tried.
constexpr double nothing_fits = 0.5;

/// The likeliest single faults that are paired with one another.
constexpr std::size_t paired = 24;

bool has_figure(const circuit::BenchReading& reading) {
  return reading.value || reading.firmness == circuit::Firmness::beyond_range;
}

Observed figure_of(const circuit::Circuit& circuit, const circuit::BenchReading& reading) {
  return has_figure(reading) ? observed(circuit.meter, reading) : without_figure();
}

std::vector<Explanation> explanations(const CheckedCircuit& stage,
                                      const std::vector<circuit::PartId>& good) {
  std::vector<Explanation> list;
  list.push_back({{}, std::log(healthy_odds)});
  const auto faults = suspects(stage, good);
  double total = 0.0;
  for (const SuspectedFault& fault : faults) total += fault.weight;
  for (const SuspectedFault& fault : faults) {
    const double share = (1.0 - healthy_odds - none_of_these_odds) * fault.weight / total;
    list.push_back({{fault}, std::log(share)});
  }
  return list;
}

}  // namespace

class Diagnosing::Impl {
 public:
  explicit Impl(DiagnoseAsked asked) : asked_(std::move(asked)), light_(asked_.sound.stage) {
    auto filled = with_assumed_spreads(asked_.sound.stage);
    asked_.sound.stage = std::move(filled.stage);
    assumed_ = std::move(filled.assumed);
    light_ = without_unused_types(asked_.sound.stage);
    sound_when_off_ = std::make_shared<SoundWhenOff>(light_, asked_.sound.conditions);
    singles_ = explanations(asked_.sound.stage, asked_.good);
  }

  void add(circuit::BenchReading reading) { asked_.readings.push_back(std::move(reading)); }

  void start_over(std::vector<circuit::BenchReading> readings) {
    asked_.readings = std::move(readings);
    is_narrowed_ = false;
    pairs_.clear();
    for (Explanation& one : singles_) {
      one.fit.reset();
      one.bench.reset();
      for (Stretch& stretch : one.stretches) {
        stretch.fit.reset();
        stretch.planned->start_over();
      }
    }
  }

  Diagnosis answer(const GoOn& go_on) {
    go_on_ = &go_on;
    gather();
    explain_singles();
    if (is_narrowed_ && share_of_none() > nothing_fits) {
      is_narrowed_ = false;
      explain_singles();
    }
    pairs_.clear();
    bool pairs_tried = false;
    if (share_of_none() > nothing_fits) {
      explain_all(singles_, -1e300, 0.6, 0.7);
      weigh_movements(asked_, evidence_, singles_);
      try_pairs();
      pairs_tried = true;
    }
    std::vector<const Explanation*> all;
    for (const auto* list : {&singles_, &pairs_}) {
      for (const Explanation& one : *list) all.push_back(&one);
    }
    Diagnosis page = make_page(asked_, evidence_, all, none_log_posterior());
    page.assumed = assumed_;
    page.pairs_tried = pairs_tried;
    page.tried = singles_.size() - 1;
    is_narrowed_ = !pairs_tried;
    go_on(1.0);
    return page;
  }

 private:
  void gather() {
    const CheckedCircuit& stage = asked_.sound.stage;
    evidence_ = {&stage,
                 &light_,
                 asked_.sound.conditions,
                 {},
                 {},
                 {},
                 {},
                 sound_when_off_,
                 asked_.is_asked_again};
    for (const circuit::BenchReading& reading : asked_.readings) {
      evidence_.measurements.push_back(reading.measurement);
      evidence_.readings.push_back(figure_of(*stage, reading));
    }
    for (const circuit::BenchReading& reading : asked_.sound_channel) {
      if (!has_figure(reading)) continue;
      evidence_.sound_measurements.push_back(reading.measurement);
      evidence_.sound_readings.push_back(figure_of(*stage, reading));
    }
  }

  [[nodiscard]] double none_log_posterior() const {
    double sum = std::log(none_of_these_odds);
    const circuit::Circuit& circuit = *asked_.sound.stage;
    for (std::size_t k = 0; k < evidence_.readings.size(); ++k) {
      sum +=
          has_figure(asked_.readings[k])
              ? log_density_of_anything(circuit, evidence_.measurements[k], evidence_.readings[k])
              : -std::log(evidence_.readings[k].deviation * std::sqrt(2.0 * M_PI));
      sum += log_chance_of_movement(asked_.readings[k]);
    }
    for (std::size_t k = 0; k < evidence_.sound_readings.size(); ++k) {
      sum += log_density_of_anything(
          circuit, evidence_.sound_measurements[k], evidence_.sound_readings[k]);
    }
    return sum;
  }

  void explain_all(std::vector<Explanation>& list, double hopeless, double from, double to) {
    std::atomic<bool> stopped = false;
    std::atomic<std::size_t> done = 0;
    const bool only_those_in = is_narrowed_;
    tbb::parallel_for(std::size_t{0}, list.size(), [&](std::size_t k) {
      if (stopped || (only_those_in && !list[k].fit)) return;
      explain(list[k], evidence_, hopeless, only_those_in ? Fitting::straight : Fitting::exact);
      const std::size_t so_far = ++done;
      const double share = static_cast<double>(so_far) / static_cast<double>(list.size());
      if (so_far % 16 == 0 && !(*go_on_)(from + share * (to - from))) stopped = true;
    });
  }

  void explain_singles() {
    explain_all(singles_, none_log_posterior() - hopeless_below, 0.0, 0.6);
    if (is_narrowed_) settle_the_likely();
    weigh_movements(asked_, evidence_, singles_);
  }

  /// What has been fitted straight, where it matters.
  void settle_the_likely() {
    double best = none_log_posterior();
    for (const Explanation& one : singles_) {
      if (one.fit) best = std::max(best, one.log_posterior());
    }
    tbb::parallel_for(std::size_t{0}, singles_.size(), [&](std::size_t k) {
      Explanation& one = singles_[k];
      if (!one.fit || one.log_posterior() < best + std::log(worth_settling)) return;
      explain(one, evidence_, none_log_posterior() - hopeless_below);
    });
  }

  [[nodiscard]] double share_of_none() const {
    double best = none_log_posterior();
    const double none = best;
    for (const Explanation& one : singles_) {
      if (one.fit) best = std::max(best, one.log_posterior());
    }
    double total = std::exp(none - best);
    for (const Explanation& one : singles_) {
      if (one.fit) total += std::exp(one.log_posterior() - best);
    }
    return std::exp(none - best) / total;
  }

  /// Every two of the single faults that come nearest, each counted by the readings it explains.
  void try_pairs() {
    std::vector<std::pair<double, std::size_t>> nearest;
    for (std::size_t k = 1; k < singles_.size(); ++k) {
      if (!singles_[k].fit) continue;
      double miss = 0.0;
      for (const double off : singles_[k].fit->off) miss += std::min(off * off, 9.0);
      nearest.emplace_back(0.5 * miss - singles_[k].log_prior, k);
    }
    std::sort(nearest.begin(), nearest.end());
    nearest.resize(std::min(nearest.size(), paired));
    for (std::size_t one = 0; one < nearest.size(); ++one) {
      for (std::size_t other = one + 1; other < nearest.size(); ++other) {
        const Explanation& a = singles_[nearest[one].second];
        const Explanation& b = singles_[nearest[other].second];
        if (a.faults[0].part && a.faults[0].part == b.faults[0].part) continue;
        pairs_.push_back(
            {{a.faults[0], b.faults[0]}, a.log_prior + b.log_prior + std::log(second_fault_odds)});
      }
    }
    explain_all(pairs_, none_log_posterior() - hopeless_below, 0.7, 0.9);
    weigh_movements(asked_, evidence_, pairs_);
  }

  DiagnoseAsked asked_;
  CheckedCircuit light_;
  std::vector<std::string> assumed_;
  std::shared_ptr<SoundWhenOff> sound_when_off_;
  Evidence evidence_;
  std::vector<Explanation> singles_;  ///< The first: nothing is wrong.
  std::vector<Explanation> pairs_;
  bool is_narrowed_ = false;  ///< Suspects that earlier readings have put out stay out.
  const GoOn* go_on_ = nullptr;
};

Diagnosing::Diagnosing(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
Diagnosing::Diagnosing(Diagnosing&&) noexcept = default;
Diagnosing& Diagnosing::operator=(Diagnosing&&) noexcept = default;
Diagnosing::~Diagnosing() = default;

std::variant<Diagnosing, solve::NotSettled> Diagnosing::make(DiagnoseAsked asked) {
  solve::Conditions cold = asked.sound.conditions;
  cold.heat = solve::HeatState::cold;
  auto outcome = solve::solve_cold(asked.sound.stage, cold);
  if (auto* story = std::get_if<solve::NotSettled>(&outcome)) return std::move(*story);
  return Diagnosing(std::make_unique<Impl>(std::move(asked)));
}

void Diagnosing::add(circuit::BenchReading reading) { impl_->add(std::move(reading)); }

void Diagnosing::start_over(std::vector<circuit::BenchReading> readings) {
  impl_->start_over(std::move(readings));
}

Diagnosis Diagnosing::answer(const GoOn& go_on) { return impl_->answer(go_on); }

}  // namespace idlepoint::answers
