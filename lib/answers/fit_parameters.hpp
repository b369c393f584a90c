// The law fields that points may determine: the usual value, bounds, and what to say of each.
//
// Used by answers/fit. The order of a list is the order in which fields are freed: what comes first
// explains the points as far as it can. Usual values are common practice, no source.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "answers/predict_point.hpp"
#include "circuit/type_fields.hpp"
#include "circuit/type_points.hpp"

namespace idlepoint::answers {

/// How the variable stands for the field.
enum class Stands {
  plain,     ///< It is the field.
  negative,  ///< The field is minus it: the threshold of a junction FET.
  crossing,  ///< Recombination current, by the collector current at which it takes as much base
             ///< current as the gain does.
  idss,      ///< Current factor of a junction FET, by its IDSS at the threshold of the law.
};

/// Where a law keeps a field.
template <class Data>
using MemberOf = std::variant<double Data::*, std::optional<double> Data::*>;
using LawMember = std::variant<MemberOf<devices::DiodeData>,
                               MemberOf<devices::BipolarData>,
                               MemberOf<devices::FetData>>;

/// One variable of the fit. It is u, with value = usual * exp(width * u) (or usual + width * u).
struct FitParameter {
  std::string_view field;
  LawMember member{};  ///< Of that field.
  Stands stands = Stands::plain;
  bool is_logarithmic = true;
  double usual = 1.0;  ///< Of the variable, SI.
  double width = 1.0;  ///< How far parts of the class lie from it: in logarithm, or SI.
  double low = 0.0;    ///< Bounds of the variable, SI.
  double high = 0.0;
  bool is_left_out = false;  ///< Undetermined, the law does without it; else it stands as usual.
  std::string basis;         ///< Why the usual value: "about 0.60 V at 50 mA, ...".
  std::string lacking;       ///< What points would determine it: "no point at ...".
};

/// The variables for a type of this kind with these points, the fields of `given` left out.
[[nodiscard]] std::vector<FitParameter> fit_parameters(const circuit::TypePoints& asked);

/// The value at u, and back.
[[nodiscard]] double value_at(const FitParameter& parameter, double u);
[[nodiscard]] double u_of(const FitParameter& parameter, double value);

/// Puts a variable's value into the law; those before it in the list must stand there already.
void store(Law& law, const FitParameter& parameter, double value);

}  // namespace idlepoint::answers
