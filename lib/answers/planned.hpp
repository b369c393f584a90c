// What a suspect's stage would show, near enough to plan by, kept from one question to the next.
//
// With the power off the parts stand in the middle of their tolerances, a fault's size at the
// nearest of a row of places, and all is straight from there: it holds for every copy of the stage.
// With the power on it is straight from where the suspect's own readings are taken as straight
// from, so that points that hang together stay together. Used by the diagnosis: to choose the next
// measurement, and to bring suspects that matter little up to a new reading.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "answers/bench_stage.hpp"

namespace idlepoint::answers {

/// A suspect's stage, as BenchStage wants it.
struct PlannedStage {
  const circuit::CheckedCircuit& stage;
  const solve::Conditions& conditions;
  const std::vector<SuspectedFault>& sized;
  std::shared_ptr<SoundWhenOff> sound = {};
};

/// Where parts and sizes stand, as in BenchStage::show.
struct Standing {
  std::span<const double> u;
  std::span<const double> t;
};

/// Of one suspect: always ask with the same PlannedStage, or its bench.
class Planned {
 public:
  /// [measurements], all with the power off; the draws in the middle where slopes by them are not
  /// asked for. None where the dead stage has no state.
  [[nodiscard]] std::optional<Shown> show_off(const PlannedStage& planned,
                                              const std::vector<circuit::Measurement>& measurements,
                                              const Standing& at,
                                              Slopes slopes);

  /// [measurements], all with the power on, with slopes by draws and sizes, as the suspect's bench
  /// foresees them at `from`, and straight from there to `at`.
  [[nodiscard]] std::optional<Shown> show_on(BenchStage& bench,
                                             const std::vector<circuit::Measurement>& measurements,
                                             const Standing& from,
                                             const Standing& at);

  /// Another copy of the stage is asked about.
  void start_over() { on_.clear(); }

 private:
  struct Key {
    Slopes slopes;
    std::size_t range;  ///< Volts, ohms, diode.
    std::size_t a;
    std::size_t b;
    auto operator<=>(const Key&) const = default;
  };
  struct Place {
    std::vector<double> u;
    std::vector<double> t;
  };
  struct Known {
    double value = 0.0;
    std::vector<double> by_draw;  ///< Then by size.
    std::shared_ptr<const Place> place;
  };
  using Table = std::map<Key, Known>;

  /// None of what is not planned: a current, a power, a temperature.
  [[nodiscard]] static std::optional<Key> key_of(const circuit::Measurement& measurement,
                                                 Slopes slopes);
  [[nodiscard]] static bool is_of(const Known& known, const Standing& from);
  static void keep(const std::vector<circuit::Measurement>& measurements,
                   const Shown& shown,
                   const Standing& at,
                   Slopes slopes,
                   Table& table);
  [[nodiscard]] static Shown read(const Table& table,
                                  const std::vector<circuit::Measurement>& measurements,
                                  const Standing& at,
                                  Slopes slopes);

  std::map<std::vector<long>, Table> off_;  ///< By the sizes, in steps.
  Table on_;
};

}  // namespace idlepoint::answers
