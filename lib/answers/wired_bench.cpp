#include "answers/wired_bench.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace idlepoint::answers {
namespace {

using circuit::CheckedCircuit;
using circuit::Circuit;
using circuit::Measurement;
using circuit::Probe;

constexpr double unfelt = 0.1;  ///< Of the meter's deviation: a load that is not looked at.

std::optional<circuit::HandMeter> add_meter(Circuit& circuit, const Measurement& measurement) {
  if (const auto* ohms = std::get_if<circuit::OhmsBetween>(&measurement)) {
    return circuit::add_ohms_range(circuit, ohms->a, ohms->b);
  }
  if (const auto* diode = std::get_if<circuit::DiodeBetween>(&measurement)) {
    return circuit::add_diode_range(circuit, diode->a, diode->b);
  }
  const auto* volts = std::get_if<circuit::VoltsBetween>(&std::get<Probe>(measurement));
  if (volts == nullptr || volts->a == volts->b) return std::nullopt;
  return circuit::add_volts_range(circuit, volts->a, volts->b);
}

Probe probe_of(const Measurement& measurement) {
  if (const auto* ohms = std::get_if<circuit::OhmsBetween>(&measurement)) {
    return circuit::VoltsBetween{ohms->a, ohms->b};
  }
  if (const auto* diode = std::get_if<circuit::DiodeBetween>(&measurement)) {
    return circuit::VoltsBetween{diode->a, diode->b};
  }
  return std::get<Probe>(measurement);
}

}  // namespace

WiredBench::WiredBench(const CheckedCircuit& stage,
                       const solve::Conditions& conditions,
                       const circuit::Uncertainty& all,
                       bool power_off,
                       const std::vector<Measurement>& measurements,
                       MeterLoad load)
    : conditions_(conditions), circuit_(*circuit::with_own_types(stage, all)) {
  for (std::size_t k = 0; k < all.parameters.size(); ++k) {
    const bool is_rail = std::holds_alternative<circuit::RailId>(all.parameters[k].owner);
    if (!(power_off && is_rail)) moving_.push_back(k);
  }
  for (const std::size_t k : moving_) parameters_.push_back(all.parameters[k]);
  if (power_off) conditions_.heat = solve::HeatState::cold;
  for (const Measurement& measurement : measurements) {
    probes_.push_back(probe_of(measurement));
    meters_.push_back(add_meter(circuit_, measurement));
  }
  is_loaded_.assign(probes_.size(), power_off);
  loaded_rests_.assign(probes_.size(), std::nullopt);
  finder_.emplace(circuit_, conditions_);
  auto found = finder_->find_quickly();
  if (found) rest_ = std::move(*found);
  is_estimated_ = load == MeterLoad::estimated && !power_off;
  if (is_estimated_) watch_meters();
  if (!power_off && !is_estimated_ && rest_) find_loads(measurements);
}

void WiredBench::set(const std::vector<double>& values) {
  std::vector<double> mine;
  mine.reserve(moving_.size());
  for (const std::size_t k : moving_) mine.push_back(values[k]);
  circuit::set_parameters(circuit_, parameters_, mine);
}

bool WiredBench::read(std::size_t all_parameters,
                      bool with_slopes,
                      std::vector<double>& values,
                      std::vector<std::vector<double>>& slopes) {
  finder_->load(conditions_);
  auto rest = finder_->find_quickly(rest_ ? &*rest_ : nullptr);
  if (!rest) return false;
  rest_ = std::move(*rest);
  values.assign(probes_.size(), 0.0);
  slopes.assign(probes_.size(), {});
  std::vector<std::size_t> unloaded;
  for (std::size_t k = 0; k < probes_.size(); ++k) {
    if (!is_loaded_[k]) unloaded.push_back(k);
  }
  if (!read_group(unloaded, *rest_, with_slopes, all_parameters, values, slopes)) return false;
  for (std::size_t k = 0; k < probes_.size(); ++k) {
    if (is_loaded_[k] && !read_loaded(k, with_slopes, all_parameters, values, slopes)) {
      return false;
    }
  }
  for (std::size_t k = 0; k < load_share_.size(); ++k) values[k] *= load_share_[k];
  return true;
}

/// Of each meter that is not connected: how its resistance would move what it reads.
void WiredBench::watch_meters() {
  watched_ = parameters_;
  for (const auto& meter : meters_) {
    if (meter) watched_.push_back({*meter->across, "value"});
  }
}

/// Which meters are felt: a high resistance, a point that nothing holds.
void WiredBench::find_loads(const std::vector<Measurement>& measurements) {
  std::vector<Probe> probes;
  std::vector<circuit::Parameter> meters;
  for (std::size_t k = 0; k < probes_.size(); ++k) {
    if (!meters_[k]) continue;
    probes.push_back(probes_[k]);
    meters.push_back({*meters_[k]->across, "value"});
  }
  const auto all = solve::sensitivities(circuit_, *finder_, *rest_, {probes, {}, meters, false});
  std::size_t watched = 0;
  for (std::size_t k = 0; all && k < probes_.size(); ++k) {
    if (!meters_[k]) continue;
    const double bare = finder_->read(probes_[k], *rest_);
    const double slope = all->readings[watched].by_parameter[watched];
    ++watched;
    is_loaded_[k] = std::abs(bare - loaded(k, bare, slope)) >
                    unfelt * meter_deviation(circuit_.meter, measurements[k], bare);
  }
}

bool WiredBench::read_group(const std::vector<std::size_t>& group,
                            const solve::Rest& rest,
                            bool with_slopes,
                            std::size_t all_parameters,
                            std::vector<double>& values,
                            std::vector<std::vector<double>>& slopes) {
  std::vector<Probe> probes;
  for (const std::size_t k : group) {
    values[k] = finder_->read(probes_[k], rest);
    probes.push_back(probes_[k]);
  }
  if (!with_slopes || group.empty()) return true;
  const auto& followed = is_estimated_ ? watched_ : parameters_;
  const auto all = solve::sensitivities(circuit_, *finder_, rest, {probes, {}, followed, false});
  if (!all) return false;
  if (is_estimated_) estimate_loads(*all, values);
  for (std::size_t j = 0; j < group.size(); ++j) {
    std::vector<double> row(all_parameters, 0.0);
    for (std::size_t p = 0; p < moving_.size(); ++p) {
      row[moving_[p]] = all->readings[j].by_parameter[p];
    }
    slopes[group[j]] = std::move(row);
  }
  return true;
}

/// A meter across volts behind a resistance shows less. The slope by the meter's own resistance,
/// as good as open, tells that resistance.
double WiredBench::loaded(std::size_t k, double bare, double slope) const {
  if (bare == 0.0) return 0.0;
  const double open_ohm = circuit_.at(*meters_[k]->across).value;
  const double source_ohm = std::max(0.0, slope * open_ohm * open_ohm / bare);
  const double input_ohm = circuit_.meter.input_ohm;
  return bare * input_ohm / (input_ohm + source_ohm);
}

void WiredBench::estimate_loads(const solve::Sensitivities& all,
                                const std::vector<double>& values) {
  std::size_t watched = parameters_.size();
  load_share_.assign(probes_.size(), 1.0);
  for (std::size_t k = 0; k < probes_.size(); ++k) {
    if (!meters_[k]) continue;
    const double slope = all.readings[k].by_parameter[watched++];
    if (values[k] != 0.0) load_share_[k] = loaded(k, values[k], slope) / values[k];
  }
}

void WiredBench::load_meter(const circuit::HandMeter& meter) {
  for (const auto& part : {meter.feed, meter.across, meter.limiter}) {
    if (part) finder_->load_part(*part);
  }
}

bool WiredBench::read_loaded(std::size_t k,
                             bool with_slopes,
                             std::size_t all_parameters,
                             std::vector<double>& values,
                             std::vector<std::vector<double>>& slopes) {
  circuit::connect(circuit_, *meters_[k]);
  load_meter(*meters_[k]);
  auto& start = loaded_rests_[k];
  auto rest = finder_->find_quickly(start ? &*start : &*rest_);
  const bool is_read = rest && read_group({k}, *rest, with_slopes, all_parameters, values, slopes);
  if (rest) start = std::move(*rest);
  circuit::disconnect(circuit_, *meters_[k]);
  load_meter(*meters_[k]);
  return is_read;
}

}  // namespace idlepoint::answers
