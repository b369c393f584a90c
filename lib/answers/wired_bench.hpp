// A stage with its power on or off and the meters across it: one wiring, solved as often as its
// numbers move.
//
// Used by answers/bench_stage alone.
#pragma once

#include <memory>
#include <optional>
#include <utility>
#include <vector>

#include "answers/bench_stage.hpp"
#include "answers/sound_when_off.hpp"
#include "circuit/hand_meter.hpp"
#include "solve/sensitivity.hpp"

namespace idlepoint::answers {

class WiredBench {
 public:
  /// `stage` is dead already where `power_off`; `all`: what may move, of the stage with its power
  /// on. `sound`, where there is one: a dead stage is looked for near that.
  WiredBench(const circuit::CheckedCircuit& stage,
             const solve::Conditions& conditions,
             const circuit::Uncertainty& all,
             bool power_off,
             const std::vector<circuit::Measurement>& measurements,
             std::shared_ptr<SoundWhenOff> sound);
  WiredBench(const WiredBench&) = delete;
  WiredBench& operator=(const WiredBench&) = delete;

  [[nodiscard]] bool is_sound() const noexcept { return rest_.has_value(); }

  /// [all parameters]
  void set(const std::vector<double>& values);

  [[nodiscard]] circuit::Circuit& circuit() noexcept { return circuit_; }

  /// What the next solve starts from: the first state, or where the last solve ended, and the
  /// meters that are felt there.
  struct Start {
    std::optional<solve::Rest> rest;
    std::vector<bool> is_loaded;  ///< [measurements]
  };
  [[nodiscard]] Start start() const { return {rest_, is_loaded_}; }
  void start_from(Start start) {
    rest_ = std::move(start.rest);
    is_loaded_ = std::move(start.is_loaded);
    loaded_rests_.assign(probes_.size(), std::nullopt);
  }

  /// [measurements] values and, where asked, slopes by each of all parameters (0 where that does
  /// not move here). False where the stage has no state. Whether a meter is felt is asked with the
  /// slopes: without them it is as it was.
  [[nodiscard]] bool read(std::size_t all_parameters,
                          bool with_slopes,
                          std::vector<double>& values,
                          std::vector<std::vector<double>>& slopes);

  /// The same of volts that no meter of this wiring reads, with the power on: [volts], the meter's
  /// load from what lies behind the points, as if all were straight. Without slopes the loads are
  /// those of the last time with them.
  [[nodiscard]] bool foresee(const std::vector<circuit::Probe>& volts,
                             std::size_t all_parameters,
                             bool with_slopes,
                             std::vector<double>& values,
                             std::vector<std::vector<double>>& slopes);

  /// [nodes] volts with the power off and the meter of measurement `k` on.
  [[nodiscard]] std::optional<std::vector<double>> nodes_under(std::size_t k);

 private:
  void find_first_rest(bool power_off);
  void find_loads();
  [[nodiscard]] bool is_felt(std::size_t k, double bare, const solve::Sensitivity& reading) const;
  [[nodiscard]] bool settle();
  [[nodiscard]] std::vector<double> row_of(const solve::Sensitivity& reading,
                                           std::size_t all_parameters) const;
  [[nodiscard]] bool read_group(const std::vector<std::size_t>& group,
                                const solve::Rest& rest,
                                bool with_slopes,
                                std::size_t all_parameters,
                                std::vector<double>& values,
                                std::vector<std::vector<double>>& slopes);
  [[nodiscard]] double load_share(const solve::Sensitivity& volts) const;
  void load_meter(const circuit::HandMeter& meter);
  void take_off(const circuit::HandMeter& meter);
  [[nodiscard]] solve::Rest start_of(std::size_t k);
  [[nodiscard]] std::optional<solve::Rest> find_loaded(std::size_t k);
  [[nodiscard]] bool read_loaded(std::size_t k,
                                 bool with_slopes,
                                 std::size_t all_parameters,
                                 std::vector<double>& values,
                                 std::vector<std::vector<double>>& slopes);

  solve::Conditions conditions_;
  circuit::Circuit circuit_;         ///< What the finder solves; its numbers change in place.
  std::vector<std::size_t> moving_;  ///< Of all parameters, those that move here.
  std::vector<circuit::Parameter> parameters_;
  std::vector<circuit::Measurement> measurements_;
  std::vector<circuit::Probe> probes_;
  std::vector<std::optional<circuit::HandMeter>> meters_;
  std::vector<bool> is_loaded_;
  std::shared_ptr<SoundWhenOff> sound_;  ///< With the power off alone.
  std::vector<double> foreseen_share_;   ///< What the meter leaves of the volts last foreseen.
  std::optional<solve::StateFinder> finder_;
  std::optional<solve::Rest> rest_;
  std::vector<std::optional<solve::Rest>> loaded_rests_;  ///< [measurements] last, the meter on it.
};

}  // namespace idlepoint::answers
