#include "acceptance/kinsol_amplifier.hpp"

#include <kinsol/kinsol.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include <algorithm>
#include <cmath>

namespace idlepoint::tests {
namespace {

// SI 2019, exact; docs/models.md, "Constants".
constexpr double boltzmann = 1.380649e-23;
constexpr double charge = 1.602176634e-19;
constexpr double insulation_s = 0.5e-12;
constexpr double breakdown_a = 10e-6;

/// exp(x) - 1, with a straight line above x = 60 for the way there; no solution lies so far up.
double growth(double x) {
  constexpr double top = 60.0;
  return x > top ? std::expm1(top) + std::exp(top) * (x - top) : std::expm1(x);
}

/// s(T) to the power 1/ideality.
double junction_factor(double t, double t0, double power, double gap_ev, double ideality) {
  const double s =
      std::pow(t / t0, power) * std::exp(charge * gap_ev / boltzmann * (1.0 / t0 - 1.0 / t));
  return std::pow(s, 1.0 / ideality);
}

/// A transistor's data brought to the temperature, once a solve.
PlainTransistor at_its_temperature(PlainTransistor part) {
  const double t = part.temperature_k;
  const double t0 = part.measured_at_k;
  const auto s = [&](double ideality) {
    return junction_factor(t, t0, part.temperature_power, part.band_gap_ev, ideality);
  };
  const double gain_factor = std::pow(t / t0, part.gain_temperature_power);
  part.saturation_a *= s(1.0);
  part.gain *= gain_factor;
  part.inverse_gain *= gain_factor;
  part.recombination_a *= s(part.recombination_ideality) / gain_factor;
  part.collector_recombination_a *= s(part.collector_recombination_ideality) / gain_factor;
  part.cutoff_a *= std::pow(2.0, (t - t0) / part.cutoff_doubles_every_k);
  return part;
}

PlainDiode at_its_temperature(PlainDiode part) {
  part.saturation_a *= junction_factor(part.temperature_k,
                                       part.measured_at_k,
                                       part.temperature_power,
                                       part.band_gap_ev,
                                       part.ideality);
  return part;
}

struct BaseAndCollector {
  double base_a;
  double collector_a;
};

/// The integral charge control law [GummelPoon1970], as an npn, at the inner junction voltages.
BaseAndCollector npn_currents(const PlainTransistor& part, double u, double ube, double ubc) {
  const double f = part.saturation_a * growth(ube / (part.ideality * u));
  const double r = part.saturation_a * growth(ubc / (part.inverse_ideality * u));
  double w = 1.0;
  if (part.early_v) w -= ubc / *part.early_v;
  if (part.inverse_early_v) w -= ube / *part.inverse_early_v;
  double h = 0.0;
  if (part.knee_a) h += f / *part.knee_a;
  if (part.inverse_knee_a) h += r / *part.inverse_knee_a;
  // Kept in range on the way; the test would not compare a state outside it.
  w = std::max(w, 0.05);
  h = std::max(h, -0.2);
  const double q = (1.0 + std::sqrt(1.0 + 4.0 * h)) / (2.0 * w);
  double ibe =
      f / part.gain + part.recombination_a * growth(ube / (part.recombination_ideality * u));
  if (part.breakdown_v) {
    const double rest = std::exp(-*part.breakdown_v / u);
    ibe -= breakdown_a * (growth(-(ube + *part.breakdown_v) / u) + 1.0 - rest);
  }
  const double ibc =
      r / part.inverse_gain +
      part.collector_recombination_a * growth(ubc / (part.collector_recombination_ideality * u)) +
      part.cutoff_a * growth(ubc / u);
  return {ibe + ibc, (f - r) / q - ibc};
}

/// The unknowns in one row: node voltages without ground's, then every branch's current.
class Tableau {
 public:
  explicit Tableau(const PlainAmplifier& amplifier) : amplifier_(amplifier) {
    for (auto& part : amplifier_.transistors) part = at_its_temperature(part);
    for (auto& part : amplifier_.diodes) part = at_its_temperature(part);
  }

  double rails = 1.0;  ///< Fraction of every rail's volts.

  [[nodiscard]] std::size_t volts() const { return amplifier_.nodes - 1; }
  [[nodiscard]] std::size_t size() const {
    return volts() + amplifier_.resistors.size() + amplifier_.rails.size() +
           amplifier_.diodes.size() + 2 * amplifier_.transistors.size();
  }

  /// What every equation lacks to zero: amperes of a node first, then volts or amperes of a branch.
  void evaluate(const double* x, double* missing) const {
    std::vector<double> leaving_a(amplifier_.nodes);
    for (std::size_t node = 1; node < amplifier_.nodes; ++node) {
      leaving_a[node] = insulation_s * node_v(x, node);
    }
    const double* current = x + volts();
    double* equation = missing + volts();
    write_resistors(x, current, equation, leaving_a);
    write_rails(x, current, equation, leaving_a);
    write_diodes(x, current, equation, leaving_a);
    write_transistors(x, current, equation, leaving_a);
    for (std::size_t node = 1; node < amplifier_.nodes; ++node) missing[node - 1] = leaving_a[node];
  }

  [[nodiscard]] PlainState state(const double* x) const {
    PlainState state;
    state.unknowns.assign(x, x + size());
    for (std::size_t node = 0; node < amplifier_.nodes; ++node) {
      state.node_v.push_back(node_v(x, node));
    }
    const double* current = x + volts();
    const auto take = [&](std::size_t count, std::vector<double>& list) {
      list.assign(current, current + count);
      current += count;
    };
    take(amplifier_.resistors.size(), state.resistor_a);
    take(amplifier_.rails.size(), state.rail_a);
    take(amplifier_.diodes.size(), state.diode_a);
    for (std::size_t k = 0; k < amplifier_.transistors.size(); ++k) {
      state.base_a.push_back(*current++);
      state.collector_a.push_back(*current++);
    }
    return state;
  }

 private:
  static double node_v(const double* x, std::size_t node) { return node == 0 ? 0.0 : x[node - 1]; }

  void write_resistors(const double* x,
                       const double*& current,
                       double*& equation,
                       std::vector<double>& leaving_a) const {
    for (const PlainResistor& part : amplifier_.resistors) {
      const double i = *current++;
      leaving_a[part.a] += i;
      leaving_a[part.b] -= i;
      *equation++ = node_v(x, part.a) - node_v(x, part.b) - part.ohm * i;
    }
  }

  void write_rails(const double* x,
                   const double*& current,
                   double*& equation,
                   std::vector<double>& leaving_a) const {
    for (const PlainRail& rail : amplifier_.rails) {
      const double i = *current++;
      leaving_a[rail.node] -= i;
      *equation++ = rails * rail.source_v - rail.ohm * i - node_v(x, rail.node);
    }
  }

  void write_diodes(const double* x,
                    const double*& current,
                    double*& equation,
                    std::vector<double>& leaving_a) const {
    for (const PlainDiode& part : amplifier_.diodes) {
      const double i = *current++;
      leaving_a[part.anode] += i;
      leaving_a[part.cathode] -= i;
      const double each_v = (node_v(x, part.anode) - node_v(x, part.cathode)) / part.junctions;
      const double inner_v = each_v - part.series_ohm * i;
      *equation++ =
          i - part.saturation_a * growth(inner_v / (part.ideality * thermal_v(part.temperature_k)));
    }
  }

  void write_transistors(const double* x,
                         const double*& current,
                         double*& equation,
                         std::vector<double>& leaving_a) const {
    for (const PlainTransistor& part : amplifier_.transistors) {
      const double base_a = *current++;
      const double collector_a = *current++;
      leaving_a[part.base] += base_a;
      leaving_a[part.collector] += collector_a;
      leaving_a[part.emitter] -= base_a + collector_a;
      const double base_v = node_v(x, part.base) - part.base_ohm * base_a;
      const double collector_v = node_v(x, part.collector) - part.collector_ohm * collector_a;
      const double emitter_v = node_v(x, part.emitter) + part.emitter_ohm * (base_a + collector_a);
      const double sign = part.is_pnp ? -1.0 : 1.0;
      const auto law = npn_currents(part,
                                    thermal_v(part.temperature_k),
                                    sign * (base_v - emitter_v),
                                    sign * (base_v - collector_v));
      *equation++ = base_a - sign * law.base_a;
      *equation++ = collector_a - sign * law.collector_a;
    }
  }

  static double thermal_v(double temperature_k) { return boltzmann * temperature_k / charge; }

  PlainAmplifier amplifier_;
};

int missing_of(N_Vector x, N_Vector missing, void* tableau) {
  static_cast<const Tableau*>(tableau)->evaluate(N_VGetArrayPointer(x),
                                                 N_VGetArrayPointer(missing));
  return 0;
}

void say_nothing(int, const char*, const char*, char*, void*) {}

/// KINSOL's memory and its settings: a Jacobian by differences at every step, line search.
class Kinsol {
 public:
  explicit Kinsol(Tableau& tableau) {
    const auto size = static_cast<sunindextype>(tableau.size());
    SUNContext_Create(nullptr, &context_);
    x_ = N_VNew_Serial(size, context_);
    x_scale_ = N_VNew_Serial(size, context_);
    scale_ = N_VNew_Serial(size, context_);
    N_VConst(0.0, x_);
    N_VConst(1.0, scale_);
    // Volts are of the order of 1, amperes of the order of a milliampere.
    for (std::size_t k = 0; k < tableau.size(); ++k) {
      N_VGetArrayPointer(x_scale_)[k] = k < tableau.volts() ? 1.0 : 1e3;
    }
    matrix_ = SUNDenseMatrix(size, size, context_);
    linear_ = SUNLinSol_Dense(x_, matrix_, context_);
    kinsol_ = KINCreate(context_);
    KINInit(kinsol_, missing_of, x_);
    KINSetUserData(kinsol_, &tableau);
    KINSetLinearSolver(kinsol_, linear_, matrix_);
    KINSetErrHandlerFn(kinsol_, say_nothing, nullptr);
    KINSetMaxSetupCalls(kinsol_, 1);
    KINSetMaxNewtonStep(kinsol_, 1e4);
    KINSetNumMaxIters(kinsol_, 100);
    KINSetScaledStepTol(kinsol_, 1e-15);
  }

  ~Kinsol() {
    KINFree(&kinsol_);
    SUNLinSolFree(linear_);
    SUNMatDestroy(matrix_);
    for (N_Vector vector : {x_, x_scale_, scale_}) N_VDestroy(vector);
    SUNContext_Free(&context_);
  }
  Kinsol(const Kinsol&) = delete;
  Kinsol& operator=(const Kinsol&) = delete;

  /// Improves `x()` until no equation lacks more than `tolerance` (volts or amperes).
  bool run(double tolerance) {
    KINSetFuncNormTol(kinsol_, tolerance);
    const int ended = KINSol(kinsol_, x_, KIN_LINESEARCH, x_scale_, scale_);
    return ended == KIN_SUCCESS || ended == KIN_INITIAL_GUESS_OK;
  }

  [[nodiscard]] double* x() { return N_VGetArrayPointer(x_); }

 private:
  SUNContext context_ = nullptr;
  N_Vector x_ = nullptr;
  N_Vector x_scale_ = nullptr;
  N_Vector scale_ = nullptr;
  SUNMatrix matrix_ = nullptr;
  SUNLinearSolver linear_ = nullptr;
  void* kinsol_ = nullptr;
};

/// KINSOL may stop above that for rounding; the state says how far it came.
PlainState finished(const Tableau& tableau, Kinsol& kinsol) {
  constexpr double at_the_end = 1e-13;
  static_cast<void>(kinsol.run(at_the_end));
  PlainState state = tableau.state(kinsol.x());
  std::vector<double> missing(tableau.size());
  tableau.evaluate(kinsol.x(), missing.data());
  for (const double each : missing) {
    state.largest_missing = std::max(state.largest_missing, std::abs(each));
  }
  return state;
}

}  // namespace

std::optional<PlainState> solve_by_kinsol(const PlainAmplifier& amplifier) {
  constexpr double on_the_way = 1e-7;
  Tableau tableau(amplifier);
  Kinsol kinsol(tableau);
  std::vector<double> last(tableau.size(), 0.0);
  double reached = 0.0;
  double rung = 0.02;
  while (reached < 1.0) {
    tableau.rails = std::min(1.0, reached + rung);
    if (kinsol.run(on_the_way)) {
      reached = tableau.rails;
      last.assign(kinsol.x(), kinsol.x() + tableau.size());
      rung *= 1.5;
    } else {
      std::copy(last.begin(), last.end(), kinsol.x());
      rung *= 0.25;
      if (rung < 1e-7) return std::nullopt;
    }
  }
  return finished(tableau, kinsol);
}

std::optional<PlainState> solve_by_kinsol(const PlainAmplifier& amplifier, const PlainState& from) {
  constexpr double near_enough = 1e-7;
  Tableau tableau(amplifier);
  Kinsol kinsol(tableau);
  std::copy(from.unknowns.begin(), from.unknowns.end(), kinsol.x());
  if (!kinsol.run(near_enough)) return std::nullopt;
  return finished(tableau, kinsol);
}

}  // namespace idlepoint::tests
