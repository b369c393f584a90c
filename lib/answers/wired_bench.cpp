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
                       std::shared_ptr<SoundWhenOff> sound)
    : conditions_(conditions),
      circuit_(*circuit::with_own_types(stage, all)),
      measurements_(measurements) {
  for (std::size_t k = 0; k < all.parameters.size(); ++k) {
    const bool is_rail = std::holds_alternative<circuit::RailId>(all.parameters[k].owner);
    if (!(power_off && is_rail)) moving_.push_back(k);
  }
  for (const std::size_t k : moving_) parameters_.push_back(all.parameters[k]);
  if (power_off) {
    conditions_.heat = solve::HeatState::cold;
    sound_ = std::move(sound);
  }
  for (const Measurement& measurement : measurements) {
    probes_.push_back(probe_of(measurement));
    meters_.push_back(add_meter(circuit_, measurement));
  }
  is_loaded_.assign(probes_.size(), power_off);
  loaded_rests_.assign(probes_.size(), std::nullopt);
  finder_.emplace(circuit_, conditions_);
  find_first_rest(power_off);
  if (!power_off && rest_) find_loads();
}

/// With the power off no points at all have volts, but for what rounding makes of 0.
void WiredBench::find_first_rest(bool power_off) {
  if (power_off) {
    solve::Rest dead;
    dead.at.state = solve::dead_start(finder_->solver().system(), finder_->solver().numbers());
    rest_ = finder_->find_near(dead);
  }
  if (!rest_) rest_ = finder_->find_quickly();
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
  if (!settle()) return false;
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
  return true;
}

bool WiredBench::settle() {
  finder_->load(conditions_);
  auto rest = finder_->find_quickly(rest_ ? &*rest_ : nullptr);
  if (rest) rest_ = std::move(*rest);
  return rest.has_value();
}

bool WiredBench::foresee(const std::vector<Probe>& volts,
                         std::size_t all_parameters,
                         bool with_slopes,
                         std::vector<double>& values,
                         std::vector<std::vector<double>>& slopes) {
  if (!settle()) return false;
  values.clear();
  for (const Probe& probe : volts) values.push_back(finder_->read(probe, *rest_));
  if (with_slopes) {
    const auto all =
        solve::sensitivities(circuit_, *finder_, *rest_, {volts, {}, parameters_, false});
    if (!all) return false;
    slopes.clear();
    foreseen_share_.clear();
    for (const solve::Sensitivity& one : all->readings) {
      slopes.push_back(row_of(one, all_parameters));
      foreseen_share_.push_back(load_share(one));
    }
  }
  for (std::size_t k = 0; k < volts.size(); ++k) values[k] *= foreseen_share_[k];
  return true;
}

/// Which meters are felt: a high resistance, a point that nothing holds.
void WiredBench::find_loads() {
  const auto all = solve::sensitivities(circuit_, *finder_, *rest_, {probes_, {}, {}, false});
  for (std::size_t k = 0; all && k < probes_.size(); ++k) {
    is_loaded_[k] = is_felt(k, finder_->read(probes_[k], *rest_), all->readings[k]);
  }
}

bool WiredBench::is_felt(std::size_t k, double bare, const solve::Sensitivity& reading) const {
  if (!meters_[k]) return false;
  const double taken = std::abs(bare) * (1.0 - load_share(reading));
  return taken > unfelt * meter_deviation(circuit_.meter, measurements_[k], bare);
}

/// A meter across volts behind a resistance shows less.
double WiredBench::load_share(const solve::Sensitivity& volts) const {
  const double input_ohm = circuit_.meter.input_ohm;
  return input_ohm / (input_ohm + std::max(0.0, volts.source_ohm));
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
  const auto all = solve::sensitivities(circuit_, *finder_, rest, {probes, {}, parameters_, false});
  if (!all) return false;
  for (std::size_t j = 0; j < group.size(); ++j) {
    if (is_felt(group[j], values[group[j]], all->readings[j])) is_loaded_[group[j]] = true;
    slopes[group[j]] = row_of(all->readings[j], all_parameters);
  }
  return true;
}

std::vector<double> WiredBench::row_of(const solve::Sensitivity& reading,
                                       std::size_t all_parameters) const {
  std::vector<double> row(all_parameters, 0.0);
  for (std::size_t p = 0; p < moving_.size(); ++p) row[moving_[p]] = reading.by_parameter[p];
  return row;
}

void WiredBench::load_meter(const circuit::HandMeter& meter) {
  for (const auto& part : {meter.feed, meter.across, meter.limiter}) {
    if (part) finder_->load_part(*part);
  }
}

void WiredBench::take_off(const circuit::HandMeter& meter) {
  circuit::disconnect(circuit_, meter);
  load_meter(meter);
}

/// Where it was the last time, or where the sound stage is, or else where a meter brings it that
/// pushes less hard.
solve::Rest WiredBench::start_of(std::size_t k) {
  if (loaded_rests_[k]) return *loaded_rests_[k];
  if (const auto* node_v = sound_ ? sound_->nodes_under(measurements_[k]) : nullptr) {
    solve::Rest start = *rest_;
    start.at.state = finder_->solver().state_at(*node_v);
    return start;
  }
  const circuit::HandMeter& meter = *meters_[k];
  if (meter.range != circuit::HandMeter::Range::diode) return *rest_;
  circuit::connect_softly(circuit_, meter);
  load_meter(meter);
  return finder_->find_near(*rest_).value_or(*rest_);
}

std::optional<solve::Rest> WiredBench::find_loaded(std::size_t k) {
  const solve::Rest start = start_of(k);
  circuit::connect(circuit_, *meters_[k]);
  load_meter(*meters_[k]);
  return finder_->find_quickly(&start);
}

std::optional<std::vector<double>> WiredBench::nodes_under(std::size_t k) {
  const bool is_found = rest_ && find_loaded(k);
  const auto& point_v = finder_->solver().work().point_v;
  const auto nodes = static_cast<std::ptrdiff_t>(circuit_.nodes.size());
  std::vector<double> node_v(point_v.begin(), point_v.begin() + nodes);
  take_off(*meters_[k]);
  if (!is_found) return std::nullopt;
  return node_v;
}

bool WiredBench::read_loaded(std::size_t k,
                             bool with_slopes,
                             std::size_t all_parameters,
                             std::vector<double>& values,
                             std::vector<std::vector<double>>& slopes) {
  auto rest = find_loaded(k);
  const bool is_read = rest && read_group({k}, *rest, with_slopes, all_parameters, values, slopes);
  if (rest) loaded_rests_[k] = std::move(*rest);
  take_off(*meters_[k]);
  return is_read;
}

}  // namespace idlepoint::answers
