#include "answers/stretches.hpp"

#include <cmath>
#include <utility>

namespace idlepoint::answers {
namespace {

/// One size's range is looked at in so many parts; each of two sizes' in two.
constexpr std::size_t stretches_of_one = 3;
constexpr std::size_t stretches_of_two = 2;

/// A stretch whose evidence is so far below the best's, in logarithms, is left.
constexpr double stretch_is_out = 8.0;

/// A fit that has run against the end of its stretch may lack so much, in logarithms, and still
/// show the way into the next.
constexpr double end_may_lack = 400.0;

/// Whether `other` begins where the size of a fit in `stretch` has run against its end.
bool goes_on_in(const Stretch& stretch, const Stretch& other) {
  constexpr double at_the_end = 1e-6;
  std::size_t differing = 0;
  bool meets = false;
  for (std::size_t s = 0; s < stretch.bounds.size(); ++s) {
    const SizeStretch& one = stretch.bounds[s];
    const SizeStretch& next = other.bounds[s];
    if (one.low == next.low) continue;
    ++differing;
    const double end = next.low > one.low ? one.high : one.low;
    const double begin = next.low > one.low ? next.low : next.high;
    meets = std::abs(end - begin) < at_the_end && std::abs(stretch.fit->t[s] - end) < at_the_end;
  }
  return differing == 1 && meets;
}

/// A stretch's middle may lie beyond a bend that the way from its end does not cross: where a size
/// has run against an end, it goes on in the next stretch from there.
void go_on_over_ends(std::vector<Stretch>& stretches,
                     const std::vector<Channel>& channels,
                     double least) {
  for (std::size_t round = 1; round < stretches.size(); ++round) {
    bool is_better = false;
    for (const Stretch& from : stretches) {
      if (!from.fit) continue;
      for (Stretch& to : stretches) {
        if (!goes_on_in(from, to)) continue;
        if (to.fit && to.fit->log_evidence > from.fit->log_evidence) continue;
        ToleranceFit start = *from.fit;
        start.stretches = to.bounds;
        auto fit = fit_tolerances(channels, {{}, &start, nullptr}, least);
        if (!fit || (to.fit && fit->log_evidence <= to.fit->log_evidence)) continue;
        to.fit = std::move(fit);
        is_better = true;
      }
    }
    if (!is_better) return;
  }
}

}  // namespace

std::vector<Stretch> stretches_of(std::size_t sizes) {
  const std::size_t parts = sizes > 1 ? stretches_of_two : stretches_of_one;
  const double length = 2.0 / static_cast<double>(parts);
  std::vector<Stretch> rows = {{}};
  for (std::size_t s = 0; s < sizes; ++s) {
    std::vector<Stretch> longer;
    for (const Stretch& row : rows) {
      for (std::size_t part = 0; part < parts; ++part) {
        const double low = -1.0 + length * static_cast<double>(part);
        longer.push_back({row.bounds});
        longer.back().bounds.push_back({low, low + length});
      }
    }
    rows = std::move(longer);
  }
  return rows;
}

void fit_stretches(std::vector<Stretch>& stretches,
                   const std::vector<Channel>& channels,
                   double least) {
  bool any = false;
  for (Stretch& stretch : stretches) {
    if (!stretch.fit) continue;
    const auto earlier = std::exchange(stretch.fit, std::nullopt);
    stretch.fit = fit_tolerances(channels, {{}, &*earlier, nullptr}, least);
    any = any || stretch.fit;
  }
  if (any) return;
  const bool has_sizes = !stretches.front().bounds.empty();
  const double least_at_first = has_sizes ? least - end_may_lack : least;
  for (Stretch& stretch : stretches) {
    stretch.fit = fit_tolerances(channels, {stretch.bounds, nullptr, nullptr}, least_at_first);
  }
  if (!has_sizes) return;
  go_on_over_ends(stretches, channels, least);
  for (Stretch& stretch : stretches) {
    if (stretch.fit && stretch.fit->log_evidence < least) stretch.fit.reset();
  }
}

BestStretch best_of_stretches(std::vector<Stretch>& stretches) {
  const Stretch* best = nullptr;
  for (const Stretch& one : stretches) {
    if (!one.fit) continue;
    if (best == nullptr || one.fit->log_evidence > best->fit->log_evidence) best = &one;
  }
  if (best == nullptr) return {};
  const double highest = best->fit->log_evidence;
  double sum = 0.0;
  for (Stretch& one : stretches) {
    if (!one.fit) continue;
    const double below = highest - one.fit->log_evidence;
    if (below > stretch_is_out) {
      one.fit.reset();
      continue;
    }
    sum += std::exp(-below);
  }
  return {best, highest + std::log(sum)};
}

}  // namespace idlepoint::answers
