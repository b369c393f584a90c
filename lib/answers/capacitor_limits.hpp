// Is a measured electrolytic still good?
//
// The limits that makers print for general-purpose aluminium electrolytics: loss factor by rated
// voltage, leakage by capacitance and rated voltage, and what ends a life. Asked by cli/capacitor
// and by the owner's page; the circuit around the part is answers/capacitor_leaks.
// Source: [IEC60384] in docs/sources.md.
#pragma once

#include <optional>
#include <vector>

namespace idlepoint::answers {

/// The greatest tan delta of a new part at 120 Hz and 20 C. Between the voltages of the table that
/// of the next lower one; below 6.3 V that of 6.3 V. Above 1000 uF it grows by 0.02 each 1000 uF,
/// pro rata.
[[nodiscard]] double tan_delta_limit(double value_f, double rated_v) noexcept;

/// The voltage of the table whose row stands for `rated_v`.
[[nodiscard]] double table_voltage(double rated_v) noexcept;

/// Equivalent series resistance that this tan delta means at 120 Hz: tan delta / (2 pi f C).
[[nodiscard]] double esr_limit_ohm(double value_f, double rated_v) noexcept;

/// The greatest leakage at the rated voltage, 20 C: up to 100 V 0.01 C V, at least 3 uA, after two
/// minutes; above, 0.03 C V + 15 uA, or 0.02 C V + 25 uA where C V is above 1000, after five. C in
/// uF, leakage in uA.
[[nodiscard]] double leakage_limit_a(double value_f, double rated_v) noexcept;

/// How long the rated voltage is to stand before the leakage is read: 2 or 5 minutes.
[[nodiscard]] int leakage_minutes(double rated_v) noexcept;

/// A life ends where the capacitance is this share away from the printed value,
inline constexpr double life_capacitance = 0.2;
/// or the loss at this many times the limit of a new part.
inline constexpr double life_loss = 2.0;
/// At which the loss is specified.
inline constexpr double loss_frequency_hz = 120.0;

/// What is printed on the part, and what a tester showed of it.
struct CapacitorFigures {
  double value_f = 0.0;
  std::optional<double> rated_v = {};  ///< Without it the capacitance alone is judged.
  std::optional<double> capacitance_f = {};
  std::optional<double> esr_ohm = {};
  std::optional<double> frequency_hz = {};  ///< Of the ESR; stands where `esr_ohm` does.
  std::optional<double> leakage_a = {};
  std::optional<double> leakage_at_v = {};  ///< Stands where `leakage_a` does.
};

enum class CapacitorQuantity { capacitance, esr, leakage };

/// What a figure that keeps its limit is worth.
enum class Worth {
  decides,         ///< Measured as the limit is specified.
  high_frequency,  ///< An ESR well above 120 Hz: it falls with frequency, so a low one proves
                   ///< little.
  low_voltage,     ///< A leakage below the rated voltage: more may flow there.
};

struct CapacitorLimit {
  CapacitorQuantity what = CapacitorQuantity::capacitance;
  double measured = 0.0;
  double limit = 0.0;              ///< The one on the figure's side, for a capacitance.
  std::optional<double> low = {};  ///< Of a capacitance: both.
  std::optional<double> high = {};
  bool ok = true;
  Worth worth = Worth::decides;
  bool life_ended = false;  ///< Not ok, and beyond what ends a life too.
};

struct CapacitorVerdict {
  CapacitorFigures figures;
  std::vector<CapacitorLimit> limits;  ///< Of what was measured alone.
  bool keep = true;                    ///< Every limit is kept.
  bool lacks_voltage = false;          ///< A figure could not be judged without `rated_v`.
};

[[nodiscard]] CapacitorVerdict judge(const CapacitorFigures& figures);

}  // namespace idlepoint::answers
