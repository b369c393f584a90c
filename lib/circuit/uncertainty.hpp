// What may differ from one stage of this drawing to the next, and by how much.
//
// Resistor, trimmer-track and rail tolerances and the production spreads of part types, as
// independent draws that each move one or more parameters. Used by the bands (linear propagation,
// [JCGM100]) and by the sampling of `spread` ([JCGM101]), so that both speak of the same
// distributions.
#pragma once

#include <span>
#include <string>
#include <variant>
#include <vector>

#include "circuit/checked_circuit.hpp"
#include "circuit/circuit.hpp"

namespace idlepoint::circuit {

/// A number of the circuit: a part's value (`field` is "value"), a rail's source volts ("voltage"),
/// or a field of one part's own copy of its type ("saturation_current": docs/models.md).
struct Parameter {
  std::variant<PartId, RailId> owner;
  std::string field;
  friend bool operator==(const Parameter&, const Parameter&) = default;
};

/// How a draw u, even over -1 to 1, moves its parameter.
enum class Move {
  relative,     ///< times 1 + half_width u.
  logarithmic,  ///< times exp(half_width u).
  additive,     ///< plus half_width u, in SI units.
};

struct Effect {
  std::size_t parameter = 0;  ///< Among `Uncertainty::parameters`.
  Move move = Move::relative;
  double half_width = 0.0;  ///< >= 0.
};

/// One independent source of spread. A matched group has one draw a field that moves all its parts,
/// and one a part and field for the stated difference.
struct Draw {
  std::vector<Effect> effects;
};

struct Uncertainty {
  std::vector<Parameter> parameters;
  std::vector<Draw> draws;
};

/// Everything with a tolerance or a spread, in the order of the circuit's rails, then parts, then
/// matched groups. A field's spread from `.min` to `.max` is log-rectangular about the nominal,
/// with half width ln(max/min)/2; a missing end is the nominal itself; additive, half width (max -
/// min)/2, where the two have no common sign (no wider than keeps the field in its range). Parts
/// taken out or shorted, lost rails, and the gain that a fault has set have no draws.
[[nodiscard]] Uncertainty uncertainty(const Circuit& circuit);

/// The parameter's nominal value, SI. Requires a parameter of this circuit that has a number.
[[nodiscard]] double nominal(const Circuit& circuit, const Parameter& parameter);

/// `value` moved by one effect at u.
[[nodiscard]] double moved(double value, const Effect& effect, double u) noexcept;

/// d(value)/du of one effect at u = 0.
[[nodiscard]] double slope_by_draw(double nominal_value, const Effect& effect) noexcept;

/// Slope of some quantity by a draw, from its slopes `by_parameter`, [parameters].
[[nodiscard]] double slope_by_draw(const Circuit& circuit,
                                   const Uncertainty& uncertainty,
                                   const Draw& draw,
                                   std::span<const double> by_parameter);

/// [parameters] values where draw k stands at u[k], each -1 to 1; effects in the order of the
/// draws.
[[nodiscard]] std::vector<double> values_at(const Circuit& circuit,
                                            const Uncertainty& uncertainty,
                                            std::span<const double> u);

/// The circuit with `values[k]` for `parameters[k]`: a part whose type moves gets a copy of the
/// type of its own, appended. Every id stays valid.
[[nodiscard]] CheckedCircuit with_parameters(const CheckedCircuit& circuit,
                                             std::span<const Parameter> parameters,
                                             std::span<const double> values);

/// The circuit at the middle of every draw, with a type of its own for every part whose type moves.
[[nodiscard]] CheckedCircuit with_own_types(const CheckedCircuit& circuit,
                                            const Uncertainty& uncertainty);

/// As `with_parameters`, in place and as often as wanted: requires that every part whose type moves
/// has a type of its own, as in a circuit that `with_parameters` made.
void set_parameters(Circuit& circuit,
                    std::span<const Parameter> parameters,
                    std::span<const double> values);

}  // namespace idlepoint::circuit
