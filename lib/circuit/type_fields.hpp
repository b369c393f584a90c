// The fields of a part type: name, unit, range, and where the number goes.
//
// One table a law, used by the reader and the writer of `type` statements and by the spreads.
// Source: docs/models.md; a field's default stands beside its member in lib/devices.
#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <variant>

#include "circuit/part_type.hpp"
#include "values/range.hpp"
#include "values/unit.hpp"

namespace idlepoint::circuit {

/// Which laws a field belongs to, where one table serves two.
enum class Only { both, junction_fet, mosfet };

template <class Data>
struct TypeField {
  std::string_view name;
  values::Unit unit;
  values::Range range;
  std::variant<double Data::*, std::optional<double> Data::*> member;
  Only only = Only::both;
};

[[nodiscard]] std::span<const TypeField<devices::DiodeData>> diode_fields() noexcept;
[[nodiscard]] std::span<const TypeField<devices::BipolarData>> bipolar_fields() noexcept;
[[nodiscard]] std::span<const TypeField<devices::FetData>> fet_fields() noexcept;

/// True where the field belongs to a type of that kind.
[[nodiscard]] bool belongs(Only only, PartKind kind) noexcept;

/// Ratings and thermal data, by the names that the kind gives them.
struct RatingField {
  std::string_view name;
  values::Unit unit;
  values::Range range;
  std::variant<double Ratings::*, std::optional<double> Ratings::*> member;
};
[[nodiscard]] std::span<const RatingField> rating_fields(PartKind kind) noexcept;

/// The number of a law's field, by its name in docs/models.md; none where the kind has no such
/// field or the type gives no number.
[[nodiscard]] std::optional<double> field_value(const PartType& type, std::string_view field);

/// Which numbers the field may hold; none where the kind has no such field.
[[nodiscard]] std::optional<values::Range> field_range(const PartType& type,
                                                       std::string_view field);

/// Requires a field of the kind.
void set_field(PartType& type, std::string_view field, double value);

}  // namespace idlepoint::circuit
