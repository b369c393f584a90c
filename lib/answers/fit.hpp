// A part type from the points of a data sheet or a tester.
//
// Used by `fit`. The fields that the points determine are found by bounded least squares in their
// logarithms; those that they do not are left at what is usual for the class, or out.
// Source: [Levenberg1944], [Marquardt1963]; the laws are those of lib/devices.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "circuit/type_points.hpp"
#include "complaints/complaint.hpp"

namespace idlepoint::answers {

/// A law field after the fit.
struct FitField {
  std::string name;
  std::optional<double> value;  ///< SI; none: left out, the law does without it.
  bool determined = false;      ///< By the points; false also where the file gave it.
  bool given = false;           ///< Written in the `type` statement.
  std::string why;              ///< Which points; or what is lacking, and what was taken instead.
  std::optional<double> known_to;  ///< Of a determined one: standard deviation, a fraction of it.
};

/// A point after the fit.
struct FitPoint {
  std::string text;  ///< "gain at ic=1 A, vce=4 V".
  values::Unit unit = values::Unit::none;
  std::optional<double> aim;  ///< The value, or the middle of the window; none: a limit alone.
  std::optional<double> predicted;  ///< By the fitted type; none: it has no such state.
  std::optional<double> residual;   ///< (predicted - aim) / aim.
  std::optional<bool> holds;        ///< Its window; none without one.
};

struct TypeFit {
  circuit::PartType type;
  std::vector<FitField> fields;  ///< In the order of the law's fields as they are freed.
  std::vector<FitPoint> points;  ///< In the file's order.
  std::vector<std::string> notes;
  complaints::Complaints contradictions;  ///< Points that no such part can show together.
};

/// Always answers; `contradictions` says where the points do not fit together.
[[nodiscard]] TypeFit ask_fit(const circuit::TypePoints& asked);

/// True where the points do not contradict each other or the law.
[[nodiscard]] bool is_good(const TypeFit& fit) noexcept;

}  // namespace idlepoint::answers
