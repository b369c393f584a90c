// The story of a solve that found no DC state.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "circuit/ids.hpp"

namespace idlepoint::solve {

/// One strategy that was tried and where it stopped.
struct Attempt {
  std::string strategy;  ///< "newton", "conductance", "rails", "pseudo-transient".
  int steps = 0;
  std::string stopped_at;  ///< In words: "rails at 62 %".
};

/// A link, short, hold or rail of no resistance.
using LoopMember = std::variant<circuit::PartId, circuit::RailId>;

/// Why there is no operating point. Never something that looks like an answer.
struct NotSettled {
  enum class Reason {
    did_not_settle,      ///< Every strategy stopped.
    no_finite_solution,  ///< Ideal branches contradict each other, or a node beyond 1 MV.
    outside_law,         ///< The only state found lies outside a device law's range.
  };
  Reason reason = Reason::did_not_settle;
  double worst_balance_a = 0.0;  ///< Current left over at `node`.
  std::optional<circuit::NodeId> node;
  std::optional<circuit::PartId> part;  ///< That holds it.
  std::vector<LoopMember> loop;         ///< The ideal branches that contradict each other.
  std::vector<Attempt> tried;
  std::string likely;  ///< One sentence: what it may be.
};

}  // namespace idlepoint::solve
