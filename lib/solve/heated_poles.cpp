#include "solve/heated_poles.hpp"

#include "devices/passive.hpp"
#include "solve/part_numbers.hpp"

namespace idlepoint::solve {
namespace {

using circuit::Circuit;
using circuit::PartId;
using circuit::PartKind;

/// Index of the heated part that owns a pole; `model.parts.size()` where none does.
std::size_t owner_of(const HeatModel& model, const std::optional<PartId>& part) {
  return part ? model.part_of[part->index] : model.parts.size();
}

/// Sums one part's poles at an assembled state.
class Slopes {
 public:
  Slopes(const System& system, const Numbers& numbers, const State& state, const Work& work)
      : system_(system), numbers_(numbers), state_(state), work_(work) {
    result_.by_unknown.assign(at(system.unknowns) + 1, 0.0);
    result_.balance_by_k.assign(at(system.unknowns) + 1, 0.0);
  }

  /// P = i (va - vb) with i = i(va - vb).
  void add_two_pole(const TwoPoleStamp& stamp, double current_a, double conductance_s) {
    const double across_v = work_.point_v[at(stamp.a)] - work_.point_v[at(stamp.b)];
    const double slope = current_a + conductance_s * across_v;
    result_.power_w += current_a * across_v;
    result_.by_unknown[at(stamp.row_a)] += slope;
    result_.by_unknown[at(stamp.row_b)] -= slope;
  }

  void add_conductor(std::size_t k) {
    const TwoPoleStamp& stamp = system_.conductors[k];
    const double across_v = work_.point_v[at(stamp.a)] - work_.point_v[at(stamp.b)];
    add_two_pole(stamp, numbers_.conductance_s[k] * across_v, numbers_.conductance_s[k]);
  }

  /// A conductor whose resistance moves with temperature.
  void add_conductor_heat(std::size_t k, double ohm_per_k) {
    const TwoPole& pole = system_.wiring.conductors[k];
    const double g = numbers_.conductance_s[k];
    const double across_v = work_.point_v[at(pole.a)] - work_.point_v[at(pole.b)];
    add_heat(pole, -g * g * ohm_per_k * across_v);
  }

  void add_diode(std::size_t k) {
    const TwoPoleTangent& tangent = work_.diodes[k];
    add_two_pole(system_.diodes[k], tangent.current_a, tangent.conductance_s);
    const auto law = devices::evaluate_diode(numbers_.diodes[k].at, state_.diode_v[k]);
    add_heat(system_.wiring.diodes[k], law.slope_a_per_k);
  }

  void add_bipolar(std::size_t k) {
    const BipolarNumbers& bipolar = numbers_.bipolars[k];
    const auto [ube_v, ubc_v] = state_.bipolar_v[k];
    const auto law = devices::evaluate_bipolar(bipolar.at, ube_v, ubc_v);
    add_three_pole(system_.bipolars[k], work_.bipolars[k]);
    add_heat(system_.wiring.bipolars[k],
             bipolar.sign * law.collector_a_per_k,
             bipolar.sign * law.base_a_per_k);
  }

  void add_fet(std::size_t k) {
    const FetNumbers& fet = numbers_.fets[k];
    const auto [ugs_v, ugd_v] = state_.fet_v[k];
    const auto law = devices::evaluate_fet(fet.at, ugs_v, (ugs_v - ugd_v) / fet.at.slope_factor);
    add_three_pole(system_.fets[k], work_.fets[k]);
    add_heat(system_.wiring.fets[k], fet.sign * law.drain_a_per_k, 0.0);
  }

  [[nodiscard]] HeatSlopes finish() {
    for (const TerminalSlope& terminal : result_.terminals) {
      result_.balance_by_k[at(system_.unknown_of[at(terminal.point)])] += terminal.a;
      result_.power_w_per_k += terminal.a * work_.point_v[at(terminal.point)];
    }
    return std::move(result_);
  }

 private:
  /// P = sum of v i over the three terminals, measured from the third.
  void add_three_pole(const ThreePoleStamp& stamp, const ThreePoleTangent& t) {
    const double third_v = work_.point_v[at(stamp.points[2])];
    const double v0 = work_.point_v[at(stamp.points[0])] - third_v;
    const double v1 = work_.point_v[at(stamp.points[1])] - third_v;
    const double by_0 = t.current_0_a + v0 * t.s00 + v1 * t.s10;
    const double by_1 = t.current_1_a + v0 * t.s01 + v1 * t.s11;
    result_.power_w += t.current_0_a * v0 + t.current_1_a * v1;
    result_.by_unknown[at(stamp.rows[0])] += by_0;
    result_.by_unknown[at(stamp.rows[1])] += by_1;
    result_.by_unknown[at(stamp.rows[2])] -= by_0 + by_1;
  }

  void add_heat(const TwoPole& pole, double a_per_k) {
    result_.terminals.push_back({pole.owner_a, pole.a, a_per_k});
    result_.terminals.push_back({pole.owner_b, pole.b, -a_per_k});
  }

  void add_heat(const ThreePole& pole, double first_a_per_k, double second_a_per_k) {
    const std::array<double, 3> slopes{
        first_a_per_k, second_a_per_k, -(first_a_per_k + second_a_per_k)};
    for (std::size_t k = 0; k < 3; ++k) {
      result_.terminals.push_back({{pole.part, pole.leads[k]}, pole.points[k], slopes[k]});
    }
  }

  const System& system_;
  const Numbers& numbers_;
  const State& state_;
  const Work& work_;
  HeatSlopes result_;
};

devices::ResistanceAt thermistor_at(const circuit::Part& part, double temperature_k) {
  const auto& details = std::get<circuit::ThermistorDetails>(part.details);
  return devices::thermistor_resistance(part.value, details.beta_k, temperature_k);
}

}  // namespace

std::vector<HeatedPoles> heated_poles(const HeatModel& model, const Wiring& wiring) {
  std::vector<HeatedPoles> poles(model.parts.size() + 1);  // the last takes what has no heat
  for (std::size_t k = 0; k < wiring.conductors.size(); ++k) {
    poles[owner_of(model, wiring.conductors[k].owner_a.part)].conductors.push_back(k);
  }
  for (std::size_t k = 0; k < wiring.diodes.size(); ++k) {
    poles[owner_of(model, wiring.diodes[k].owner_a.part)].diodes.push_back(k);
  }
  for (std::size_t k = 0; k < wiring.bipolars.size(); ++k) {
    poles[owner_of(model, wiring.bipolars[k].part)].bipolars.push_back(k);
  }
  for (std::size_t k = 0; k < wiring.fets.size(); ++k) {
    poles[owner_of(model, wiring.fets[k].part)].fets.push_back(k);
  }
  poles.pop_back();
  return poles;
}

void set_temperature(const Circuit& circuit,
                     PartId id,
                     const HeatedPoles& poles,
                     double temperature_k,
                     Numbers& numbers) {
  const circuit::Part& part = circuit.at(id);
  if (part.kind == PartKind::thermistor) {
    const double ohm = thermistor_at(part, temperature_k).ohm;
    for (const std::size_t k : poles.conductors) numbers.conductance_s[k] = 1.0 / ohm;
  }
  for (const std::size_t k : poles.bipolars) {
    numbers.bipolars[k] = bipolar_numbers(circuit, part, temperature_k);
  }
  for (const std::size_t k : poles.fets) {
    numbers.fets[k] = fet_numbers(circuit, part, temperature_k);
  }
  for (const std::size_t k : poles.diodes) {
    numbers.diodes[k] = part.kind == PartKind::diode
                            ? diode_numbers(circuit, part, temperature_k)
                            : fet_junction_numbers(fet_numbers(circuit, part, temperature_k));
  }
}

HeatSlopes heat_slopes(const Circuit& circuit,
                       PartId id,
                       const HeatedPoles& poles,
                       double temperature_k,
                       const System& system,
                       const Numbers& numbers,
                       const State& state,
                       const Work& work) {
  const circuit::Part& part = circuit.at(id);
  Slopes slopes(system, numbers, state, work);
  for (const std::size_t k : poles.conductors) {
    slopes.add_conductor(k);
    if (part.kind == PartKind::thermistor) {
      slopes.add_conductor_heat(k, thermistor_at(part, temperature_k).ohm_per_k);
    }
  }
  for (const std::size_t k : poles.diodes) slopes.add_diode(k);
  for (const std::size_t k : poles.bipolars) slopes.add_bipolar(k);
  for (const std::size_t k : poles.fets) slopes.add_fet(k);
  return slopes.finish();
}

}  // namespace idlepoint::solve
