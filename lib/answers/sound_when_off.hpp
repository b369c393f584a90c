// Where the nodes of the sound stage stand with its power off and a meter on it, kept.
//
// Most faulty stages stand nearly there under the same meter, which saves their solves the way from
// 0 V. Used by wired_bench for all suspects of one diagnosis at once.
#pragma once

#include <map>
#include <mutex>
#include <optional>
#include <tuple>
#include <vector>

#include "circuit/bench_reading.hpp"
#include "circuit/checked_circuit.hpp"
#include "solve/conditions.hpp"

namespace idlepoint::answers {

class SoundWhenOff {
 public:
  /// `sound`: with its power on.
  SoundWhenOff(const circuit::CheckedCircuit& sound, const solve::Conditions& conditions);

  /// [nodes] volts under an ohms or diode range; none where that has no state. Does not depend on
  /// what was asked before, and may be asked by many at once; stays valid.
  [[nodiscard]] const std::vector<double>* nodes_under(const circuit::Measurement& measurement);

 private:
  using Key = std::tuple<bool, std::size_t, std::size_t>;  ///< Diode range, red, black.

  circuit::CheckedCircuit off_;
  solve::Conditions conditions_;
  std::mutex mutex_;
  std::map<Key, std::optional<std::vector<double>>> known_;
};

}  // namespace idlepoint::answers
