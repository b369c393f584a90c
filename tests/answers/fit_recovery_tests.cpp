// Oracle: parts with known fields: what their noisy points give must carry the parts' own currents.
//
// The points of each part are taken from its own law, the current of each wrong by up to 1 %.
#include <catch2/catch.hpp>
#include <cmath>

#include "answers/fit.hpp"
#include "answers/predict_point.hpp"
#include "solve/draws.hpp"

namespace idlepoint::tests {
namespace {

using answers::Law;
using circuit::PartKind;
using circuit::PointQuantity;
using circuit::TypePoint;
using circuit::TypePoints;

constexpr double noise = 0.01;
constexpr double allowed = 0.03;

// The draws of one part, in order.
class Draws {
 public:
  explicit Draws(std::uint64_t part) : part_(part) {}
  double even() { return solve::draw(7, part_, next_++); }  // -1 to 1
  double between(double low, double high) { return low * std::pow(high / low, 0.5 + 0.5 * even()); }

 private:
  std::uint64_t part_;
  std::size_t next_ = 0;
};

TypePoint point_at(PointQuantity quantity, double first, double second) {
  TypePoint point;
  point.quantity = quantity;
  point.at = {first, second};
  return point;
}

double value_of(const Law& law, const TypePoint& point) {
  answers::InnerVolts start;
  return answers::predict(law, point, start).value();
}

// How a voltage moves with the logarithm of its current.
double volts_per_log(const Law& law, TypePoint point) {
  TypePoint more = point;
  more.at[0] *= 1.001;
  return (value_of(law, more) - value_of(law, point)) / std::log(1.001);
}

// A voltage read while the current was wrong, or a current that is: known to 1 %.
void take(TypePoints& asked, Draws& draws, const Law& truth, TypePoint point) {
  TypePoint read = point;
  const bool is_volts = circuit::facts(point.quantity).unit == values::Unit::volt;
  const double wrong = 1.0 + noise * draws.even();
  if (is_volts) {
    TypePoint elsewhere = point;
    elsewhere.at[0] *= wrong;
    if (point.quantity == PointQuantity::vce_sat) elsewhere.at[1] *= wrong;
    read.value = value_of(truth, elsewhere);
    read.within = noise / std::sqrt(3.0) * std::abs(volts_per_log(truth, point));
  } else {
    read.value = value_of(truth, point) * wrong;
    read.within_fraction = noise / std::sqrt(3.0);
  }
  asked.points.push_back(read);
}

// By how much the fitted current differs from the true one where the true part stands.
double current_off(const Law& fitted, const Law& truth, const TypePoint& point) {
  const double here = value_of(fitted, point);
  const double there = value_of(truth, point);
  if (circuit::facts(point.quantity).unit != values::Unit::volt) return here / there - 1.0;
  return std::expm1((there - here) / volts_per_log(truth, point));
}

struct Sample {
  TypePoints asked;
  Law truth;
  std::vector<TypePoint> checks;  // Between the points, too.
};

Sample bipolar_part(std::uint64_t part) {
  Draws draws(part);
  Sample sample;
  const double most_a = draws.between(0.1, 15.0);
  devices::BipolarData truth;
  truth.saturation_current_a = most_a / 300.0 * std::exp(-(0.6 + 0.04 * draws.even()) / 0.02569);
  truth.gain = draws.between(30.0, 400.0);
  truth.knee_current_a = most_a * draws.between(0.15, 1.0);
  const double crossing_a = most_a * draws.between(1e-7, 1e-4);
  truth.recombination_current_a =
      crossing_a / truth.gain * std::sqrt(truth.saturation_current_a / crossing_a);
  truth.emitter_resistance_ohm = draws.between(0.05, 0.3) / most_a;
  truth.collector_resistance_ohm = draws.between(0.1, 1.0) / most_a;
  truth.base_resistance_ohm = draws.between(5.0, 40.0) / most_a;
  truth.early_voltage_v = draws.between(40.0, 200.0);
  sample.truth = truth;
  sample.asked.type.kind = PartKind::npn;
  sample.asked.type.law = devices::BipolarData{};
  sample.asked.type.ratings.max_current_a = most_a;
  for (const double share : {1e-5, 1e-4, 1e-3, 1e-2, 0.1, 0.5}) {
    for (const auto quantity : {PointQuantity::vbe, PointQuantity::gain}) {
      take(sample.asked, draws, sample.truth, point_at(quantity, share * most_a, 5.0));
    }
  }
  take(sample.asked, draws, sample.truth, point_at(PointQuantity::gain, 0.01 * most_a, 30.0));
  take(sample.asked,
       draws,
       sample.truth,
       point_at(PointQuantity::vce_sat, 0.3 * most_a, 0.03 * most_a));
  for (double share = 1e-5; share < 0.5; share *= 2.0) {
    sample.checks.push_back(point_at(PointQuantity::vbe, share * most_a, 5.0));
    sample.checks.push_back(point_at(PointQuantity::gain, share * most_a, 5.0));
  }
  return sample;
}

Sample diode_part(std::uint64_t part) {
  Draws draws(part);
  Sample sample;
  const double most_a = draws.between(0.05, 5.0);
  devices::DiodeData truth;
  truth.ideality = draws.between(1.05, 2.0);
  truth.saturation_current_a = most_a / 30.0 * std::exp(-0.7 / (truth.ideality * 0.02569));
  truth.series_resistance_ohm = draws.between(0.03, 0.3) / most_a;
  sample.truth = truth;
  sample.asked.type.law = devices::DiodeData{};
  sample.asked.type.ratings.max_current_a = most_a;
  for (const double share : {1e-4, 1e-3, 1e-2, 0.1, 1.0}) {
    take(sample.asked, draws, sample.truth, point_at(PointQuantity::vf, share * most_a, 0.0));
  }
  for (double share = 1e-4; share < 1.0; share *= 2.0) {
    sample.checks.push_back(point_at(PointQuantity::vf, share * most_a, 0.0));
  }
  return sample;
}

Sample fet_part(std::uint64_t part, bool is_junction) {
  Draws draws(part);
  Sample sample;
  devices::FetData truth = devices::usual_fet(is_junction);
  double most_a = 0.0;
  if (is_junction) {
    most_a = draws.between(1e-3, 20e-3);
    truth.threshold_voltage_v = -draws.between(0.7, 5.0);
    truth.current_factor_a_per_v2 =
        devices::current_factor_from_idss(most_a, truth.threshold_voltage_v);
  } else {
    most_a = draws.between(2.0, 20.0);
    truth.threshold_voltage_v = 2.0 + 1.8 * draws.even();
    truth.current_factor_a_per_v2 = most_a * draws.between(0.1, 1.0);
    truth.source_resistance_ohm = draws.between(0.03, 0.5) / most_a;
    truth.drain_resistance_ohm = draws.between(0.1, 1.0) / most_a;
  }
  truth.drain_slope_per_v = draws.between(0.002, 0.02);
  sample.truth = truth;
  sample.asked.type.kind = is_junction ? PartKind::n_jfet : PartKind::n_mosfet;
  sample.asked.type.law = devices::usual_fet(is_junction);
  if (!is_junction) sample.asked.type.ratings.max_current_a = most_a;
  for (const double share : {0.01, 0.05, 0.2, 0.6}) {
    take(sample.asked, draws, sample.truth, point_at(PointQuantity::vgs, share * most_a, 15.0));
  }
  take(sample.asked, draws, sample.truth, point_at(PointQuantity::vgs, 0.2 * most_a, 30.0));
  if (is_junction) {
    take(sample.asked, draws, sample.truth, point_at(PointQuantity::idss, 15.0, 0.0));
  } else {
    take(sample.asked, draws, sample.truth, point_at(PointQuantity::vds_on, 0.5 * most_a, 12.0));
  }
  for (double share = 0.01; share < 0.6; share *= 1.5) {
    sample.checks.push_back(point_at(PointQuantity::vgs, share * most_a, 15.0));
  }
  return sample;
}

Sample part_of_kind(std::uint64_t part) {
  switch (part % 5) {
    case 0:
      return diode_part(part);
    case 1:
      return fet_part(part, true);
    case 2:
      return fet_part(part, false);
    default:
      return bipolar_part(part);
  }
}

void check_parts(std::uint64_t first, std::uint64_t count) {
  for (std::uint64_t part = first; part < first + count; ++part) {
    const Sample sample = part_of_kind(part);
    const answers::TypeFit fit = answers::ask_fit(sample.asked);
    double worst = 0.0;
    for (const TypePoint& point : sample.checks) {
      const double off = current_off(fit.type.law, sample.truth, point);
      if (std::abs(off) > std::abs(worst)) worst = off;
    }
    CAPTURE(part, worst);
    CHECK(std::abs(worst) < allowed);
    CHECK(answers::is_good(fit));
  }
}

}  // namespace

TEST_CASE("Thirty parts are recovered from points with 1 % of noise to 3 % in current",
          "[answers][manufactured]") {
  check_parts(0, 30);
}

TEST_CASE("A thousand parts are recovered from points with 1 % of noise to 3 % in current",
          "[answers][manufactured][heavy]") {
  check_parts(30, 1000);
}

}  // namespace idlepoint::tests
