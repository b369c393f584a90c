#include "answers/spread.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "answers/preset.hpp"
#include "solve/batch.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Circuit;
using solve::Batch;
using solve::Fate;
using solve::Samples;
using BatchOrStory = std::variant<Batch, solve::NotSettled, solve::ThermalTrouble>;

std::vector<circuit::Probe> probes_of(const Circuit& circuit) {
  std::vector<circuit::Probe> probes;
  for (const auto& reading : circuit.readings) probes.push_back(reading.probe);
  return probes;
}

bool is_at_rest(Fate fate) { return fate == Fate::settled || fate == Fate::out_of_reach; }

Drawn count(const Samples& samples) {
  const auto how_many = [&](Fate fate) {
    return static_cast<std::size_t>(std::count(samples.fates.begin(), samples.fates.end(), fate));
  };
  Drawn drawn;
  drawn.done = samples.size();
  drawn.too_hot = how_many(Fate::too_hot);
  drawn.failed = how_many(Fate::failed) + drawn.too_hot;
  drawn.out_of_reach = how_many(Fate::out_of_reach);
  return drawn;
}

/// SI; of the samples whose fate `counts` takes.
std::vector<double> column(const Samples& samples, std::size_t index, bool (*counts)(Fate)) {
  std::vector<double> values;
  for (std::size_t sample = 0; sample < samples.size(); ++sample) {
    if (counts(samples.fates[sample])) values.push_back(samples.at(sample, index));
  }
  return values;
}

/// Share of the values outside `low` to `high`; 0 of none.
double share_outside(const std::vector<double>& values, double low, double high) {
  if (values.empty()) return 0.0;
  const auto outside = std::count_if(
      values.begin(), values.end(), [&](double value) { return value < low || value > high; });
  return static_cast<double>(outside) / static_cast<double>(values.size());
}

SampledReading sampled(const Samples& samples, std::size_t index, const circuit::Reading& reading) {
  std::vector<double> values = column(samples, index, is_at_rest);
  SampledReading result;
  if (reading.limit && !values.empty()) {
    result.outside_limit = share_outside(values, reading.limit->low, reading.limit->high);
  }
  const ReadingUnit unit = unit_of(reading.probe);
  for (double& value : values) value = in_own_unit(value, unit);
  result.values = distribution_of(std::move(values));
  return result;
}

ReadingValue nominal_reading(const circuit::Reading& reading, double si_value) {
  ReadingValue value{
      reading.name, reading.probe, unit_of(reading.probe), 0.0, reading.limit, {}, {}};
  value.value = in_own_unit(si_value, value.unit);
  if (reading.limit) {
    value.within_limit = si_value >= reading.limit->low && si_value <= reading.limit->high;
  }
  return value;
}

/// The work of one answer: two runs that share one progress and one way to stop.
class Asking {
 public:
  Asking(const Setup& setup, const SpreadAsked& asked)
      : setup_(setup),
        asked_(asked),
        answer_{setup.stage, setup.conditions, asked.samples, asked.seed} {}

  std::variant<Spread, solve::NotSettled, ThermalStory> run() {
    BatchOrStory made = make(setup_.stage, Batch::Trimmers::fixed);
    if (auto* story = std::get_if<solve::NotSettled>(&made)) return std::move(*story);
    if (const auto* trouble = std::get_if<solve::ThermalTrouble>(&made)) {
      return tell_thermal(setup_, setup_.stage, *trouble);
    }
    const std::optional<circuit::CheckedCircuit> preset = find_preset();
    runs_ = preset ? 2 : 1;
    take_fixed(std::get<Batch>(made));
    if (preset) set_each(*preset);
    answer_.changes = setup_.changes;
    answer_.warnings = standing_warnings(setup_);
    return std::move(answer_);
  }

 private:
  [[nodiscard]] BatchOrStory make(const circuit::CheckedCircuit& stage, Batch::Trimmers trimmers) {
    return Batch::make(
        stage, setup_.conditions, circuit::uncertainty(*stage), probes_of(*stage), trimmers);
  }

  Samples draw(const Batch& batch) {
    solve::BatchOptions options;
    options.samples = asked_.samples;
    options.seed = asked_.seed;
    options.threads = asked_.threads;
    options.go_on = [&](std::size_t done) {
      const double share = static_cast<double>(done) / static_cast<double>(asked_.samples);
      return !asked_.go_on || asked_.go_on((runs_done_ + share) / runs_);
    };
    Samples samples = batch.run(options);
    runs_done_ += 1.0;
    answer_.interrupted = samples.size() < asked_.samples;
    return samples;
  }

  void take_fixed(const Batch& batch) {
    const Circuit& circuit = *setup_.stage;
    const circuit::Uncertainty uncertainty = circuit::uncertainty(circuit);
    answer_.draws = uncertainty.draws.size();
    const Samples samples = draw(batch);
    std::vector<ReadingValue> nominal;
    for (std::size_t k = 0; k < circuit.readings.size(); ++k) {
      nominal.push_back(nominal_reading(circuit.readings[k], batch.nominal()[k]));
    }
    judge_without(setup_.stage, setup_.conditions, nominal);
    answer_.as_it_stands = count(samples);
    auto shares = find_shares(setup_.stage, setup_.conditions, uncertainty, {});
    for (std::size_t k = 0; k < circuit.readings.size(); ++k) {
      const circuit::Reading& reading = circuit.readings[k];
      answer_.readings.push_back(
          {nominal[k], sampled(samples, k, reading), std::nullopt, std::move(shares.readings[k])});
      SpreadOfReading& spread = answer_.readings.back();
      if (spread.nominal.with_parts_out == WithPartsOut::as_usual) continue;
      spread.as_it_stands.outside_limit = std::nullopt;
      if (spread.nominal.with_parts_out == WithPartsOut::reads_nothing) spread.shares = {};
    }
  }

  /// The stage at its preset; none where there is nothing to set, and the answer says why.
  std::optional<circuit::CheckedCircuit> find_preset() {
    if (setup_.stage->adjustments.empty()) return std::nullopt;
    const auto of_whole = set_with_all_parts(setup_.stage, setup_.conditions);
    for (std::size_t k = 0; k < of_whole.size(); ++k) {
      if (!of_whole[k]) continue;
      answer_.why_not_set =
          fmt::format("With {} out {} cannot be set.",
                      names_taken_out(*setup_.stage),
                      setup_.stage->at(setup_.stage->adjustments[k].trimmer).name);
      return std::nullopt;
    }
    const auto outcome = ask_preset(setup_);
    const auto* preset = std::get_if<Preset>(&outcome);
    if (preset == nullptr) {
      answer_.why_not_set = "With nominal parts the stage finds no rest at the wanted settings.";
      return std::nullopt;
    }
    if (preset->refused) {
      answer_.why_not_set = preset->refused;
      return std::nullopt;
    }
    for (const TrimmerAnswer& one : preset->adjustments) {
      if (one.reached) continue;
      answer_.target_out_of_reach = true;
      answer_.why_not_set = "Even with nominal parts " + setup_.stage->at(one.trimmer).name +
                            " does not reach its target.";
      return std::nullopt;
    }
    return preset->stage;
  }

  void set_each(const circuit::CheckedCircuit& preset) {
    if (answer_.interrupted) {
      answer_.why_not_set = "It was stopped before the stages were set one by one.";
      return;
    }
    BatchOrStory made = make(preset, Batch::Trimmers::follow);
    const auto* batch = std::get_if<Batch>(&made);
    if (batch == nullptr) {
      answer_.why_not_set = "With nominal parts the stage finds no rest at the wanted settings.";
      return;
    }
    const Samples samples = draw(*batch);
    answer_.when_set = count(samples);
    for (std::size_t k = 0; k < answer_.readings.size(); ++k) {
      answer_.readings[k].when_set = sampled(samples, k, preset->readings[k]);
    }
    take_positions(preset, *batch, samples);
  }

  void take_positions(const circuit::CheckedCircuit& preset,
                      const Batch& batch,
                      const Samples& samples) {
    const Circuit& circuit = *preset;
    auto shares =
        find_shares(preset, setup_.conditions, circuit::uncertainty(circuit), circuit.adjustments);
    for (std::size_t k = 0; k < circuit.adjustments.size(); ++k) {
      const circuit::Adjustment& one = circuit.adjustments[k];
      const std::size_t at = circuit.readings.size() + k;
      SpreadOfPosition position{one.trimmer, one.reading, batch.nominal()[at], {}, 0.0, {}};
      position.travel =
          distribution_of(column(samples, at, [](Fate fate) { return fate == Fate::settled; }));
      const auto reached = column(samples, one.reading.index, is_at_rest);
      position.reached =
          1.0 - share_outside(reached, one.target - one.within, one.target + one.within);
      position.shares = std::move(shares.positions[k]);
      answer_.positions.push_back(std::move(position));
    }
  }

  const Setup& setup_;
  const SpreadAsked& asked_;
  Spread answer_;
  double runs_ = 1.0;
  double runs_done_ = 0.0;
};

}  // namespace

bool is_good(const Spread& spread) noexcept {
  return !spread.target_out_of_reach &&
         std::all_of(spread.readings.begin(), spread.readings.end(), [](const auto& reading) {
           return reading.nominal.within_limit != false;
         });
}

std::variant<Spread, solve::NotSettled, ThermalStory> ask_spread(const Setup& setup,
                                                                 const SpreadAsked& asked) {
  return Asking(setup, asked).run();
}

}  // namespace idlepoint::answers
