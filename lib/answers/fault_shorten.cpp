#include "answers/fault_shorten.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>

namespace idlepoint::answers {
namespace {

constexpr double alike_share = 0.05;
constexpr double hardly_changed = 0.05;  // a current, by its logarithm
constexpr double alike_v = 5e-3;
constexpr double alike_across_v = 50e-3;
constexpr double nothing_a = 1e-6;
// One step is kept for the output that is held.
constexpr std::size_t most_told = longest_chain - 1;

using Drafts = std::vector<DraftStep>;

bool is_alike(double one, double other) {
  return std::abs(one - other) <=
         nothing_a + alike_share * std::max(std::abs(one), std::abs(other));
}

bool is_across_alike(double one_v, double other_v) {
  const double apart_v = std::abs(std::abs(one_v) - std::abs(other_v));
  return apart_v < alike_across_v + alike_share * std::abs(one_v);
}

/// Two nodes of parallel parts: both followed a third one, by the same volts to the last digits.
bool follow_alike(const ChainStep& one, const ChainStep& other) {
  constexpr double same = 1e-6;
  return one.kind == StepKind::node && other.kind == StepKind::node && one.follows &&
         one.follows == other.follows &&
         std::abs(one.value.step() - other.value.step()) < same * std::abs(one.value.step());
}

/// Two parts of which one sentence is true.
bool say_the_same(const DraftStep& one, const DraftStep& other) {
  if (follow_alike(one.step, other.step)) return true;
  if (one.step.kind != StepKind::part || other.step.kind != StepKind::part) return false;
  return one.step.turn == other.step.turn && is_alike(one.step.value.was, other.step.value.was) &&
         is_alike(one.step.value.now, other.step.value.now) &&
         is_across_alike(one.step.across_v.now, other.step.across_v.now);
}

void merge(DraftStep& into, const DraftStep& from) {
  if (into.step.node && from.step.node) {
    into.step.alike.push_back(*from.step.node);
    const auto& more = from.step.alike;
    into.step.alike.insert(into.step.alike.end(), more.begin(), more.end());
    for (const auto part : from.step.through) {
      auto& through = into.step.through;
      if (std::find(through.begin(), through.end(), part) == through.end()) through.push_back(part);
    }
  }
  auto& parts = into.step.parts;
  parts.insert(parts.end(), from.step.parts.begin(), from.step.parts.end());
  into.size = std::max(into.size, from.size);
  into.is_needed = into.is_needed || from.is_needed;
  for (const std::size_t cause : from.because_of) {
    if (!has_vertex(into.because_of, cause)) into.because_of.push_back(cause);
  }
  const auto& mine = into.step.steering_v;
  const auto& theirs = from.step.steering_v;
  const bool is_steered_alike = mine && theirs && std::abs(mine->was - theirs->was) < alike_v &&
                                std::abs(mine->now - theirs->now) < alike_v;
  if (!is_steered_alike) into.step.steering_v.reset();
  into.step.junction_c.reset();
  if (into.step.by.empty() || from.step.by.empty()) {
    into.step.by.clear();
    return;
  }
  for (const auto part : from.step.by) {
    if (std::find(into.step.by.begin(), into.step.by.end(), part) == into.step.by.end()) {
      into.step.by.push_back(part);
    }
  }
}

void rename(Drafts& drafts, std::size_t from, std::size_t to) {
  for (DraftStep& draft : drafts) {
    std::replace(draft.because_of.begin(), draft.because_of.end(), from, to);
    std::sort(draft.because_of.begin(), draft.because_of.end());
    draft.because_of.erase(std::unique(draft.because_of.begin(), draft.because_of.end()),
                           draft.because_of.end());
  }
}

/// Nothing between the two follows from the first, so it may be told with the second; which may
/// itself follow where both go the same way off or on, as the diodes of a string do.
bool may_be_told_later(const Drafts& drafts, std::size_t first, std::size_t second) {
  const Turn turn = drafts[second].step.turn;
  const std::size_t last = turn == Turn::off || turn == Turn::on ? second : second + 1;
  for (std::size_t index = first + 1; index < last; ++index) {
    if (has_vertex(drafts[index].because_of, drafts[first].vertex)) return false;
  }
  return true;
}

void merge_alike(Drafts& drafts) {
  for (std::size_t first = 0; first < drafts.size(); ++first) {
    for (std::size_t second = first + 1; second < drafts.size(); ++second) {
      if (!say_the_same(drafts[first], drafts[second])) continue;
      if (!may_be_told_later(drafts, first, second)) continue;
      std::swap(drafts[first].step.parts, drafts[second].step.parts);
      std::swap(drafts[first].step.by, drafts[second].step.by);
      merge(drafts[second], drafts[first]);
      const std::size_t gone = drafts[first].vertex;
      const std::size_t stays = drafts[second].vertex;
      drafts.erase(drafts.begin() + static_cast<std::ptrdiff_t>(first));
      rename(drafts, gone, stays);
      for (DraftStep& draft : drafts) {
        if (draft.vertex == stays) std::erase(draft.because_of, stays);
      }
      --first;
      break;
    }
  }
}

std::vector<std::size_t> followers(const Drafts& drafts, std::size_t vertex) {
  std::vector<std::size_t> found;
  for (std::size_t index = 0; index < drafts.size(); ++index) {
    if (has_vertex(drafts[index].because_of, vertex)) found.push_back(index);
  }
  return found;
}

/// What was left out is named by the step that followed.
void fold_away(Drafts& drafts, std::size_t index) {
  const DraftStep gone = drafts[index];
  for (const std::size_t next : followers(drafts, gone.vertex)) {
    DraftStep& after = drafts[next];
    std::vector<circuit::PartId> way = gone.step.by_way_of;
    if (gone.step.kind == StepKind::part) {
      way.insert(way.end(), gone.step.parts.begin(), gone.step.parts.end());
    }
    for (const auto part : after.step.by_way_of) {
      if (std::find(way.begin(), way.end(), part) == way.end()) way.push_back(part);
    }
    after.step.by_way_of = std::move(way);
    std::erase(after.because_of, gone.vertex);
    for (const std::size_t cause : gone.because_of) {
      if (!has_vertex(after.because_of, cause)) after.because_of.push_back(cause);
    }
  }
  drafts.erase(drafts.begin() + static_cast<std::ptrdiff_t>(index));
}

void fold_the_small(Drafts& drafts) {
  for (std::size_t index = drafts.size(); index-- > 0;) {
    const DraftStep& draft = drafts[index];
    if (draft.is_needed || draft.step.kind == StepKind::fault) continue;
    const double least = draft.step.kind == StepKind::part ? hardly_changed : 0.0;
    if (draft.size <= least) fold_away(drafts, index);
  }
}

/// The smallest step that may go; first those that nobody asked for.
std::optional<std::size_t> least(const Drafts& drafts) {
  for (const bool may_be_needed : {false, true}) {
    std::optional<std::size_t> found;
    for (std::size_t index = 0; index < drafts.size(); ++index) {
      if (drafts[index].step.kind == StepKind::fault) continue;
      if (drafts[index].is_needed && !may_be_needed) continue;
      if (!found || drafts[index].size < drafts[*found].size) found = index;
    }
    if (found) return found;
  }
  return std::nullopt;
}

std::vector<ChainStep> numbered(Drafts drafts) {
  std::vector<ChainStep> steps;
  for (const DraftStep& draft : drafts) {
    ChainStep step = draft.step;
    for (std::size_t index = 0; index < drafts.size(); ++index) {
      if (has_vertex(draft.because_of, drafts[index].vertex)) step.because_of.push_back(index);
    }
    steps.push_back(std::move(step));
  }
  return steps;
}

}  // namespace

std::vector<ChainStep> shortened(Drafts drafts) {
  merge_alike(drafts);
  fold_the_small(drafts);
  while (drafts.size() > most_told) {
    const auto index = least(drafts);
    if (!index) break;
    fold_away(drafts, *index);
  }
  return numbered(std::move(drafts));
}

}  // namespace idlepoint::answers
