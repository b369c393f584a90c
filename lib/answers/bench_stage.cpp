#include "answers/bench_stage.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "circuit/hand_meter.hpp"
#include "circuit/power_off.hpp"
#include "solve/sensitivity.hpp"

namespace idlepoint::answers {
namespace {

using circuit::CheckedCircuit;
using circuit::Circuit;
using circuit::Measurement;
using circuit::Probe;

constexpr double unfelt = 0.1;      ///< Of the meter's deviation: a load that is not looked at.
constexpr double size_step = 1e-3;  ///< Of a size's range, for its slope.

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

bool is_power_off(const Measurement& measurement) {
  return !std::holds_alternative<Probe>(measurement);
}

/// Draws that would move what a fault has set are left out.
circuit::Uncertainty without_sized(const Circuit& circuit,
                                   const std::vector<SuspectedFault>& sized) {
  circuit::Uncertainty all = circuit::uncertainty(circuit);
  const auto is_set = [&](const circuit::Draw& draw) {
    return std::any_of(draw.effects.begin(), draw.effects.end(), [&](const circuit::Effect& one) {
      const circuit::Parameter& parameter = all.parameters[one.parameter];
      const auto* part = std::get_if<circuit::PartId>(&parameter.owner);
      return parameter.field == "value" && part != nullptr &&
             std::any_of(sized.begin(), sized.end(), [&](const SuspectedFault& fault) {
               return std::holds_alternative<circuit::SetValue>(fault.edit) && fault.part == *part;
             });
    });
  };
  std::erase_if(all.draws, is_set);
  return all;
}

/// The power on or off: one wiring, its meters, and what of the parameters moves there.
class Bench {
 public:
  Bench(const CheckedCircuit& stage,
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
    finder_.emplace(circuit_, conditions_);
    auto found = finder_->find_quickly();
    if (found) rest_ = std::move(*found);
    is_estimated_ = load == MeterLoad::estimated && !power_off;
    if (is_estimated_) watch_meters();
    if (!power_off && !is_estimated_ && rest_) find_loads(measurements);
  }
  Bench(const Bench&) = delete;
  Bench& operator=(const Bench&) = delete;

  [[nodiscard]] bool is_sound() const noexcept { return rest_.has_value(); }

  void set(const std::vector<double>& values) {
    std::vector<double> mine;
    mine.reserve(moving_.size());
    for (const std::size_t k : moving_) mine.push_back(values[k]);
    circuit::set_parameters(circuit_, parameters_, mine);
  }

  [[nodiscard]] Circuit& circuit() noexcept { return circuit_; }

  /// [probes] values and, where asked, slopes by parameter of the whole list (0 where it does not
  /// move here).
  [[nodiscard]] bool read(std::size_t all_parameters,
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
    return true;
  }

 private:
  /// Of each meter that is not connected: how its resistance would move what it reads.
  void watch_meters() {
    watched_ = parameters_;
    for (const auto& meter : meters_) {
      if (meter) watched_.push_back({*meter->across, "value"});
    }
  }

  /// Which meters are felt: a high resistance, a point that nothing holds.
  void find_loads(const std::vector<Measurement>& measurements) {
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

  bool read_group(const std::vector<std::size_t>& group,
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
  [[nodiscard]] double loaded(std::size_t k, double bare, double slope) const {
    if (bare == 0.0) return 0.0;
    const double open_ohm = circuit_.at(*meters_[k]->across).value;
    const double source_ohm = std::max(0.0, slope * open_ohm * open_ohm / bare);
    const double input_ohm = circuit_.meter.input_ohm;
    return bare * input_ohm / (input_ohm + source_ohm);
  }

  void estimate_loads(const solve::Sensitivities& all, std::vector<double>& values) const {
    std::size_t watched = parameters_.size();
    for (std::size_t k = 0; k < probes_.size(); ++k) {
      if (!meters_[k]) continue;
      values[k] = loaded(k, values[k], all.readings[k].by_parameter[watched++]);
    }
  }

  void load_meter(const circuit::HandMeter& meter) {
    for (const auto& part : {meter.feed, meter.across, meter.limiter}) {
      if (part) finder_->load_part(*part);
    }
  }

  bool read_loaded(std::size_t k,
                   bool with_slopes,
                   std::size_t all_parameters,
                   std::vector<double>& values,
                   std::vector<std::vector<double>>& slopes) {
    circuit::connect(circuit_, *meters_[k]);
    load_meter(*meters_[k]);
    const auto rest = finder_->find_quickly(&*rest_);
    const bool is_read =
        rest && read_group({k}, *rest, with_slopes, all_parameters, values, slopes);
    circuit::disconnect(circuit_, *meters_[k]);
    load_meter(*meters_[k]);
    return is_read;
  }

  solve::Conditions conditions_;
  Circuit circuit_;                  ///< What the finder solves; its numbers change in place.
  std::vector<std::size_t> moving_;  ///< Of all parameters, those that move here.
  std::vector<circuit::Parameter> parameters_;
  std::vector<Probe> probes_;
  std::vector<std::optional<circuit::HandMeter>> meters_;
  std::vector<bool> is_loaded_;
  bool is_estimated_ = false;
  std::vector<circuit::Parameter> watched_;  ///< `parameters_`, then the meters' own resistances.
  std::optional<solve::StateFinder> finder_;
  std::optional<solve::Rest> rest_;
};

/// dv/du at `u` of one effect, the others where they are.
double slope(const circuit::Effect& effect, double value, double u) {
  switch (effect.move) {
    case circuit::Move::relative:
      return value * effect.half_width / (1.0 + effect.half_width * u);
    case circuit::Move::logarithmic:
      return value * effect.half_width;
    case circuit::Move::additive:
      break;
  }
  return effect.half_width;
}

}  // namespace

class BenchStage::Impl {
 public:
  Impl(const CheckedCircuit& stage,
       const solve::Conditions& conditions,
       std::vector<SuspectedFault> sized,
       const std::vector<Measurement>& measurements,
       MeterLoad load)
      : stage_(stage),
        sized_(std::move(sized)),
        uncertainty_(without_sized(*stage, sized_)),
        is_planning_(load == MeterLoad::estimated) {
    for (const bool power_off : {false, true}) {
      std::vector<Measurement> mine;
      for (std::size_t k = 0; k < measurements.size(); ++k) {
        if (is_power_off(measurements[k]) != power_off) continue;
        mine.push_back(measurements[k]);
        rows_[power_off ? 1 : 0].push_back(k);
      }
      if (mine.empty()) continue;
      benches_[power_off ? 1 : 0] =
          std::make_unique<Bench>(power_off ? circuit::power_off(stage) : stage,
                                  conditions,
                                  uncertainty_,
                                  power_off,
                                  mine,
                                  load);
    }
  }

  std::optional<Shown> show(std::span<const double> u,
                            std::span<const double> t,
                            bool with_slopes) {
    Shown shown;
    const std::size_t count = rows_[0].size() + rows_[1].size();
    shown.values.assign(count, 0.0);
    if (with_slopes) shown.by_draw.assign(count, {});
    const std::vector<double> values = circuit::values_at(*stage_, uncertainty_, u);
    for (std::size_t b = 0; b < benches_.size(); ++b) {
      if (!benches_[b]) continue;
      if (!show_bench(b, values, u, t, with_slopes, shown)) return std::nullopt;
    }
    return shown;
  }

  const CheckedCircuit stage_;
  const std::vector<SuspectedFault> sized_;
  const circuit::Uncertainty uncertainty_;

 private:
  static constexpr std::size_t power_off_bench = 1;

  void set(Bench& bench, const std::vector<double>& values, std::span<const double> t) {
    bench.set(values);
    for (std::size_t k = 0; k < sized_.size(); ++k) set_size(bench.circuit(), sized_[k], t[k]);
  }

  bool show_bench(std::size_t b,
                  const std::vector<double>& values,
                  std::span<const double> u,
                  std::span<const double> t,
                  bool with_slopes,
                  Shown& shown) {
    Bench& bench = *benches_[b];
    std::vector<double> read;
    std::vector<std::vector<double>> slopes;
    set(bench, values, t);
    const bool solves_slopes = with_slopes && !(is_planning_ && b == power_off_bench);
    if (!bench.is_sound() || !bench.read(values.size(), solves_slopes, read, slopes)) return false;
    for (std::size_t j = 0; j < rows_[b].size(); ++j) {
      shown.values[rows_[b][j]] = read[j];
      if (!with_slopes) continue;
      shown.by_draw[rows_[b][j]] =
          solves_slopes ? by_draw(slopes[j], values, u) : std::vector<double>(u.size(), 0.0);
    }
    return !with_slopes || add_size_slopes(b, values, t, read, shown);
  }

  [[nodiscard]] std::vector<double> by_draw(const std::vector<double>& by_parameter,
                                            const std::vector<double>& values,
                                            std::span<const double> u) const {
    std::vector<double> row;
    row.reserve(u.size() + sized_.size());
    for (std::size_t k = 0; k < u.size(); ++k) {
      double sum = 0.0;
      for (const circuit::Effect& effect : uncertainty_.draws[k].effects) {
        sum += by_parameter[effect.parameter] * slope(effect, values[effect.parameter], u[k]);
      }
      row.push_back(sum);
    }
    return row;
  }

  bool add_size_slopes(std::size_t b,
                       const std::vector<double>& values,
                       std::span<const double> t,
                       const std::vector<double>& read,
                       Shown& shown) {
    for (std::size_t s = 0; s < sized_.size(); ++s) {
      std::vector<double> moved(t.begin(), t.end());
      const double step = moved[s] > 0.0 ? -size_step : size_step;
      moved[s] += step;
      std::vector<double> there;
      std::vector<std::vector<double>> none;
      set(*benches_[b], values, moved);
      if (!benches_[b]->read(values.size(), false, there, none)) return false;
      for (std::size_t j = 0; j < rows_[b].size(); ++j) {
        shown.by_draw[rows_[b][j]].push_back((there[j] - read[j]) / step);
      }
    }
    return true;
  }

  bool is_planning_ = false;
  std::array<std::unique_ptr<Bench>, 2> benches_;  ///< Power on, power off.
  std::array<std::vector<std::size_t>, 2> rows_;   ///< Of the measurements, those of each.
};

BenchStage::BenchStage(const CheckedCircuit& stage,
                       const solve::Conditions& conditions,
                       std::vector<SuspectedFault> sized,
                       std::vector<Measurement> measurements,
                       MeterLoad load)
    : impl_(std::make_unique<Impl>(stage, conditions, std::move(sized), measurements, load)) {}
BenchStage::~BenchStage() = default;
BenchStage::BenchStage(BenchStage&&) noexcept = default;
BenchStage& BenchStage::operator=(BenchStage&&) noexcept = default;

std::size_t BenchStage::draws() const noexcept { return impl_->uncertainty_.draws.size(); }
std::size_t BenchStage::sizes() const noexcept { return impl_->sized_.size(); }
const circuit::Uncertainty& BenchStage::uncertainty() const noexcept { return impl_->uncertainty_; }

std::optional<Shown> BenchStage::show(std::span<const double> u,
                                      std::span<const double> t,
                                      bool with_slopes) {
  return impl_->show(u, t, with_slopes);
}

namespace {

/// Of a rectangular distribution of that half-width.
const double rectangular = 1.0 / std::sqrt(3.0);

constexpr double ohms_error = 0.01;  ///< Hand meters' ohms ranges; and the leads' own.
constexpr double ohms_floor_ohm = 0.3;
constexpr double diode_floor_v = 2e-3;
constexpr double amps_floor_a = 0.05e-3;
constexpr double watts_error = 0.02;
constexpr double celsius_error_k = 2.0;
constexpr double about_share = 0.1;      ///< "About 0.6 V": one in ten.
constexpr double surely_open_ohm = 2e6;  ///< What a person calls open need not be 20 megohms.

}  // namespace

double meter_deviation(const circuit::Meter& meter, const Measurement& measurement, double shown) {
  if (std::holds_alternative<circuit::OhmsBetween>(measurement)) {
    const double source_ohm = circuit::ohms_range_v / circuit::ohms_range_a;
    const double left_v = std::max(circuit::ohms_range_v - shown, 1e-7);
    const double ohms = source_ohm * std::max(shown, 0.0) / left_v;
    const double by_ohm = left_v * left_v / (source_ohm * circuit::ohms_range_v);
    return rectangular * (ohms_error * ohms + ohms_floor_ohm) * by_ohm;
  }
  if (std::holds_alternative<circuit::DiodeBetween>(measurement)) {
    return rectangular * (meter.error * std::abs(shown) + diode_floor_v);
  }
  const Probe& probe = std::get<Probe>(measurement);
  if (std::holds_alternative<circuit::CelsiusOf>(probe)) return celsius_error_k;
  if (std::holds_alternative<circuit::VoltsBetween>(probe)) {
    return rectangular * (meter.error * std::abs(shown) + meter.floor_v);
  }
  const bool is_watts = std::holds_alternative<circuit::WattsIn>(probe);
  return rectangular *
         ((is_watts ? watts_error : 2.0 * meter.error) * std::abs(shown) + amps_floor_a);
}

Observed without_figure() noexcept { return {0.0, 1e6}; }

Observed observed(const circuit::Meter& meter, const circuit::BenchReading& reading) {
  const Measurement& measurement = reading.measurement;
  const bool is_ohms = std::holds_alternative<circuit::OhmsBetween>(measurement);
  if (reading.firmness == circuit::Firmness::beyond_range) {
    if (is_ohms) {
      return {circuit::ohms_range_v,
              circuit::ohms_range_v - circuit::volts_of_ohms(surely_open_ohm)};
    }
    return {circuit::diode_range_v,
            rectangular * (circuit::diode_range_v - circuit::diode_is_open_v)};
  }
  const double value = reading.value.value_or(0.0);
  const double shown = is_ohms ? circuit::volts_of_ohms(value) : value;
  double deviation = meter_deviation(meter, measurement, shown);
  if (reading.firmness == circuit::Firmness::about) {
    const double by_ten = circuit::volts_of_ohms((1.0 + about_share) * value) - shown;
    deviation = std::hypot(deviation, is_ohms ? by_ten : about_share * std::abs(value));
  }
  return {shown, deviation};
}

ReadOff read_off(const Measurement& measurement, double shown) {
  if (std::holds_alternative<circuit::OhmsBetween>(measurement)) {
    const auto ohms = circuit::ohms_shown(shown);
    return {ohms.value_or(circuit::ohms_are_open_ohm), !ohms};
  }
  if (std::holds_alternative<circuit::DiodeBetween>(measurement)) {
    return {shown, !circuit::diode_shown(shown)};
  }
  return {shown, false};
}

}  // namespace idlepoint::answers
