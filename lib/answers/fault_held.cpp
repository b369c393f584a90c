#include "answers/fault_held.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace idlepoint::answers {
namespace {

using circuit::Circuit;
using circuit::NodeId;
using circuit::Part;
using circuit::PartId;
using circuit::PartKind;

// An output that moved by less is held, if at least this much more flows past it.
constexpr double held_within_v = 0.25;
constexpr double held_against_a = 5e-3;
constexpr double held_against_times = 2.0;
constexpr double through_ohm = 10.0;
constexpr double ties_from_a = 0.5e-3;
constexpr double alike_within = 1e-6;
// What the loop drives must change by this much to be told.
constexpr double loop_step_a = 0.5e-3;
constexpr double loop_step = 0.15;

class Holding {
 public:
  Holding(const Moves& moves, const Causes& causes, const std::vector<std::size_t>& sources)
      : moves_(moves),
        circuit_(moves.faulty().circuit),
        vertices_(circuit_),
        causes_(causes),
        sources_(sources) {}

  std::optional<ChainStep> look(const std::vector<ChainStep>& steps) const {
    const auto output = circuit::output_node(circuit_);
    if (!output || std::abs(moves_.volts(*output).step()) > held_within_v) return std::nullopt;
    if (is_tied_by_a_fault(*output)) return std::nullopt;
    auto held = held_by_the_loop(*output);
    if (!held && !is_told(*output, steps)) held = held_by_balance(*output);
    if (!held) return std::nullopt;
    held->node = *output;
    held->value = moves_.volts(*output);
    for (std::size_t index = 0; index < steps.size(); ++index) held->because_of.push_back(index);
    return held;
  }

 private:
  [[nodiscard]] static bool is_told(NodeId node, const std::vector<ChainStep>& steps) {
    return std::any_of(steps.begin(), steps.end(), [&](const ChainStep& step) {
      return step.kind == StepKind::node && step.node == node;
    });
  }

  [[nodiscard]] bool is_source(std::size_t vertex) const {
    return std::find(sources_.begin(), sources_.end(), vertex) != sources_.end();
  }

  /// A faulty part carries current at the node: it, and no loop, says where the node stands.
  [[nodiscard]] bool is_tied_by_a_fault(NodeId node) const {
    return std::any_of(sources_.begin(), sources_.end(), [&](std::size_t source) {
      if (vertices_.is_node(source)) return false;
      const PartId part = vertices_.part(source);
      const bool is_wire = circuit_.at(part).damage.is_link ||
                           !circuit_.at(part).damage.shorts.empty() ||
                           circuit_.at(part).kind == PartKind::link;
      return is_wire && std::abs(moves_.into_node_a(part, node).now) > loop_step_a;
    });
  }

  /// The part whose current at the output changed most among those that the fault reaches by way
  /// of the output, and those that changed as much.
  [[nodiscard]] std::optional<ChainStep> held_by_the_loop(NodeId output) const {
    ChainStep held;
    held.kind = StepKind::held;
    held.is_the_loop = true;
    for (std::size_t index = 0; index < circuit_.parts.size(); ++index) {
      const PartId part{index};
      const Change into = moves_.into_node_a(part, output);
      const double larger_a = std::max(std::abs(into.was), std::abs(into.now));
      const double step_a = std::abs(into.step());
      if (step_a < loop_step_a || step_a < loop_step * larger_a || !leads_over(output, part)) {
        continue;
      }
      keep_the_larger(part, step_a, std::abs(held.by_a.step()), held.by);
      if (held.by.back() == part) held.by_a = into;
    }
    return held.by.empty() ? std::nullopt : std::optional(held);
  }

  /// `part` takes the place of what is in the list, joins it, or is passed over.
  static void keep_the_larger(PartId part, double size, double largest, std::vector<PartId>& list) {
    if (!list.empty() && size < largest * (1.0 - alike_within)) return;
    if (size > largest * (1.0 + alike_within)) list.clear();
    list.push_back(part);
  }

  /// Far more flows through the output than before: who feeds most and who takes most.
  [[nodiscard]] std::optional<ChainStep> held_by_balance(NodeId output) const {
    ChainStep held;
    held.kind = StepKind::held;
    double before_a = 0.0;
    for (std::size_t index = 0; index < circuit_.parts.size(); ++index) {
      const PartId part{index};
      const Change into = moves_.into_node_a(part, output);
      before_a = std::max(before_a, std::abs(into.was));
      if (into.now > 0.0) keep_the_larger(part, into.now, held.by_a.was, held.parts);
      if (into.now < 0.0) keep_the_larger(part, -into.now, -held.by_a.now, held.by);
      held.by_a.was = std::max(held.by_a.was, into.now);
      held.by_a.now = std::min(held.by_a.now, into.now);
    }
    const auto is_faulty = [&](PartId part) { return is_source(vertices_.of(part)); };
    if (std::any_of(held.parts.begin(), held.parts.end(), is_faulty) ||
        std::any_of(held.by.begin(), held.by.end(), is_faulty)) {
      return std::nullopt;
    }
    const double least_a = std::max(held_against_a, held_against_times * before_a);
    if (held.by_a.was < least_a || -held.by_a.now < least_a) return std::nullopt;
    return held;
  }

  /// The way from the fault to what drives `part`'s current at the output leads over the output,
  /// and the current steps against the output's move.
  [[nodiscard]] bool leads_over(NodeId output, PartId part) const {
    const double into_a = moves_.into_node_a(part, output).step();
    if ((into_a > 0.0) == (moves_.volts(output).step() > 0.0)) return false;
    for (const PartId active : active_behind(part, output)) {
      if (has_before(vertices_.of(active), output)) {
        return true;
      }
    }
    return false;
  }

  /// The part itself, or the transistors at the other end of a few ohms.
  [[nodiscard]] std::vector<PartId> active_behind(PartId id, NodeId output) const {
    const Part& part = circuit_.at(id);
    if (circuit::is_transistor(part.kind)) return {id};
    std::vector<PartId> found;
    if (part.kind != PartKind::resistor || part.value > through_ohm) return found;
    const auto one = circuit::lead(part, 0);
    const auto far = one == output ? circuit::lead(part, 1) : one;
    for (std::size_t index = 0; index < circuit_.parts.size(); ++index) {
      const Part& other = circuit_.parts[index];
      if (!circuit::is_transistor(other.kind)) continue;
      if (circuit::lead(other, 0) == far || circuit::lead(other, 2) == far) {
        found.push_back(PartId{index});
      }
    }
    return found;
  }

  /// The way back from a transistor comes to the node, and over another transistor: its own
  /// resistor at the node makes no loop.
  [[nodiscard]] bool has_before(std::size_t vertex, NodeId node) const {
    std::set<std::size_t> seen;
    std::vector<std::pair<std::size_t, bool>> open{{vertex, false}};
    bool is_found = false;
    while (!open.empty()) {
      const auto [at, is_over_another] = open.back();
      open.pop_back();
      if (!seen.insert(at).second) continue;
      if (at == vertices_.of(node)) {
        if (!is_over_another) return false;
        is_found = true;
        continue;
      }
      const bool is_another = at != vertex && !vertices_.is_node(at) &&
                              circuit::is_transistor(circuit_.at(vertices_.part(at)).kind);
      for (const std::size_t cause : causes_.of[at]) {
        open.emplace_back(cause, is_over_another || is_another);
      }
    }
    return is_found;
  }

  const Moves& moves_;
  const Circuit& circuit_;
  Vertices vertices_;
  const Causes& causes_;
  const std::vector<std::size_t>& sources_;
};

}  // namespace

std::optional<ChainStep> find_held(const Moves& moves,
                                   const Causes& causes,
                                   const std::vector<std::size_t>& sources,
                                   const std::vector<ChainStep>& steps) {
  return Holding(moves, causes, sources).look(steps);
}

}  // namespace idlepoint::answers
