#include "answers/bench_stage.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include "answers/wired_bench.hpp"
#include "circuit/power_off.hpp"

namespace idlepoint::answers {
namespace {

using circuit::CheckedCircuit;
using circuit::Circuit;
using circuit::Measurement;

constexpr double size_step = 1e-3;  ///< Of a size's range, for its slope.

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
       std::shared_ptr<SoundWhenOff> sound,
       const Impl* earlier)
      : stage_(stage),
        sized_(std::move(sized)),
        uncertainty_(without_sized(*stage, sized_)),
        conditions_(conditions),
        sound_(std::move(sound)),
        measurements_(measurements.size()) {
    if (earlier != nullptr) wirings_ = earlier->wirings_;
    const std::size_t first = earlier == nullptr ? 0 : earlier->measurements_;
    for (const bool power_off : {false, true}) {
      std::vector<Measurement> mine;
      std::vector<std::size_t> rows;
      for (std::size_t k = first; k < measurements.size(); ++k) {
        if (circuit::is_power_off(measurements[k]) != power_off) continue;
        mine.push_back(measurements[k]);
        rows.push_back(k);
      }
      if (mine.empty()) continue;
      wire(power_off, mine, std::move(rows));
    }
  }

  std::optional<Shown> show(std::span<const double> u,
                            std::span<const double> t,
                            Slopes slopes,
                            std::size_t from) {
    Shown shown;
    const std::size_t count = measurements_ - from;
    shown.values.assign(count, 0.0);
    if (slopes != Slopes::none) shown.by_draw.assign(count, {});
    const Place place = place_at(u, t);
    for (const Wiring& wiring : wirings_) {
      if (wiring.rows.back() < from) continue;
      WiredBench& bench = *wiring.bench;
      const auto seen = look(bench, place, slopes, [&](bool with_slopes, Read& read) {
        return bench.read(place.values.size(), with_slopes, read.values, read.by_parameter);
      });
      if (!seen) return std::nullopt;
      for (std::size_t j = 0; j < wiring.rows.size(); ++j) {
        if (wiring.rows[j] < from) continue;
        const std::size_t row = wiring.rows[j] - from;
        shown.values[row] = seen->values[j];
        if (slopes != Slopes::none) shown.by_draw[row] = seen->by_draw[j];
      }
    }
    return shown;
  }

  std::optional<Shown> foresee(const std::vector<circuit::Probe>& volts,
                               std::span<const double> u,
                               std::span<const double> t) {
    WiredBench& bench = powered();
    const Place place = place_at(u, t);
    return look(bench, place, Slopes::of_all, [&](bool with_slopes, Read& read) {
      return bench.foresee(volts, place.values.size(), with_slopes, read.values, read.by_parameter);
    });
  }

  const std::optional<Shown>& first_look(std::span<const double> t) {
    auto known = std::find_if(looks_.begin(), looks_.end(), [&](const FirstLook& look) {
      return std::equal(t.begin(), t.end(), look.t.begin(), look.t.end());
    });
    if (known == looks_.end()) {
      for (const Wiring& wiring : wirings_) wiring.bench->start_from(wiring.first_start);
      const std::vector<double> middle(uncertainty_.draws.size(), 0.0);
      auto shown = show(middle, t, Slopes::of_all, 0);
      looks_.push_back({{t.begin(), t.end()}, std::move(shown), starts()});
      known = std::prev(looks_.end());
    } else {
      start_from(known->ended);
    }
    return known->shown;
  }

  [[nodiscard]] std::size_t measurements() const { return measurements_; }

  const CheckedCircuit stage_;
  const std::vector<SuspectedFault> sized_;
  const circuit::Uncertainty uncertainty_;

 private:
  /// Some of the measurements, all with the power on or all with it off.
  struct Wiring {
    std::shared_ptr<WiredBench> bench;
    std::vector<std::size_t> rows;  ///< Among all measurements.
    bool is_power_off = false;
    WiredBench::Start first_start;
  };

  using Starts = std::vector<WiredBench::Start>;  ///< [wirings]

  struct FirstLook {
    std::vector<double> t;
    std::optional<Shown> shown;
    Starts ended;
  };

  [[nodiscard]] Starts starts() const {
    Starts all;
    for (const Wiring& wiring : wirings_) all.push_back(wiring.bench->start());
    return all;
  }

  void start_from(const Starts& starts) {
    for (std::size_t w = 0; w < wirings_.size(); ++w) wirings_[w].bench->start_from(starts[w]);
  }

  /// Where the parts and the sizes stand.
  struct Place {
    std::span<const double> u;
    std::span<const double> t;
    std::vector<double> values;  ///< [all parameters]
  };

  struct Read {
    std::vector<double> values;
    std::vector<std::vector<double>> by_parameter;
  };

  [[nodiscard]] Place place_at(std::span<const double> u, std::span<const double> t) const {
    return {u, t, circuit::values_at(*stage_, uncertainty_, u)};
  }

  [[nodiscard]] std::shared_ptr<WiredBench> wired(
      bool power_off, const std::vector<Measurement>& measurements) const {
    return std::make_shared<WiredBench>(power_off ? circuit::power_off(stage_) : stage_,
                                        conditions_,
                                        uncertainty_,
                                        power_off,
                                        measurements,
                                        sound_);
  }

  /// One with the power on, whatever it measures.
  WiredBench& powered() {
    const auto on = std::find_if(wirings_.begin(), wirings_.end(), [](const Wiring& wiring) {
      return !wiring.is_power_off;
    });
    if (on != wirings_.end()) return *on->bench;
    if (!unread_) unread_ = wired(false, {});
    return *unread_;
  }

  void wire(bool power_off,
            const std::vector<Measurement>& measurements,
            std::vector<std::size_t> rows) {
    auto bench = wired(power_off, measurements);
    auto first_start = bench->start();
    wirings_.push_back({std::move(bench), std::move(rows), power_off, std::move(first_start)});
  }

  void set(WiredBench& bench, const std::vector<double>& values, std::span<const double> t) {
    bench.set(values);
    for (std::size_t k = 0; k < sized_.size(); ++k) set_size(bench.circuit(), sized_[k], t[k]);
  }

  /// `read`: what the bench's meters show as it is set, with slopes by parameters or without.
  template <class ReadBench>
  std::optional<Shown> look(WiredBench& bench, const Place& place, Slopes slopes, ReadBench read) {
    const bool by_draws = slopes == Slopes::of_all;
    Read here;
    set(bench, place.values, place.t);
    if (!bench.is_sound() || !read(by_draws, here)) return std::nullopt;
    Shown shown{here.values, {}};
    if (slopes == Slopes::none) return shown;
    for (std::size_t j = 0; j < here.values.size(); ++j) {
      shown.by_draw.push_back(by_draws ? by_draw(here.by_parameter[j], place.values, place.u)
                                       : std::vector<double>(place.u.size(), 0.0));
    }
    for (std::size_t s = 0; s < sized_.size(); ++s) {
      std::vector<double> moved(place.t.begin(), place.t.end());
      const double step = moved[s] > 0.0 ? -size_step : size_step;
      moved[s] += step;
      Read there;
      set(bench, place.values, moved);
      if (!read(false, there)) return std::nullopt;
      for (std::size_t j = 0; j < here.values.size(); ++j) {
        shown.by_draw[j].push_back((there.values[j] - here.values[j]) / step);
      }
    }
    return shown;
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

  const solve::Conditions conditions_;
  const std::shared_ptr<SoundWhenOff> sound_;
  std::size_t measurements_ = 0;
  std::vector<Wiring> wirings_;
  std::shared_ptr<WiredBench> unread_;  ///< With the power on, where no measurement is.
  std::vector<FirstLook> looks_;
};

BenchStage::BenchStage(const CheckedCircuit& stage,
                       const solve::Conditions& conditions,
                       std::vector<SuspectedFault> sized,
                       std::vector<Measurement> measurements,
                       std::shared_ptr<SoundWhenOff> sound,
                       const BenchStage* earlier)
    : impl_(std::make_unique<Impl>(stage,
                                   conditions,
                                   std::move(sized),
                                   measurements,
                                   std::move(sound),
                                   earlier == nullptr ? nullptr : earlier->impl_.get())) {}
BenchStage::~BenchStage() = default;
BenchStage::BenchStage(BenchStage&&) noexcept = default;
BenchStage& BenchStage::operator=(BenchStage&&) noexcept = default;

std::size_t BenchStage::draws() const noexcept { return impl_->uncertainty_.draws.size(); }
std::size_t BenchStage::sizes() const noexcept { return impl_->sized_.size(); }
const circuit::Uncertainty& BenchStage::uncertainty() const noexcept { return impl_->uncertainty_; }

std::optional<Shown> BenchStage::show(std::span<const double> u,
                                      std::span<const double> t,
                                      Slopes slopes,
                                      std::size_t from) {
  return impl_->show(u, t, slopes, from);
}

std::optional<Shown> BenchStage::foresee(const std::vector<circuit::Probe>& volts,
                                         std::span<const double> u,
                                         std::span<const double> t) {
  return impl_->foresee(volts, u, t);
}

const std::optional<Shown>& BenchStage::first_look(std::span<const double> t) {
  return impl_->first_look(t);
}

std::size_t BenchStage::measurements() const noexcept { return impl_->measurements(); }

}  // namespace idlepoint::answers
