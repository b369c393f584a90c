// The kinds of part and the names of their leads, in the order every list of leads uses.
//
// Used wherever a lead is named (`Q603.c`, `short c-e`) or counted.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string_view>

namespace idlepoint::circuit {

enum class PartKind {
  resistor,
  trimmer,
  capacitor,
  inductor,
  fuse,
  link,
  lamp,
  thermistor,
  hold,
  feed,
  load,
  diode,
  npn,
  pnp,
  n_jfet,
  p_jfet,
  n_mosfet,
  p_mosfet,
};

/// The statement word: "resistor", "n-jfet".
[[nodiscard]] std::string_view keyword(PartKind kind) noexcept;
[[nodiscard]] std::optional<PartKind> part_kind(std::string_view keyword) noexcept;

/// Lead names in order: {"1","2"}; trimmer {"a","wiper","b"}; diode {"anode","cathode"}; bipolar
/// {"c","b","e"}; FET {"d","g","s"}. A feed's first lead is `from`, its second `into`.
[[nodiscard]] std::span<const std::string_view> lead_names(PartKind kind) noexcept;

/// Where a transistor's leads stand in that order.
inline constexpr std::size_t collector_or_drain = 0;
inline constexpr std::size_t base_or_gate = 1;
inline constexpr std::size_t emitter_or_source = 2;

[[nodiscard]] bool is_bipolar(PartKind kind) noexcept;
[[nodiscard]] bool is_fet(PartKind kind) noexcept;
/// Bipolar or FET.
[[nodiscard]] bool is_transistor(PartKind kind) noexcept;
/// Has a part type: diode or transistor.
[[nodiscard]] bool has_type(PartKind kind) noexcept;
/// True for pnp, p-jfet, p-mosfet: every voltage and current mirrored.
[[nodiscard]] bool is_p_kind(PartKind kind) noexcept;

}  // namespace idlepoint::circuit
