// Oracle: whole amplifiers warmed by SUNDIALS: KINSOL on equations typed anew gives the volts and
// the watts at every instant, CVODE the heat sinks in time, in small steps. The way of the heat is
// typed anew from docs/models.md, too.
#include <cmath>

#include "acceptance/kinsol_translation.hpp"
#include "acceptance/stages_demo.hpp"
#include "heat/cvode.hpp"
#include "solve/warm_up.hpp"

namespace idlepoint::tests {
namespace {

using Values = std::vector<double>;

/// An amplifier whose heat sinks stand at given rises, every junction in equilibrium with its own.
class HeldAmplifier {
 public:
  explicit HeldAmplifier(const circuit::Circuit& circuit)
      : circuit_(circuit), drawn_(translated(circuit)) {
    auto cold = solve_by_kinsol(drawn_.amplifier);
    REQUIRE(cold.has_value());
    state_ = *std::move(cold);
  }

  /// By repetition: watts from the volts, temperatures from the watts, volts from the temperatures.
  const PlainState& hold(const Values& rise_k) {
    constexpr int most_rounds = 60;
    constexpr double still_k = 1e-7;
    for (int round = 0; round < most_rounds; ++round) {
      const double moved_k = set_temperatures(rise_k);
      auto next = solve_by_kinsol(drawn_.amplifier, state_);
      REQUIRE(next.has_value());
      state_ = *std::move(next);
      if (moved_k < still_k) return state_;
    }
    FAIL("no equilibrium with the heat sinks held");
    return state_;
  }

  /// [sinks] capacity dT/dt = sum P - rise / resistance.
  void warming(const Values& rise_k, Values& k_per_s) {
    hold(rise_k);
    for (std::size_t k = 0; k < circuit_.heatsinks.size(); ++k) {
      k_per_s[k] = -rise_k[k] / circuit_.heatsinks[k].resistance_k_per_w;
    }
    for (const auto* list : {&drawn_.resistors, &drawn_.diodes, &drawn_.transistors}) {
      for (const Counterpart& each : *list) {
        const auto& sink = each.part->mounting.heatsink;
        if (sink) k_per_s[sink->index] += watts(each);
      }
    }
    for (std::size_t k = 0; k < circuit_.heatsinks.size(); ++k) {
      k_per_s[k] /= circuit_.heatsinks[k].capacity_j_per_k.value();
    }
  }

 private:
  [[nodiscard]] double volts(const Counterpart& each, std::size_t lead) const {
    return state_.node_v[each.part->leads.at(lead)->index];
  }

  [[nodiscard]] double watts(const Counterpart& each) const {
    if (circuit::is_bipolar(each.part->kind)) {
      const double collector_a = state_.collector_a[each.index];
      const double base_a = state_.base_a[each.index];
      return volts(each, 0) * collector_a + volts(each, 1) * base_a -
             volts(each, 2) * (collector_a + base_a);
    }
    const bool is_diode = each.part->kind == circuit::PartKind::diode;
    const double current_a = is_diode ? state_.diode_a[each.index] : state_.resistor_a[each.index];
    return (volts(each, 0) - volts(each, 1)) * current_a;
  }

  [[nodiscard]] double temperature_k(const Counterpart& each, const Values& rise_k) const {
    const circuit::Part& part = *each.part;
    const auto& mounting = part.mounting;
    const auto* ratings = part.type ? &circuit_.at(*part.type).ratings : nullptr;
    if (!mounting.heatsink) {
      const double to_air =
          ratings == nullptr ? 0.0 : ratings->junction_to_ambient_k_per_w.value_or(0.0);
      return circuit_.ambient_k + to_air * watts(each);
    }
    double k_per_w = 0.0;
    if (ratings != nullptr) {
      k_per_w = ratings->junction_to_case_k_per_w.value_or(0.0) + mounting.washer_k_per_w;
    }
    return circuit_.ambient_k + mounting.coupling * rise_k[mounting.heatsink->index] +
           k_per_w * watts(each);
  }

  /// Returns the largest change.
  double set_temperatures(const Values& rise_k) {
    double moved_k = 0.0;
    const auto set = [&](double& temperature, double to_k) {
      moved_k = std::max(moved_k, std::abs(temperature - to_k));
      temperature = to_k;
    };
    auto& amplifier = drawn_.amplifier;
    for (const Counterpart& each : drawn_.diodes) {
      set(amplifier.diodes[each.index].temperature_k, temperature_k(each, rise_k));
    }
    for (const Counterpart& each : drawn_.transistors) {
      set(amplifier.transistors[each.index].temperature_k, temperature_k(each, rise_k));
    }
    for (const Counterpart& each : drawn_.resistors) {
      if (each.part->kind != circuit::PartKind::thermistor) continue;
      const auto& sink = each.part->mounting.heatsink;
      const double own_k = circuit_.ambient_k + (sink ? rise_k[sink->index] : 0.0);
      amplifier.resistors[each.index].ohm = resistance_ohm(*each.part, own_k);
    }
    return moved_k;
  }

  const circuit::Circuit& circuit_;
  Translation drawn_;
  PlainState state_;
};

}  // namespace

TEST_CASE("SUNDIALS warms a whole amplifier as we do", "[acceptance][kinsol]") {
  const std::string file =
      GENERATE(as<std::string>{}, "drystone-40w.stage", "quarry-30w.stage", "wherry-25w.stage");
  CAPTURE(file);
  const auto stage = demo_stage(file);
  HeldAmplifier amplifier(*stage);
  const Slopes slopes = [&](const Values& rise_k, Values& k_per_s) {
    amplifier.warming(rise_k, k_per_s);
  };
  const Values times_s = {60.0, 600.0, 2400.0};
  const auto theirs =
      integrate_by_cvode(slopes, Values(stage->heatsinks.size(), 0.0), times_s, 1e-8);
  REQUIRE(theirs.size() == times_s.size());

  solve::HeatingStage heating(stage, {});
  auto begin = heating.begin();
  REQUIRE(std::holds_alternative<solve::Rest>(begin));
  const auto warm_up = solve::follow(
      heating, std::get<solve::Rest>(begin), {.extra_w = Eigen::VectorXd::Zero(heating.sinks())});
  REQUIRE(warm_up.end == solve::WarmUp::End::at_rest);
  for (std::size_t k = 0; k < times_s.size(); ++k) {
    CAPTURE(times_s[k]);
    const auto rest = solve::rest_at(heating, warm_up, times_s[k]);
    REQUIRE(rest.has_value());
    for (std::size_t sink = 0; sink < stage->heatsinks.size(); ++sink) {
      CHECK(std::abs(rest->sink_rise_k[static_cast<Eigen::Index>(sink)] - theirs[k][sink]) <=
            1e-4 * theirs[k][sink]);
    }
    const auto ours = heating.moment(*rest);
    const PlainState& plain = amplifier.hold(theirs[k]);
    for (const auto& reading : stage->readings) {
      const auto* points = std::get_if<circuit::VoltsBetween>(&reading.probe);
      if (points == nullptr) continue;
      CAPTURE(reading.name);
      const double theirs_v = plain.node_v[points->a.index] - plain.node_v[points->b.index];
      CHECK(std::abs(ours.read(*stage, reading.probe) - theirs_v) <=
            1e-4 * std::abs(theirs_v) + 1e-6);
    }
  }
}

}  // namespace idlepoint::tests
