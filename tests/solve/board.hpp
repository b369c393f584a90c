// A circuit put together in code, one call a part, and solved without the reader.
//
// Also what the tests of the solver ask again and again: a state that must exist, one that must
// not, a voltage or a current by name.
#pragma once

#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <optional>
#include <string>
#include <vector>

#include "circuit/circuit.hpp"
#include "circuit/edits.hpp"
#include "solve/solve_stage.hpp"
#include "solve/stage_solver.hpp"

namespace idlepoint::solve {

using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

/// "R3" of "R" and 3.
template <class Number>
[[nodiscard]] std::string numbered(const char* stem, Number number) {
  return fmt::format("{}{}", stem, number);
}

/// Nodes are made where they are first named; "gnd" is ground.
class Board {
 public:
  Board();

  Board& rail(const std::string& node, double volts, double ohm = 0.0);
  Board& resistor(const std::string& name, const std::string& a, const std::string& b, double ohm);
  Board& capacitor(const std::string& name, const std::string& a, const std::string& b);
  Board& link(const std::string& name, const std::string& a, const std::string& b);
  Board& hold(const std::string& name, const std::string& a, const std::string& b, double volts);
  Board& feed(const std::string& name,
              const std::string& from,
              const std::string& into,
              double amps,
              std::optional<double> compliance_v = 0.3);
  Board& lamp(const std::string& name,
              const std::string& a,
              const std::string& b,
              double rated_v,
              double rated_w);
  Board& diode(const std::string& name,
               const std::string& anode,
               const std::string& cathode,
               circuit::TypeId type);
  /// Collector, base, emitter or drain, gate, source; the polarity is the type's.
  Board& transistor(const std::string& name,
                    const std::string& first,
                    const std::string& second,
                    const std::string& third,
                    circuit::TypeId type);
  /// "-" for `b` leaves the third leg off.
  Board& trimmer(const std::string& name,
                 const std::string& a,
                 const std::string& wiper,
                 const std::string& b,
                 double ohm,
                 const circuit::TrimmerDetails& details = {});
  Board& adjust(const std::string& trimmer,
                const circuit::Probe& probe,
                double target,
                double within = 1e-6);

  circuit::TypeId bipolar_type(circuit::PartKind kind, const devices::BipolarData& data);
  circuit::TypeId fet_type(circuit::PartKind kind, const devices::FetData& data);
  circuit::TypeId diode_type(const devices::DiodeData& data);

  /// Made if new.
  circuit::NodeId node(const std::string& name);
  [[nodiscard]] circuit::PartId part(const std::string& name) const;
  [[nodiscard]] circuit::Probe volts(const std::string& a, const std::string& b = "gnd");
  [[nodiscard]] circuit::Probe amps(const std::string& part) const;
  [[nodiscard]] circuit::Probe watts(const std::string& part) const;

  /// Whatever the checks of a drawing would say: the solver has to stand faults, too.
  [[nodiscard]] circuit::CheckedCircuit checked() const;

  circuit::Circuit circuit;

 private:
  circuit::Part& add(const std::string& name,
                     circuit::PartKind kind,
                     const std::vector<std::string>& nodes);
  circuit::TypeId add_type(circuit::PartType type);
};

/// A state and the circuit it belongs to, read by names.
struct Settled {
  circuit::Circuit circuit;
  OperatingPoint point;

  [[nodiscard]] double volts(const std::string& node) const;
  /// Into a lead, by its place in `circuit::lead_names`.
  [[nodiscard]] double lead_a(const std::string& part, std::size_t lead) const;
  /// As a reading: two-terminal parts from first to second lead, p kinds turned about.
  [[nodiscard]] double amps(const std::string& part) const;
  [[nodiscard]] double watts(const std::string& part) const;
  [[nodiscard]] double delivered_a(std::size_t rail) const;
};

/// The cold state; fails the test with the solver's own story where there is none.
[[nodiscard]] Settled settle(const Board& board, const Conditions& conditions = {});
[[nodiscard]] Settled settle(const circuit::CheckedCircuit& circuit,
                             const Conditions& conditions = {});

/// The story of a stage that must not settle.
[[nodiscard]] NotSettled refuse(const Board& board);

/// The circuit with the edits made in order; each must fit.
[[nodiscard]] circuit::CheckedCircuit edited(const Board& board,
                                             const std::vector<circuit::Edit>& edits);

/// Invented, of ordinary small-signal silicon; every term of the law present.
[[nodiscard]] devices::BipolarData small_transistor();
/// The same without resistances, Early or knee effects: what closed forms can follow.
[[nodiscard]] devices::BipolarData plain_transistor();
[[nodiscard]] devices::FetData small_mosfet();
[[nodiscard]] devices::FetData small_jfet();
[[nodiscard]] devices::DiodeData small_diode();

}  // namespace idlepoint::solve
