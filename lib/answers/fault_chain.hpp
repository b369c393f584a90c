// The chain of cause on paper: from the fault outward, by what actually changed.
//
// Part of the fault answer (answers/fault); in words by report/fault_words. Every step holds its
// own numbers, so that no sentence needs more than the step.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "answers/fault_moves.hpp"
#include "circuit/edits.hpp"

namespace idlepoint::answers {

enum class StepKind {
  fault,  ///< What was done: `parts` (none for a lost rail).
  node,   ///< A node moved: `node`, `value` in volts to gnd.
  part,   ///< Transistors, diodes or feeds changed alike: `parts`, `value` in amperes.
  held,  ///< The output hardly moves although more flows: `parts` are the largest feeder and taker.
};

/// What became of a part.
enum class Turn { more, less, on, off, bottomed, backwards, breaks_down };

struct ChainStep {
  StepKind kind = StepKind::fault;
  std::size_t edit = 0;  ///< Of a fault: which of them.
  std::vector<circuit::PartId> parts = {};
  std::optional<circuit::NodeId> node = {};
  std::vector<circuit::NodeId> alike =
      {};  ///< Further nodes that did the same, as parallel parts' do.
  Change value = {};
  Turn turn = Turn::more;
  std::optional<Change> steering_v = {};  ///< Of a part: see Moves::control_v.
  std::optional<Change> junction_c = {};  ///< Of a part that is warmer or cooler by 3 K.
  Change across_v = {};  ///< Of a part: collector to emitter, drain to source, its two leads.
  /// Whose current moved the node, several where each counts alike; or who drives the part.
  std::vector<circuit::PartId> by = {};
  Change by_a = {};  ///< Of a node: what each of `by` feeds into it. Held: what each of
                     ///< `parts` (was) and of `by` (now) feeds in.
  /// The node went the way of this one, through `through`: no active part lies between.
  std::optional<circuit::NodeId> follows = {};
  Change followed_v = {};
  std::vector<circuit::PartId> through = {};
  std::vector<circuit::PartId> by_way_of = {};  ///< Left out between: smaller changes on the way.
  bool is_the_loop = false;  ///< Held: the way from the fault to `by` leads over the output itself.
  std::vector<std::size_t> because_of = {};  ///< Earlier steps of the list.
};

struct WeighedFault {
  circuit::Edit edit;
  double weight = 1.0;  ///< What it does alone, as a share of what the gravest of them does alone.
};

/// `moves` are told. Causes are looked for in `compared`: the same faulty state beside the sound
/// stage on rails that sag as the faulty one's do, so that a rail's sag hides no cause.
/// One step for each fault, then what follows from them in order of distance, at most
/// `longest_chain` steps. Ties are settled by size alone.
[[nodiscard]] std::vector<ChainStep> find_chain(const Moves& moves,
                                                const Moves& compared,
                                                const std::vector<WeighedFault>& faults,
                                                const std::vector<circuit::PartId>& in_danger);

inline constexpr std::size_t longest_chain = 9;

}  // namespace idlepoint::answers
