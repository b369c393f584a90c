#include "answers/node_swings.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <optional>

namespace idlepoint::answers {
namespace {

using circuit::Circuit;
using circuit::NodeId;
using circuit::Part;
using circuit::PartKind;

constexpr double short_s = 1e3;         ///< A milliohm: small beside any emitter resistor.
constexpr double insulation_s = 1e-12;  ///< Holds points that nothing else ties.
constexpr double carries_audio_f = 0.99e-6;

class AudioPicture {
 public:
  AudioPicture(const Circuit& circuit, const solve::OperatingPoint& rest)
      : circuit_(circuit),
        rest_(rest),
        conductance_s_(Eigen::MatrixXd::Zero(size(), size())),
        stands_still_(circuit.nodes.size(), false) {
    stands_still_[circuit::ground.index] = true;
    for (const auto& rail : circuit.rails) stands_still_[rail.node.index] = true;
    if (circuit.signal.input) stands_still_[circuit.signal.input->index] = true;
    conductance_s_.diagonal().setConstant(insulation_s);
    for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
      add(circuit::PartId{index});
    }
  }

  [[nodiscard]] Eigen::VectorXd swings(NodeId output) {
    Eigen::VectorXd given = Eigen::VectorXd::Zero(size());
    for (Eigen::Index row = 0; row < size(); ++row) {
      const bool is_output = static_cast<std::size_t>(row) == output.index;
      if (!is_output && !stands_still_[static_cast<std::size_t>(row)]) continue;
      conductance_s_.row(row).setZero();
      conductance_s_(row, row) = 1.0;
      given[row] = is_output ? 1.0 : 0.0;
    }
    return conductance_s_.partialPivLu().solve(given);
  }

 private:
  [[nodiscard]] Eigen::Index size() const {
    return static_cast<Eigen::Index>(circuit_.nodes.size());
  }

  void join(std::optional<NodeId> one, std::optional<NodeId> other, double conductance_s) {
    if (!one || !other || *one == *other) return;
    const auto a = static_cast<Eigen::Index>(one->index);
    const auto b = static_cast<Eigen::Index>(other->index);
    conductance_s_(a, a) += conductance_s;
    conductance_s_(b, b) += conductance_s;
    conductance_s_(a, b) -= conductance_s;
    conductance_s_(b, a) -= conductance_s;
  }

  static double conductance_s(double ohm) { return std::min(short_s, 1.0 / std::max(ohm, 1e-9)); }

  [[nodiscard]] bool stands_in(const Part& hold) const {
    const auto is_fixed = [&](std::optional<NodeId> node) {
      return node && (*node == circuit::ground || circuit::find_rail(circuit_, *node));
    };
    return is_fixed(circuit::lead(hold, 0)) || is_fixed(circuit::lead(hold, 1));
  }

  void add_trimmer(const Part& part) {
    const auto& track = std::get<circuit::TrimmerDetails>(part.details);
    const auto wiper = circuit::lead(part, 1);
    const double fixed_ohm = track.end_resistance_ohm + track.wiper_resistance_ohm;
    if (part.damage.wiper_open) {
      join(circuit::lead(part, 0), circuit::lead(part, 2), conductance_s(part.value));
      return;
    }
    join(circuit::lead(part, 0), wiper, conductance_s(track.travel * part.value + fixed_ohm));
    join(wiper,
         circuit::lead(part, 2),
         conductance_s((1.0 - track.travel) * part.value + fixed_ohm));
  }

  [[nodiscard]] double two_legged_s(circuit::PartId id) const {
    const Part& part = circuit_.at(id);
    if (part.damage.is_link) return short_s;
    switch (part.kind) {
      case PartKind::resistor:
      case PartKind::thermistor:
        return conductance_s(part.value);
      case PartKind::capacitor:
        return part.value >= carries_audio_f ? short_s : 0.0;
      case PartKind::inductor:
      case PartKind::fuse:
        return conductance_s(std::get<circuit::SeriesDetails>(part.details).resistance_ohm);
      case PartKind::link:
        return short_s;
      case PartKind::hold:
        return stands_in(part) ? 0.0 : short_s;
      case PartKind::diode:
        return rest_.part(id).conduction == solve::Conduction::off ? 0.0 : short_s;
      default:
        return 0.0;
    }
  }

  void add(circuit::PartId id) {
    const Part& part = circuit_.at(id);
    if (part.damage.absent) return;
    if (part.kind == PartKind::trimmer) {
      add_trimmer(part);
    } else if (circuit::is_transistor(part.kind)) {
      join(circuit::lead(part, 1), circuit::lead(part, 2), short_s);
    } else {
      join(circuit::lead(part, 0), circuit::lead(part, 1), two_legged_s(id));
    }
  }

  const Circuit& circuit_;
  const solve::OperatingPoint& rest_;
  Eigen::MatrixXd conductance_s_;
  std::vector<bool> stands_still_;
};

}  // namespace

std::vector<double> node_swings(const Circuit& circuit, const solve::OperatingPoint& rest) {
  std::vector<double> swings(circuit.nodes.size(), 0.0);
  const auto output = circuit::output_node(circuit);
  if (!output) return swings;
  const Eigen::VectorXd solved = AudioPicture(circuit, rest).swings(*output);
  std::copy(solved.begin(), solved.end(), swings.begin());
  return swings;
}

double swing_across(const std::vector<double>& swings,
                    const Part& part,
                    std::size_t lead_1,
                    std::size_t lead_2) {
  const auto one = circuit::lead(part, lead_1);
  const auto other = circuit::lead(part, lead_2);
  return one && other ? swings.at(one->index) - swings.at(other->index) : 0.0;
}

}  // namespace idlepoint::answers
