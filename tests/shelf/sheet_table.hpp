// What the makers' sheets print, typed in from them and from nothing of ours: the shelf of types
// is held against it.
//
// Keys of the sheets, as in docs/sources.md, stand beside the rows in sheet_table.cpp. "M" there:
// the figure is from memory. A missing limit is 0.
#pragma once

#include <span>
#include <string_view>

namespace idlepoint::shelf {

struct Limits {
  std::string_view name;
  std::string_view kind;
  double voltage_v;          ///< Collector-emitter, or reverse.
  double current_a;          ///< Collector, or mean forward.
  double power_w;            ///< At a case of 25 C; in air of 25 C where `to_case` is 0.
  double junction_c;         ///< Largest.
  double to_case_k_per_w;    ///< 0: not given.
  double transition_mhz;     ///< 0: not given.
  std::string_view sheet{};  ///< Key in docs/sources.md.
};
[[nodiscard]] std::span<const Limits> all_limits() noexcept;
/// Of a type or of one of its gain groups: BC547B is a BC547, BD139-16 a BD139.
[[nodiscard]] const Limits& limits_of(std::string_view name);

/// A window at one reading. `low` or `high` 0: the sheet does not give it.
struct Window {
  std::string_view names;  ///< A regular expression: the types it holds for.
  double collector_a;
  double second;  ///< Collector-emitter volts of gain and VBE; base amperes of a saturation.
  double low;
  double high;
};
[[nodiscard]] std::span<const Window> gain_windows() noexcept;
[[nodiscard]] std::span<const Window> vbe_windows() noexcept;
[[nodiscard]] std::span<const Window> vce_sat_windows() noexcept;
[[nodiscard]] std::span<const Window> vbe_sat_windows() noexcept;

/// Gain groups that the sheets give windows for, beside the plain types of `all_limits`.
[[nodiscard]] std::span<const std::string_view> gain_groups() noexcept;

/// Forward volts of a diode at a current.
struct ForwardWindow {
  std::string_view names;
  double current_a;
  double low_v;
  double high_v;
};
[[nodiscard]] std::span<const ForwardWindow> forward_windows() noexcept;

}  // namespace idlepoint::shelf
