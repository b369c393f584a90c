#include "answers/next_measurement.hpp"

#include <algorithm>
#include <array>
#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <set>
#include <tuple>

#include "circuit/hand_meter.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Circuit;
using circuit::DiodeBetween;
using circuit::Measurement;
using circuit::NodeId;
using circuit::OhmsBetween;
using circuit::Part;
using circuit::PartKind;
using circuit::Probe;
using circuit::VoltsBetween;

/// The kind of measurement and its two points; the diode range has a direction.
using Key = std::tuple<int, std::size_t, std::size_t>;

std::optional<Key> key_of(const Measurement& measurement) {
  if (const auto* ohms = std::get_if<OhmsBetween>(&measurement)) {
    return Key{1, std::min(ohms->a.index, ohms->b.index), std::max(ohms->a.index, ohms->b.index)};
  }
  if (const auto* diode = std::get_if<DiodeBetween>(&measurement)) {
    return Key{2, diode->a.index, diode->b.index};
  }
  const auto* volts = std::get_if<VoltsBetween>(&std::get<Probe>(measurement));
  if (volts == nullptr) return std::nullopt;
  return Key{0, std::min(volts->a.index, volts->b.index), std::max(volts->a.index, volts->b.index)};
}

class Gathering {
 public:
  Gathering(const Circuit& circuit, const std::vector<circuit::BenchReading>& taken)
      : circuit_(circuit) {
    for (const circuit::BenchReading& one : taken) {
      if (const auto key = key_of(one.measurement)) known_.insert(*key);
    }
  }

  std::vector<Measurement> run(const std::vector<circuit::PartId>& near) {
    for (std::size_t index = 1; index < circuit_.nodes.size(); ++index) {
      if (circuit_.nodes[index].lifted) continue;
      add(Probe{VoltsBetween{NodeId{index}, circuit::ground}});
    }
    for (const circuit::PartId id : near) {
      const Part& part = circuit_.at(id);
      if (part.leads.size() == 2) {
        add_two_legged(part);
      } else if (circuit::is_transistor(part.kind)) {
        add_transistor(part);
      } else if (part.kind == PartKind::trimmer) {
        add_ohms(circuit::lead(part, 0), circuit::lead(part, 1));
        add_ohms(circuit::lead(part, 1), circuit::lead(part, 2));
      }
    }
    return std::move(list_);
  }

 private:
  void add(const Measurement& measurement) {
    const auto key = key_of(measurement);
    if (!key || !known_.insert(*key).second) return;
    list_.push_back(measurement);
  }

  void add_volts(std::optional<NodeId> a, std::optional<NodeId> b) {
    if (a && b && a != b) add(Probe{VoltsBetween{*a, *b}});
  }
  void add_ohms(std::optional<NodeId> a, std::optional<NodeId> b) {
    if (a && b && a != b) add(OhmsBetween{*a, *b});
  }
  void add_diode(std::optional<NodeId> a, std::optional<NodeId> b) {
    if (a && b && a != b) add(DiodeBetween{*a, *b});
  }

  void add_two_legged(const Part& part) {
    if (part.kind == PartKind::hold || part.kind == PartKind::feed || part.kind == PartKind::load) {
      return;
    }
    const auto a = circuit::lead(part, 0);
    const auto b = circuit::lead(part, 1);
    if (part.kind == PartKind::diode) {
      add_volts(a, b);
      add_diode(a, b);
      add_diode(b, a);
      return;
    }
    if (part.kind != PartKind::capacitor) add_volts(a, b);
    add_ohms(a, b);
  }

  void add_transistor(const Part& part) {
    const auto main = circuit::lead(part, 0);
    const auto control = circuit::lead(part, 1);
    const auto source = circuit::lead(part, 2);
    add_volts(control, source);
    add_ohms(main, source);
    if (!circuit::is_bipolar(part.kind)) return;
    const bool is_p = circuit::is_p_kind(part.kind);
    add_diode(is_p ? source : control, is_p ? control : source);
    add_diode(is_p ? main : control, is_p ? control : main);
  }

  const Circuit& circuit_;
  std::set<Key> known_;
  std::vector<Measurement> list_;
};

/// What parts within their tolerances do to a reading with the power off, near enough to plan by.
double power_off_deviation(const Measurement& measurement, double shown) {
  constexpr double ohms_share = 0.03;
  constexpr double junction_v = 8e-3;
  if (std::holds_alternative<DiodeBetween>(measurement)) return junction_v;
  if (!std::holds_alternative<OhmsBetween>(measurement)) return 0.0;
  const double left_v = std::max(circuit::ohms_range_v - shown, 0.0);
  return ohms_share * std::max(shown, 0.0) * left_v / circuit::ohms_range_v;
}

double log_density(double y, double mean, double deviation) {
  const double z = (y - mean) / deviation;
  return -0.5 * z * z - std::log(deviation);
}

constexpr std::size_t quantiles = 15;

std::array<double, quantiles> quantile_points() {
  std::array<double, quantiles> points{};
  const boost::math::normal normal;
  for (std::size_t k = 0; k < quantiles; ++k) {
    points[k] = boost::math::quantile(
        normal, (static_cast<double>(k) + 0.5) / static_cast<double>(quantiles));
  }
  return points;
}

}  // namespace

std::vector<Measurement> measurements_to_take(const Circuit& circuit,
                                              const std::vector<circuit::PartId>& near,
                                              const std::vector<circuit::BenchReading>& taken) {
  return Gathering(circuit, taken).run(near);
}

namespace {

/// Rows in the order of the measurements.
Shown merged(const std::vector<Measurement>& measurements, const Shown& on, const Shown& off) {
  Shown all;
  std::size_t next_on = 0;
  std::size_t next_off = 0;
  for (const Measurement& one : measurements) {
    const bool is_off = circuit::is_power_off(one);
    const Shown& from = is_off ? off : on;
    const std::size_t k = is_off ? next_off++ : next_on++;
    all.values.push_back(from.values[k]);
    all.by_draw.push_back(from.by_draw[k]);
  }
  return all;
}

}  // namespace

Foretold foretell(const Circuit& circuit,
                  const std::vector<Measurement>& measurements,
                  const Probed& probed,
                  const ToleranceFit& fit) {
  const Shown shown = merged(measurements, probed.on, probed.off);
  const Eigen::MatrixXd slopes = probed.unknowns.by_unknown(0, shown.by_draw);
  const Eigen::MatrixXd known = slopes * fit.slopes.transpose();
  Foretold foretold;
  foretold.mean = shown.values;
  for (std::size_t k = 0; k < measurements.size(); ++k) {
    const auto row = static_cast<Eigen::Index>(k);
    const double before = slopes.row(row).squaredNorm();
    const double told = known.row(row).dot(fit.weights * known.row(row).transpose());
    const double meter = meter_deviation(circuit.meter, measurements[k], shown.values[k]);
    foretold.deviation.push_back(std::hypot(std::sqrt(std::max(0.0, before - told)),
                                            power_off_deviation(measurements[k], shown.values[k]),
                                            meter));
  }
  return foretold;
}

double likeness(const Foretold& one, const Foretold& other) {
  double least = 1.0;
  for (std::size_t k = 0; k < one.mean.size(); ++k) {
    const double sum =
        one.deviation[k] * one.deviation[k] + other.deviation[k] * other.deviation[k];
    const double apart = one.mean[k] - other.mean[k];
    const double coefficient = std::sqrt(2.0 * one.deviation[k] * other.deviation[k] / sum) *
                               std::exp(-0.25 * apart * apart / sum);
    least = std::min(least, coefficient);
  }
  return least;
}

std::vector<double> expected_bits(const std::vector<Foretold>& suspects,
                                  const std::vector<double>& probabilities) {
  std::vector<double> bits;
  if (suspects.empty()) return bits;
  static const auto points = quantile_points();
  double total = 0.0;
  for (const double probability : probabilities) total += probability;
  for (std::size_t k = 0; k < suspects.front().mean.size(); ++k) {
    double sum = 0.0;
    for (std::size_t h = 0; h < suspects.size(); ++h) {
      double of_this = 0.0;
      for (const double point : points) {
        const double y = suspects[h].mean[k] + point * suspects[h].deviation[k];
        const double own = log_density(y, suspects[h].mean[k], suspects[h].deviation[k]);
        double mixture = 0.0;
        for (std::size_t j = 0; j < suspects.size(); ++j) {
          const double there = log_density(y, suspects[j].mean[k], suspects[j].deviation[k]);
          mixture += probabilities[j] / total * std::exp(std::min(there - own, 300.0));
        }
        of_this -= std::log2(mixture);
      }
      sum += probabilities[h] / total * of_this / static_cast<double>(quantiles);
    }
    bits.push_back(std::max(0.0, sum));
  }
  return bits;
}

}  // namespace idlepoint::answers
