#include "solve/travel_scan.hpp"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <limits>

namespace idlepoint::solve {
namespace {

/// Positions tried from end to end; two crossings closer than one of these can be missed together.
constexpr int positions = 41;

class Turner {
 public:
  Turner(const circuit::Circuit& circuit, StateFinder& finder, const Wanted& wanted)
      : circuit_(circuit), finder_(finder), wanted_(wanted) {}

  /// Reading minus target at a travel; none without a state.
  std::optional<double> miss(double travel) {
    finder_.solver().set_travel(circuit_, wanted_.track, travel);
    std::optional<Rest> rest = finder_.find_quickly(rest_ ? &*rest_ : nullptr);
    if (!rest) return std::nullopt;
    rest_ = std::move(rest);
    return finder_.read(wanted_.probe, *rest_) - wanted_.target;
  }

 private:
  const circuit::Circuit& circuit_;
  StateFinder& finder_;
  const Wanted& wanted_;
  std::optional<Rest> rest_;
};

struct Sample {
  double travel;
  double miss;
};

/// The crossing between two samples whose misses differ in sign, to 1e-9 of the travel.
double bracketed_crossing(Turner& turner, const Sample& low, const Sample& high) {
  std::uintmax_t evaluations = 40;
  // A position without a state inside the bracket counts as the side it came from.
  const auto miss = [&](double travel) { return turner.miss(travel).value_or(low.miss); };
  const auto close = [](double a, double b) { return std::abs(a - b) < 1e-9; };
  const auto [from, to] = boost::math::tools::toms748_solve(
      miss, low.travel, high.travel, low.miss, high.miss, close, evaluations);
  return 0.5 * (from + to);
}

bool has_crossing(const Sample& low, const Sample& high) {
  return low.miss != 0.0 && high.miss != 0.0 && (low.miss < 0.0) != (high.miss < 0.0);
}

using Run = std::vector<Sample>;

/// The misses at all positions; none without a state. Where a stage finds no warm rest it seldom
/// finds one further on, and to see that takes long: there the steps double until one has a rest
/// again, and what was passed over before that one is looked at after all.
std::vector<std::optional<Sample>> sample_all(Turner& turner,
                                              const circuit::Part& trimmer,
                                              bool may_skip) {
  std::vector<std::optional<Sample>> samples(positions);
  const auto look = [&](int k) {
    const double travel = nearest_travel(trimmer, static_cast<double>(k) / (positions - 1));
    const auto miss = turner.miss(travel);
    auto& sample = samples[static_cast<std::size_t>(k)];
    if (miss) sample = Sample{travel, *miss};
    return miss.has_value();
  };
  int passed_over = 0;
  int stride = 1;
  for (int k = 0; k < positions; k += stride) {
    const bool has_state = look(k);
    while (has_state && passed_over < k) look(passed_over++);
    passed_over = k + 1;
    const int left = std::max(1, positions - 1 - k);
    stride = has_state || !may_skip ? 1 : std::min(2 * stride, left);
  }
  return samples;
}

/// Unbroken runs of samples: where a position has no state, a new run begins.
std::vector<Run> sample_runs(Turner& turner, const circuit::Part& trimmer, bool may_skip) {
  std::vector<Run> runs(1);
  for (const auto& sample : sample_all(turner, trimmer, may_skip)) {
    if (sample) {
      runs.back().push_back(*sample);
    } else if (!runs.back().empty()) {
      runs.emplace_back();
    }
  }
  if (runs.back().empty()) runs.pop_back();
  return runs;
}

}  // namespace

ScanResult scan_travel(const circuit::Circuit& circuit, StateFinder& finder, const Wanted& wanted) {
  Turner turner(circuit, finder, wanted);
  const circuit::Part& trimmer =
      circuit.at(finder.solver().system().wiring.tracks[wanted.track].part);
  const bool is_warm = !finder.heat().parts.empty();
  const auto runs = sample_runs(turner, trimmer, is_warm);
  ScanResult result;
  if (runs.empty()) return result;
  result.any_solved = true;
  const Sample& first = runs.front().front();
  const Sample& last = runs.back().back();
  result.nearest_end_travel =
      std::abs(first.miss) <= std::abs(last.miss) ? first.travel : last.travel;
  for (const auto& run : runs) {
    for (std::size_t k = 0; k < run.size(); ++k) {
      if (run[k].miss == 0.0) result.crossings.push_back(run[k].travel);
      if (k + 1 < run.size() && has_crossing(run[k], run[k + 1])) {
        result.crossings.push_back(bracketed_crossing(turner, run[k], run[k + 1]));
      }
    }
  }
  return result;
}

}  // namespace idlepoint::solve
