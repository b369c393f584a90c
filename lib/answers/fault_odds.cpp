#include "answers/fault_odds.hpp"

#include <algorithm>
#include <array>

namespace idlepoint::answers {
namespace {

using circuit::PartKind;
using enum FaultKind;
using enum PartClass;

constexpr std::array<FaultOdds, 44> odds_rows = {{
    {power_transistor, shorted, 44.0, "overload ends in a short, collector to emitter first"},
    {power_transistor, open, 8.0, "a bond that fused"},
    {power_transistor, lead_off, 9.0, "sockets, screws, joints that are heated daily"},
    {power_transistor, leaks, 8.0, "hot for decades"},
    {power_transistor, gain_lost, 4.0, "aged, or overdriven once"},
    {power_transistor, other_type, 6.0, "replaced once by somebody"},
    {power_transistor, leads_swapped, 2.0, "replaced once by somebody"},
    {power_transistor, insulator_pierced, 4.0, "a burr under a washer, a doubled or dry one"},
    {small_transistor, shorted, 14.0, "overload, leaking plastic"},
    {small_transistor, open, 10.0, "bonds"},
    {small_transistor, lead_off, 6.0, "dry joints"},
    {small_transistor, leaks, 7.0, "old plastic cases"},
    {small_transistor, gain_lost, 6.0, "aged; base-emitter once driven backwards"},
    {small_transistor, other_type, 3.0, "replaced once by somebody"},
    {small_transistor, leads_swapped, 2.0, "another leg order"},
    {diode, open, 6.0, "bias strings fail open"},
    {diode, shorted, 8.0, "overload"},
    {diode, leaks, 2.0, "age"},
    {diode, other_type, 2.0, "replaced once by somebody"},
    {diode, leads_swapped, 2.0, "fitted the wrong way round"},
    {resistor, open, 6.0, "carbon and film alike"},
    {resistor, drifted, 9.0, "carbon drifts up"},
    {resistor, shorted, 0.3, "a splash of solder"},
    {low_resistor, open, 12.0, "goes with the output transistor"},
    {low_resistor, drifted, 4.0, "overheated wire"},
    {low_resistor, shorted, 0.2, "a splash of solder"},
    {trimmer, wiper_lifted, 15.0, "dirt and wear, the usual one"},
    {trimmer, open, 1.0, "the whole part off the board"},
    {trimmer, lead_off, 4.0, "cracked end"},
    {trimmer, drifted, 3.0, "old carbon track"},
    {trimmer, shorted, 0.3, "a splash of solder"},
    {trimmer, set_elsewhere, 10.0, "the last hands that were here"},
    {electrolytic, leaks, 10.0, "age"},
    {electrolytic, shorted, 3.0, "age"},
    {small_capacitor, leaks, 1.0, "moisture"},
    {small_capacitor, shorted, 0.5, "overvoltage"},
    {thermistor, open, 4.0, "cracked"},
    {thermistor, shorted, 1.0, "age"},
    {thermistor, drifted, 4.0, "age"},
    {fuse, open, 12.0, "it did its work"},
    {winding, open, 1.0, "dry joint"},
    {winding, shorted, 0.2, "insulation"},
    {link, open, 1.0, "dry joint"},
    {fuse, shorted, 0.2, "wire across the holder: nothing to see at DC"},
}};

constexpr double low_ohm = 2.0;
constexpr double electrolytic_f = 1e-6;
constexpr double power_a = 2.0;

PartClass class_of_transistor(const circuit::Circuit& circuit, const circuit::Part& part) {
  if (!part.mounting.heatsink || !part.type) return small_transistor;
  const auto& max_a = circuit.at(*part.type).ratings.max_current_a;
  return max_a && *max_a < power_a ? small_transistor : power_transistor;
}

}  // namespace

PartClass class_of(const circuit::Circuit& circuit, circuit::PartId id) {
  const circuit::Part& part = circuit.at(id);
  if (circuit::is_transistor(part.kind)) return class_of_transistor(circuit, part);
  switch (part.kind) {
    case PartKind::resistor:
      return part.value < low_ohm ? low_resistor : resistor;
    case PartKind::trimmer:
      return trimmer;
    case PartKind::capacitor:
      return part.value >= electrolytic_f ? electrolytic : small_capacitor;
    case PartKind::inductor:
    case PartKind::lamp:
      return winding;
    case PartKind::fuse:
      return fuse;
    case PartKind::link:
      return link;
    case PartKind::thermistor:
      return thermistor;
    case PartKind::diode:
      return diode;
    default:
      return none;
  }
}

std::span<const FaultOdds> fault_odds() noexcept { return odds_rows; }

std::optional<double> fault_weight(PartClass part, FaultKind kind) noexcept {
  const auto row = std::find_if(odds_rows.begin(), odds_rows.end(), [&](const FaultOdds& odds) {
    return odds.part == part && odds.kind == kind;
  });
  if (row == odds_rows.end()) return std::nullopt;
  return row->weight;
}

}  // namespace idlepoint::answers
