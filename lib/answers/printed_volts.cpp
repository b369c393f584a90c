#include "answers/printed_volts.hpp"

#include <algorithm>
#include <cmath>

namespace idlepoint::answers {
namespace {

constexpr double disagreement_fraction = 0.10;
constexpr double disagreement_v = 0.050;

PrintedComparison compare_one(const circuit::PrintedVolts& printed,
                              const solve::OperatingPoint& state) {
  PrintedComparison result{printed.a, printed.b, printed.text, printed.volts, 0.0, 0.0, false};
  result.calculated_v = state.voltage_v(printed.a) - state.voltage_v(printed.b);
  result.off_v = result.calculated_v - result.printed_v;
  result.disagrees = std::abs(result.off_v) > disagreement_v &&
                     std::abs(result.off_v) > disagreement_fraction * std::abs(result.printed_v);
  return result;
}

bool is_worse(const PrintedComparison& one, const PrintedComparison& other) {
  if (one.disagrees != other.disagrees) return one.disagrees;
  return std::abs(one.off_v) > std::abs(other.off_v);
}

}  // namespace

std::vector<PrintedComparison> compare_printed(const circuit::Circuit& circuit,
                                               const solve::OperatingPoint& state) {
  std::vector<PrintedComparison> comparisons;
  comparisons.reserve(circuit.printed.size());
  for (const auto& printed : circuit.printed) comparisons.push_back(compare_one(printed, state));
  std::stable_sort(comparisons.begin(), comparisons.end(), is_worse);
  return comparisons;
}

}  // namespace idlepoint::answers
