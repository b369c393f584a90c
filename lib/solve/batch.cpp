#include "solve/batch.hpp"

#include <oneapi/tbb/global_control.h>
#include <oneapi/tbb/info.h>
#include <oneapi/tbb/parallel_for.h>
#include <oneapi/tbb/task_arena.h>

#include <algorithm>
#include <limits>

#include "solve/adjust.hpp"
#include "solve/draws.hpp"
#include "solve/make_lane_plan.hpp"

namespace idlepoint::solve {
namespace {

constexpr std::size_t samples_a_block = 256;  ///< A multiple of every width.
constexpr std::size_t blocks_a_round = 16;    ///< Between two looks at `go_on`.

std::vector<Wanted> wanted_trimmers(const circuit::Circuit& circuit, const System& system) {
  std::vector<Wanted> wanted;
  for (const circuit::Adjustment& adjustment : circuit.adjustments) {
    const auto track = track_of(system.wiring, adjustment.trimmer);
    if (!track) continue;
    wanted.push_back({*track, circuit.at(adjustment.reading).probe, adjustment.target});
  }
  return wanted;
}

double travel_of(const circuit::Circuit& circuit, circuit::PartId trimmer) {
  return std::get<circuit::TrimmerDetails>(circuit.at(trimmer).details).travel;
}

/// The nominal state in the lanes themselves: its branch is the one that samples must stay on.
bool note_branch(LanePlan& plan) {
  circuit::Uncertainty without_draws{plan.uncertainty.parameters, {}};
  std::swap(plan.uncertainty, without_draws);
  std::vector<double> values(plan.probes.size() + plan.travels.size());
  const auto settles = [&](bool negative) {
    plan.determinant_is_negative = negative;
    Fate fate = Fate::failed;
    lane_kernels().front().run(plan, {1, 0, values, {&fate, 1}});
    return fate == Fate::settled;
  };
  const bool found = settles(false) || settles(true);
  std::swap(plan.uncertainty, without_draws);
  return found;
}

}  // namespace

std::variant<Batch, NotSettled, ThermalTrouble> Batch::make(const circuit::CheckedCircuit& checked,
                                                            const Conditions& conditions,
                                                            circuit::Uncertainty uncertainty,
                                                            std::vector<circuit::Probe> probes,
                                                            Trimmers trimmers) {
  const circuit::Circuit& circuit = *checked;
  Batch batch(checked, conditions, std::move(uncertainty), std::move(probes));
  StateFinder finder(circuit, conditions);
  RestOrStory found = finder.find();
  if (auto* story = std::get_if<NotSettled>(&found)) return std::move(*story);
  if (auto* trouble = std::get_if<ThermalTrouble>(&found)) return *trouble;
  const Rest& rest = std::get<Rest>(found);
  for (const circuit::Probe& probe : batch.probes_) {
    batch.nominal_.push_back(finder.read(probe, rest));
  }
  LaneStart start{rest.at, rest.power_w, rest.sink_rise_k, {}};
  std::vector<Wanted> wanted;
  if (trimmers == Trimmers::follow) {
    batch.trimmers_follow_ = true;
    wanted = wanted_trimmers(circuit, finder.solver().system());
    for (const circuit::Adjustment& adjustment : circuit.adjustments) {
      start.at.travels.push_back(travel_of(circuit, adjustment.trimmer));
      batch.nominal_.push_back(start.at.travels.back());
    }
    BorderedState at = start.at;
    const auto border = finder.newton().border(wanted, at);
    if (!border) return batch;
    start.slope_per_travel = finder.newton().slopes_by_travel(*border);
  }
  batch.plan_ = make_lane_plan(
      circuit, finder.solver(), finder.heat(), start, batch.uncertainty_, batch.probes_, wanted);
  if (batch.plan_ && !note_branch(*batch.plan_)) batch.plan_.reset();
  return batch;
}

Samples Batch::run(const BatchOptions& options) const {
  Samples samples;
  samples.columns = nominal_.size();
  samples.fates.assign(options.samples, Fate::failed);
  samples.values.assign(options.samples * samples.columns, 0.0);
  const auto at_hand = static_cast<std::size_t>(oneapi::tbb::info::default_concurrency());
  const std::size_t threads = options.threads == 0 ? at_hand : options.threads;
  // Also more than the machine has, where asked for.
  const oneapi::tbb::global_control limit(oneapi::tbb::global_control::max_allowed_parallelism,
                                          std::max(threads, at_hand));
  oneapi::tbb::task_arena arena(static_cast<int>(threads));
  std::size_t done = 0;
  while (done < options.samples) {
    const std::size_t end = std::min(done + samples_a_block * blocks_a_round, options.samples);
    const std::size_t blocks = (end - done + samples_a_block - 1) / samples_a_block;
    arena.execute([&] {
      oneapi::tbb::parallel_for(std::size_t{0}, blocks, [&](std::size_t block) {
        run_block(options, done + block * samples_a_block, samples);
      });
    });
    done = end;
    if (options.go_on && !options.go_on(done)) break;
  }
  samples.fates.resize(done);
  samples.values.resize(done * samples.columns);
  return samples;
}

void Batch::run_block(const BatchOptions& options, std::size_t begin, Samples& samples) const {
  const std::size_t count = std::min(samples_a_block, samples.fates.size() - begin);
  const std::span values(samples.values.data() + begin * samples.columns, count * samples.columns);
  const std::span fates(samples.fates.data() + begin, count);
  if (plan_) {
    const LaneKernel& kernel = options.kernel ? *options.kernel : best_kernel(*plan_);
    kernel.run(*plan_, {options.seed, options.first + begin, values, fates});
  }
  // In the warm state the lanes have gone the scalar solver's own way, from cold; to follow each
  // that runs away once more would cost a hundred times the rest.
  const bool is_tried = plan_ && !plan_->heated.empty();
  for (std::size_t k = 0; k < count; ++k) {
    if (fates[k] != Fate::failed) continue;
    const auto row = values.subspan(k * samples.columns, samples.columns);
    if (!is_tried) fates[k] = solve_alone(options.seed, options.first + begin + k, row);
    if (fates[k] != Fate::failed) continue;
    std::fill(row.begin(), row.end(), std::numeric_limits<double>::quiet_NaN());
  }
}

Fate Batch::solve_alone(std::uint64_t seed, std::uint64_t sample, std::span<double> values) const {
  std::vector<double> u(uncertainty_.draws.size());
  for (std::size_t k = 0; k < u.size(); ++k) u[k] = draw(seed, sample, k);
  circuit::CheckedCircuit variant = circuit::with_parameters(
      *circuit_, uncertainty_.parameters, circuit::values_at(**circuit_, uncertainty_, u));
  bool is_reached = true;
  if (trimmers_follow_) {
    AdjustedOrStory adjusted = solve_adjustments(variant, conditions_, {});
    auto* found = std::get_if<Adjusted>(&adjusted);
    if (found == nullptr) return Fate::failed;
    for (std::size_t k = 0; k < found->settings.size(); ++k) {
      values[probes_.size() + k] = found->settings[k].travel;
      is_reached = is_reached && found->settings[k].reached;
    }
    variant = found->circuit;
  }
  StateFinder finder(*variant, conditions_);
  const std::optional<Rest> rest = finder.find_quickly();
  if (!rest) return Fate::failed;
  for (std::size_t k = 0; k < probes_.size(); ++k) values[k] = finder.read(probes_[k], *rest);
  return is_reached ? Fate::settled : Fate::out_of_reach;
}

}  // namespace idlepoint::solve
