// What `--without` leaves of an answer: which readings say nothing while the output devices are out
// of the amplifier, whether anything still holds the output, and what would.
//
// Used by every answer on a stage that careful hands bring up without its outputs. A limit that is
// broken only because parts are out is not the amplifier's fault. Source: docs/commands.md.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers/reading_values.hpp"
#include "circuit/checked_circuit.hpp"
#include "solve/conditions.hpp"

namespace idlepoint::answers {

/// Parts taken out with `--without`, in the file's order; a part that a fault opened is not one.
[[nodiscard]] std::vector<circuit::PartId> taken_out(const circuit::Circuit& circuit);

/// "Q607 and Q608"; empty where nothing is out.
[[nodiscard]] std::string names_taken_out(const circuit::Circuit& circuit);

/// "Judged with Q607 and Q608 in their places.": a substitute works in the whole stage.
[[nodiscard]] std::string judged_with_all_parts(const circuit::Circuit& circuit);

/// The stage with those parts back in their places, and without a bridge from the output to the
/// base or gate of one, which closed the loop meanwhile. Every id stays valid.
[[nodiscard]] circuit::CheckedCircuit with_all_parts(const circuit::CheckedCircuit& stage);

/// Judges `readings`, all those of `stage` in their order, by what is out: `place` and, where the
/// limit is not the stage's to keep, `within_limit`. A limit counts where the reading is no current
/// of a part taken out, unless the whole stage would keep it. Nothing is done where nothing is out.
/// Cost: one solve.
void judge_without(const circuit::CheckedCircuit& stage,
                   const solve::Conditions& conditions,
                   std::vector<ReadingValue>& readings);

/// True where `probe` reads what the parts taken out carried, or would have carried: volts across
/// their emitter or source resistors.
[[nodiscard]] bool is_of_taken_out(const circuit::Circuit& circuit, const circuit::Probe& probe);

/// An output that nothing drives.
struct LooseOutput {
  circuit::NodeId output;
  std::vector<circuit::PartId> hangs_on;  ///< Resistors that lead anywhere.
  /// Where a link from the output closes the loop: the base or gate of a part taken out. None where
  /// none does.
  struct Link {
    circuit::NodeId to;
    circuit::PartId was_base_of;
  };
  std::optional<Link> link = {};
};

/// None where the stage has no output, nothing is out, the output stands firm, or stands no firmer
/// with everything in. Firm: 0.1 mA either way moves it by less than 25 mV. Cost: a few cold
/// solves.
[[nodiscard]] std::optional<LooseOutput> find_loose_output(const circuit::CheckedCircuit& stage,
                                                           const solve::Conditions& conditions);

/// The stage with that link fitted as a wire; as it is without one.
[[nodiscard]] circuit::CheckedCircuit with_link(const circuit::CheckedCircuit& stage,
                                                const LooseOutput& loose);

/// Of the adjustments, in their order: true where the reading cannot be set while parts are out,
/// for it is their current, or moves less than half as far along the track as in the whole stage,
/// or belongs to an output that nothing holds. Empty where nothing is out. Cost: some ten cold
/// solves an adjustment.
[[nodiscard]] std::vector<bool> set_with_all_parts(const circuit::CheckedCircuit& stage,
                                                   const solve::Conditions& conditions);

/// Two points between which the bias of the parts taken out can be read while they are out, as the
/// volts of the first above the second: a reading of the file where one fits.
struct BiasPoints {
  circuit::VoltsBetween points;
  std::optional<circuit::ReadingId> reading;
};

/// What `trimmer` moves most, of: between the first bases of an upper and a lower half; from such a
/// base to the output, a rail or ground where its half has them to itself. None where it moves none
/// by 10 mV from end to end.
[[nodiscard]] std::optional<BiasPoints> find_bias_points(const circuit::CheckedCircuit& stage,
                                                         const solve::Conditions& conditions,
                                                         circuit::PartId trimmer);

}  // namespace idlepoint::answers
