#include "answers/shares.hpp"

#include <algorithm>
#include <cmath>

#include "solve/sensitivity.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Circuit;

/// Of a draw that is even over -1 to 1.
constexpr double variance_of_a_draw = 1.0 / 3.0;

Share share_of(const Circuit& circuit,
               const circuit::Uncertainty& uncertainty,
               const circuit::Draw& draw,
               const solve::Sensitivity& by) {
  Share share;
  for (const circuit::Effect& effect : draw.effects) {
    const circuit::Parameter& parameter = uncertainty.parameters[effect.parameter];
    const double nominal = circuit::nominal(circuit, parameter);
    const double by_unit = by.by_parameter[effect.parameter];
    share.parameters.push_back(parameter);
    share.per_percent += 0.01 * nominal * by_unit;
  }
  const double slope = circuit::slope_by_draw(circuit, uncertainty, draw, by.by_parameter);
  share.share = slope * slope * variance_of_a_draw;
  return share;
}

Shares shares_of(const Circuit& circuit,
                 const circuit::Uncertainty& uncertainty,
                 const solve::Sensitivity& by) {
  Shares shares;
  double variance = 0.0;
  for (const circuit::Draw& draw : uncertainty.draws) {
    shares.parts.push_back(share_of(circuit, uncertainty, draw, by));
    variance += shares.parts.back().share;
  }
  shares.deviation = std::sqrt(variance);
  if (!(variance > 0.0)) {
    shares.parts.clear();
    return shares;
  }
  for (Share& one : shares.parts) one.share /= variance;
  std::stable_sort(shares.parts.begin(), shares.parts.end(), [](const Share& a, const Share& b) {
    return a.share > b.share;
  });
  return shares;
}

std::vector<solve::Wanted> wanted(const Circuit& circuit,
                                  const std::vector<circuit::Adjustment>& following,
                                  const solve::System& system) {
  std::vector<solve::Wanted> list;
  for (const circuit::Adjustment& one : following) {
    const auto track = solve::track_of(system.wiring, one.trimmer);
    if (track) list.push_back({*track, circuit.at(one.reading).probe, one.target});
  }
  return list;
}

}  // namespace

SharesOfAll find_shares(const circuit::CheckedCircuit& stage,
                        const solve::Conditions& conditions,
                        const circuit::Uncertainty& uncertainty,
                        const std::vector<circuit::Adjustment>& following) {
  const Circuit& circuit = *stage;
  SharesOfAll all;
  all.readings.resize(circuit.readings.size());
  all.positions.resize(following.size());
  solve::StateFinder finder(circuit, conditions);
  const auto found = finder.find();
  const auto* rest = std::get_if<solve::Rest>(&found);
  if (rest == nullptr) return all;
  std::vector<circuit::Probe> probes;
  for (const circuit::Reading& reading : circuit.readings) probes.push_back(reading.probe);
  const auto list = wanted(circuit, following, finder.solver().system());
  const auto slopes =
      solve::sensitivities(circuit, finder, *rest, {probes, list, uncertainty.parameters});
  if (!slopes) return all;
  for (std::size_t k = 0; k < probes.size(); ++k) {
    all.readings[k] = shares_of(circuit, uncertainty, slopes->readings[k]);
  }
  for (std::size_t k = 0; k < slopes->positions.size() && k < following.size(); ++k) {
    all.positions[k] = shares_of(circuit, uncertainty, slopes->positions[k]);
  }
  return all;
}

}  // namespace idlepoint::answers
