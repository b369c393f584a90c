#include "answers/fault_chain.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "answers/fault_ends.hpp"
#include "answers/fault_graph.hpp"
#include "answers/fault_held.hpp"
#include "answers/fault_shorten.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Circuit;
using circuit::NodeId;
using circuit::Part;
using circuit::PartId;
using circuit::PartKind;
using solve::Conduction;

// A node between two parts that moved by less needs no sentence.
constexpr double worth_a_sentence_v = 20e-3;
// Nodes that no reading names are the first to be left out of a long chain.
constexpr double weight_of_an_unread_node = 0.2;
// What a fault that alone does nothing begins behind one that does all.
constexpr double cost_of_a_slight_fault = 20.0;
constexpr double goes_along_within = 0.1;
constexpr double steady_within = 0.05;
// A junction warmer by more carries more at the same volts.
constexpr double warmth_that_tells_k = 3.0;

class Telling {
 public:
  Telling(const Moves& moves,
          const Moves& compared,
          const std::vector<WeighedFault>& faults,
          const std::vector<PartId>& in_danger)
      : moves_(moves), circuit_(moves.faulty().circuit), vertices_(circuit_), faults_(faults) {
    std::size_t bridges = 0;
    std::vector<Start> starts;
    for (const auto& fault : faults) {
      sources_.push_back(vertex_of(fault.edit, moves, bridges));
      starts.push_back({sources_.back(), cost_of_a_slight_fault * (1.0 - fault.weight)});
      if (std::holds_alternative<circuit::Bridge>(fault.edit)) ++bridges;
    }
    causes_ = find_causes(compared, starts);
    for (const std::size_t end : find_ends(moves, in_danger)) {
      if (causes_.distance[end]) ends_.push_back(end);
    }
    mark();
  }

  std::vector<ChainStep> tell() {
    for (std::size_t index = 0; index < faults_.size(); ++index) add_fault(index);
    for (const std::size_t vertex : in_order()) {
      if (has_vertex(sources_, vertex)) continue;
      if (vertices_.is_node(vertex)) {
        if (!is_left_out(vertex)) add_node(vertex);
      } else if (!is_passive(vertices_.part(vertex))) {
        add_part(vertex);
      }
    }
    for (DraftStep& draft : drafts_) draft.because_of = printed_causes(draft.vertex);
    auto steps = shortened(std::move(drafts_));
    if (auto held = find_held(moves_, causes_, sources_, steps)) steps.push_back(std::move(*held));
    return steps;
  }

 private:
  void mark() {
    std::vector<std::size_t> open = ends_;
    while (!open.empty()) {
      const std::size_t vertex = open.back();
      open.pop_back();
      if (!marked_.insert(vertex).second) continue;
      for (const std::size_t cause : causes_.of[vertex]) open.push_back(cause);
    }
    children_.resize(vertices_.count());
    for (const std::size_t vertex : marked_) {
      for (const std::size_t cause : causes_.of[vertex]) children_[cause].push_back(vertex);
    }
  }

  [[nodiscard]] double size_of(std::size_t vertex) const {
    if (vertices_.is_node(vertex)) return std::abs(moves_.volts(vertices_.node(vertex)).step());
    return std::abs(moves_.main_a(vertices_.part(vertex)).step());
  }

  /// By distance, of equal ones the larger first.
  [[nodiscard]] std::vector<std::size_t> in_order() const {
    std::vector<std::size_t> order(marked_.begin(), marked_.end());
    const auto steps = [&](std::size_t vertex) {
      return std::llround(1e3 * causes_.distance[vertex].value_or(0.0));
    };
    std::stable_sort(order.begin(), order.end(), [&](std::size_t one, std::size_t other) {
      if (steps(one) != steps(other)) return steps(one) < steps(other);
      return size_of(one) > size_of(other) * (1.0 + 1e-9);
    });
    return order;
  }

  /// Its current says nothing that the nodes at its ends do not say.
  [[nodiscard]] bool is_passive(PartId id) const {
    const Part& part = circuit_.at(id);
    if (circuit::is_transistor(part.kind) || part.kind == PartKind::feed) return false;
    if (part.kind != PartKind::diode) return true;
    return moves_.region_now(id) == Conduction::forward &&
           moves_.region_before(id) == Conduction::forward;
  }

  [[nodiscard]] bool is_source(std::size_t vertex) const { return has_vertex(sources_, vertex); }

  /// The only cause, where that is a passive part without a fault.
  [[nodiscard]] std::optional<PartId> passive_cause(std::size_t vertex) const {
    const auto& of = causes_.of[vertex];
    if (of.size() != 1 || is_source(of.front()) || causes_.is_unexplained[vertex]) {
      return std::nullopt;
    }
    const PartId part = vertices_.part(of.front());
    return is_passive(part) ? std::optional(part) : std::nullopt;
  }

  [[nodiscard]] bool is_passed_on_passively(std::size_t vertex) const {
    return std::all_of(children_[vertex].begin(), children_[vertex].end(), [&](std::size_t child) {
      return !is_source(child) && is_passive(vertices_.part(child));
    });
  }

  [[nodiscard]] bool is_left_out(std::size_t vertex) const {
    if (has_vertex(ends_, vertex)) return false;
    const double step_v = size_of(vertex);
    if (step_v < worth_a_sentence_v) return true;
    if (is_passed_on_passively(vertex)) {
      if (passive_cause(vertex) || follower_cause(vertex)) return true;
      return std::all_of(children_[vertex].begin(),
                         children_[vertex].end(),
                         [&](std::size_t child) { return has_vertex(ends_, child); });
    }
    return !is_read(vertices_.node(vertex)) && joins_two_transistors(vertex);
  }

  /// Named by a reading, or by the file as where the signal goes.
  [[nodiscard]] bool is_read(NodeId node) const {
    const auto& signal = circuit_.signal;
    if (signal.output == node || signal.drive == node) return true;
    return std::any_of(
        circuit_.readings.begin(), circuit_.readings.end(), [&](const auto& reading) {
          const auto* points = std::get_if<circuit::VoltsBetween>(&reading.probe);
          return points != nullptr && (points->a == node || points->b == node);
        });
  }

  /// An emitter or a collector on a base: the transistors say it.
  [[nodiscard]] bool joins_two_transistors(std::size_t vertex) const {
    const NodeId node = vertices_.node(vertex);
    const auto at = [&](std::size_t part_vertex, std::size_t lead) {
      return circuit::lead(circuit_.at(vertices_.part(part_vertex)), lead) == node;
    };
    const auto& of = causes_.of[vertex];
    const bool is_caused = std::all_of(of.begin(), of.end(), [&](std::size_t cause) {
      if (is_source(cause)) return false;
      if (!circuit::is_transistor(circuit_.at(vertices_.part(cause)).kind)) return false;
      return at(cause, 2) || at(cause, 0);
    });
    return is_caused &&
           std::all_of(children_[vertex].begin(), children_[vertex].end(), [&](std::size_t child) {
             const Part& part = circuit_.at(vertices_.part(child));
             return !circuit::is_transistor(part.kind) || at(child, 1) || at(child, 2);
           });
  }

  void add(ChainStep step, std::size_t vertex, double size, bool is_needed) {
    drafts_.push_back({std::move(step), vertex, size, is_needed, {}});
  }

  void add_fault(std::size_t index) {
    ChainStep step;
    step.edit = index;
    const std::size_t vertex = sources_[index];
    if (vertices_.is_node(vertex)) {
      step.node = vertices_.node(vertex);
      step.value = moves_.volts(*step.node);
    } else {
      step.parts = {vertices_.part(vertex)};
      step.value = moves_.main_a(step.parts.front());
      if (const auto across = moves_.across_v(step.parts.front(), 0, 1)) step.across_v = *across;
    }
    add(std::move(step), vertex, 0.0, true);
  }

  void add_node(std::size_t vertex) {
    ChainStep step;
    step.kind = StepKind::node;
    step.node = vertices_.node(vertex);
    step.value = moves_.volts(*step.node);
    if (!causes_.is_unexplained[vertex]) name_the_cause(vertex, step);
    const double weight = is_read(*step.node) ? 1.0 : weight_of_an_unread_node;
    double size = weight * std::log1p(std::abs(step.value.step()) / worth_a_sentence_v);
    if (step.follows && !is_read(*step.node) && goes_along(step)) size = 0.0;
    add(std::move(step), vertex, size, has_vertex(ends_, vertex));
  }

  /// It moves as the node that it follows does: the other one says it.
  [[nodiscard]] static bool goes_along(const ChainStep& step) {
    const double apart_v = std::abs(step.value.step() - step.followed_v.step());
    return apart_v < goes_along_within * std::abs(step.followed_v.step());
  }

  void name_the_cause(std::size_t vertex, ChainStep& step) const {
    if (follow_passive(vertex, step)) return;
    for (const std::size_t cause : causes_.of[vertex]) step.by.push_back(vertices_.part(cause));
    if (step.by.empty()) return;
    step.by_a = moves_.into_node_a(step.by.front(), *step.node);
    // What the sagging rails did to it may hide the cause.
    if ((step.by_a.step() > 0.0) != (step.value.step() > 0.0)) step.by.clear();
  }

  /// The only cause, where that is a transistor whose emitter goes as its base does, its current
  /// hardly changed.
  [[nodiscard]] std::optional<PartId> follower_cause(std::size_t vertex) const {
    const auto& of = causes_.of[vertex];
    if (of.size() != 1 || is_source(of.front()) || causes_.is_unexplained[vertex]) {
      return std::nullopt;
    }
    const PartId id = vertices_.part(of.front());
    const Part& part = circuit_.at(id);
    if (!circuit::is_transistor(part.kind)) return std::nullopt;
    const auto base = circuit::lead(part, 1);
    const bool is_emitter = circuit::lead(part, 2) == vertices_.node(vertex);
    const auto& behind = causes_.of[of.front()];
    if (!base || !is_emitter || behind != std::vector<std::size_t>{vertices_.of(*base)}) {
      return std::nullopt;
    }
    const Change current_a = moves_.main_a(id);
    const double larger_a = std::max(std::abs(current_a.was), std::abs(current_a.now));
    const double moved_v = std::abs(moves_.volts(*base).step());
    const bool is_steady = std::abs(current_a.step()) < steady_within * larger_a &&
                           std::abs(moves_.control_v(id).step()) < goes_along_within * moved_v;
    return is_steady ? std::optional(id) : std::nullopt;
  }

  /// Less comes through `part` than before, and that is all that the node before it passes on:
  /// nothing leads `node` along, its current is missing.
  [[nodiscard]] bool fails_to_feed(PartId part, NodeId node, NodeId before) const {
    constexpr double fallen_to = 0.5;
    constexpr double passed_on = 1.5;
    constexpr double nothing_a = 1e-6;
    const Change into_a = moves_.into_node_a(part, node);
    if (std::abs(into_a.now) > fallen_to * std::abs(into_a.was)) return false;
    if ((into_a.step() > 0.0) != (moves_.volts(node).step() > 0.0)) return false;
    double others_a = 0.0;
    for (std::size_t index = 0; index < circuit_.parts.size(); ++index) {
      if (PartId{index} != part) others_a += std::abs(moves_.into_node_a({index}, before).now);
    }
    return others_a < passed_on * std::abs(into_a.now) + nothing_a;
  }

  /// Back along passive parts and steady followers to the node that was moved first.
  [[nodiscard]] bool follow_passive(std::size_t vertex, ChainStep& step) const {
    for (std::size_t at = vertex;;) {
      auto part = passive_cause(at);
      if (!part) part = follower_cause(at);
      if (!part) break;
      const std::size_t through = vertices_.of(*part);
      if (causes_.of[through].size() != 1 || causes_.is_unexplained[through]) break;
      const std::size_t before = causes_.of[through].front();
      if (fails_to_feed(*part, vertices_.node(at), vertices_.node(before))) break;
      step.through.insert(step.through.begin(), *part);
      step.follows = vertices_.node(before);
      step.followed_v = moves_.volts(*step.follows);
      at = before;
      if (!is_left_out(before)) break;
    }
    if (step.follows && (step.followed_v.step() > 0.0) == (step.value.step() > 0.0)) return true;
    step.follows.reset();
    step.through.clear();
    return false;
  }

  void add_part(std::size_t vertex) {
    ChainStep step;
    step.kind = StepKind::part;
    const PartId id = vertices_.part(vertex);
    step.parts = {id};
    step.value = moves_.main_a(id);
    const auto turn = turn_of(id, step.value);
    if (!turn) return;
    step.turn = *turn;
    step.steering_v = moves_.control_v(id);
    const Change junction_c = moves_.junction_c(id);
    if (std::abs(junction_c.step()) > warmth_that_tells_k) step.junction_c = junction_c;
    const Part& part = circuit_.at(id);
    const auto across = moves_.across_v(id, 0, circuit::is_transistor(part.kind) ? 2 : 1);
    if (across) step.across_v = *across;
    for (const std::size_t node : causes_.of[vertex]) {
      if (!vertices_.is_node(node) || !is_left_out(node)) continue;
      for (const std::size_t driver : causes_.of[node]) {
        const PartId by = vertices_.part(driver);
        if (!is_source(driver) && !is_passive(by)) step.by.push_back(by);
      }
    }
    const bool is_turn = *turn != Turn::more && *turn != Turn::less;
    constexpr double nothing_a = 10e-6;
    const double size = std::abs(
        std::log((std::abs(step.value.now) + nothing_a) / (std::abs(step.value.was) + nothing_a)));
    add(std::move(step), vertex, size, is_turn || has_vertex(ends_, vertex));
  }

  [[nodiscard]] std::optional<Turn> turn_of(PartId id, const Change& value) const {
    const auto before = moves_.region_before(id);
    const auto now = moves_.region_now(id);
    if (moves_.breaks_down(id)) return Turn::breaks_down;
    if (now != before && now) {
      if (now == Conduction::breakdown) return Turn::breaks_down;
      if (now == Conduction::off) return Turn::off;
      if (now == Conduction::reversed) return Turn::backwards;
      if (now == Conduction::saturated) return Turn::bottomed;
      if (before == Conduction::off) return Turn::on;
    }
    if (now == Conduction::off) return std::nullopt;
    return std::abs(value.now) > std::abs(value.was) ? Turn::more : Turn::less;
  }

  /// The nearest steps that a vertex leads back to.
  [[nodiscard]] std::vector<std::size_t> printed_causes(std::size_t vertex) const {
    std::vector<std::size_t> found;
    std::set<std::size_t> seen;
    std::vector<std::size_t> open = causes_.of[vertex];
    while (!open.empty()) {
      const std::size_t cause = open.back();
      open.pop_back();
      if (!seen.insert(cause).second) continue;
      const bool is_printed =
          std::any_of(drafts_.begin(), drafts_.end(), [&](const DraftStep& draft) {
            return draft.vertex == cause;
          });
      if (is_printed) {
        found.push_back(cause);
      } else {
        open.insert(open.end(), causes_.of[cause].begin(), causes_.of[cause].end());
      }
    }
    return found;
  }

  const Moves& moves_;
  const Circuit& circuit_;
  Vertices vertices_;
  const std::vector<WeighedFault>& faults_;
  std::vector<std::size_t> sources_;
  Causes causes_;
  std::vector<std::size_t> ends_;
  std::set<std::size_t> marked_;
  std::vector<std::vector<std::size_t>> children_;
  std::vector<DraftStep> drafts_;
};

}  // namespace

std::vector<ChainStep> find_chain(const Moves& moves,
                                  const Moves& compared,
                                  const std::vector<WeighedFault>& faults,
                                  const std::vector<PartId>& in_danger) {
  return Telling(moves, compared, faults, in_danger).tell();
}

}  // namespace idlepoint::answers
