// What a hand meter shows between two points of a dead stage, both ways round, with its bands.
//
// Used by `poweroff` and, for a trimmer in circuit, by `preset`. The meter: circuit/hand_meter.
// Source of the rules: docs/commands.md, "poweroff".
#pragma once

#include <array>
#include <optional>

#include "circuit/checked_circuit.hpp"
#include "circuit/hand_meter.hpp"
#include "solve/conditions.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

/// The four ways to hold a meter on two points. "Reversed": the red lead on the second.
enum class OffRange { ohms, ohms_reversed, diode, diode_reversed };
inline constexpr std::array every_off_range = {
    OffRange::ohms, OffRange::ohms_reversed, OffRange::diode, OffRange::diode_reversed};
template <class T>
using ByRange = std::array<T, every_off_range.size()>;

[[nodiscard]] constexpr bool is_ohms(OffRange range) noexcept {
  return range == OffRange::ohms || range == OffRange::ohms_reversed;
}

/// What the display says: ohms, or volts of the diode range as red stands above black. None: no
/// way through, "open" on the display.
struct OffFigure {
  std::optional<double> value;
  std::optional<double> low;   ///< 19 sound stages in 20 lie from here to `high`.
  std::optional<double> high;  ///< None with a value: up to open.
};

/// What a meter of the common kind is off by: a share, and with its leads a floor. Common practice,
/// no source.
inline constexpr double off_meter_share = 0.01;
inline constexpr double ohms_meter_floor_ohm = 0.3;
inline constexpr double diode_meter_floor_v = 2e-3;

/// True where a meter can tell a stage that shows `other` from a sound one: beyond the band of the
/// one, as wide a band about the other, and the meter's error.
[[nodiscard]] bool can_tell(OffRange range,
                            const OffFigure& sound,
                            const std::optional<double>& other) noexcept;

/// `off` (circuit::power_off) with a meter connected, the red lead on the first point for the
/// ranges that are not reversed.
struct MeteredOff {
  circuit::CheckedCircuit stage;
  circuit::HandMeter meter;
};
[[nodiscard]] MeteredOff with_off_meter(const circuit::CheckedCircuit& off,
                                        const circuit::VoltsBetween& points,
                                        OffRange range);

/// One figure with its band, every tolerance and spread within it; none where no state is found.
/// Cost: an adjoint and two solves; 400 more where it bends.
[[nodiscard]] std::optional<OffFigure> off_figure(const circuit::CheckedCircuit& off,
                                                  const circuit::VoltsBetween& points,
                                                  OffRange range,
                                                  const solve::Conditions& conditions);

/// Those `wanted`, without bands, the circuit compiled once; the others are left as they are in
/// `values`. `near_v`: [nodes] where the sound stage stands, or empty. False where one finds no
/// state.
[[nodiscard]] bool find_off_values(const circuit::CheckedCircuit& off,
                                   const circuit::VoltsBetween& points,
                                   const solve::Conditions& conditions,
                                   const ByRange<bool>& wanted,
                                   const ByRange<std::vector<double>>& near_v,
                                   ByRange<std::optional<double>>& values);

}  // namespace idlepoint::answers
