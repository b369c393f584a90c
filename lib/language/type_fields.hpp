// The fields of a part type: name, unit, range, and where the number goes.
//
// One table a law, used by the reader of `type` statements and by the writer. Source:
// docs/models.md; a field's default stands beside its member in lib/devices.
#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <variant>

#include "circuit/part_type.hpp"
#include "language/fields.hpp"
#include "values/unit.hpp"

namespace idlepoint::language {

/// Which laws a field belongs to, where one table serves two.
enum class Only { both, junction_fet, mosfet };

template <class Data>
struct TypeField {
  std::string_view name;
  values::Unit unit;
  Range range;
  std::variant<double Data::*, std::optional<double> Data::*> member;
  Only only = Only::both;
};

[[nodiscard]] std::span<const TypeField<devices::DiodeData>> diode_fields() noexcept;
[[nodiscard]] std::span<const TypeField<devices::BipolarData>> bipolar_fields() noexcept;
[[nodiscard]] std::span<const TypeField<devices::FetData>> fet_fields() noexcept;

/// True where the field belongs to a type of that kind.
[[nodiscard]] bool belongs(Only only, circuit::PartKind kind) noexcept;

/// Ratings and thermal data, by the names that the kind gives them.
struct RatingField {
  std::string_view name;
  values::Unit unit;
  Range range;
  std::variant<double circuit::Ratings::*, std::optional<double> circuit::Ratings::*> member;
};
[[nodiscard]] std::span<const RatingField> rating_fields(circuit::PartKind kind) noexcept;

}  // namespace idlepoint::language
