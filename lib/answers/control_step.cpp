#include "answers/control_step.hpp"

#include <cmath>
#include <string>

#include "answers/alone.hpp"
#include "circuit/type_fields.hpp"
#include "values/constants.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Part;
using circuit::PartType;

/// Variance of the control volts, from the spread of the type; 0 without one.
double variance_v2(const PartType& type, double temperature_k) {
  const bool is_fet = circuit::is_fet(type.kind);
  const std::string field = is_fet ? "threshold_voltage" : "saturation_current";
  const auto spread = type.spreads.find(field);
  if (spread == type.spreads.end()) return 0.0;
  const double nominal = circuit::field_value(type, field).value_or(0.0);
  const double low = spread->second.min.value_or(nominal);
  const double high = spread->second.max.value_or(nominal);
  double width_v = high - low;
  if (!is_fet) {
    const double ideality = circuit::field_value(type, "ideality").value_or(1.0);
    width_v = ideality * values::thermal_voltage_v(temperature_k) * std::log(high / low);
  }
  return width_v * width_v / 12.0;  // of a rectangular distribution
}

struct Working {
  TestCurrent current;
  double across_v = 0.0;
};

std::optional<Working> working_point(const Part& part,
                                     const solve::OperatingPoint& state,
                                     circuit::PartId id) {
  const auto& found = state.part(id);
  const bool is_diode = part.kind == circuit::PartKind::diode;
  const auto wanted = is_diode ? solve::Conduction::forward : solve::Conduction::active;
  if (found.conduction != wanted) return std::nullopt;
  if (is_diode) return Working{{std::abs(found.lead_current_a[0]), found.junction_k}, 0.0};
  const auto main = circuit::lead(part, 0);
  const auto control = circuit::lead(part, 1);
  if (!main || !control) return std::nullopt;
  return Working{{std::abs(found.lead_current_a[2]), found.junction_k},
                 std::abs(state.voltage_v(*main) - state.voltage_v(*control))};
}

}  // namespace

std::optional<ControlStep> find_control_step(const circuit::CheckedCircuit& stage,
                                             const solve::OperatingPoint& state,
                                             const circuit::SetType& asked) {
  const auto working = working_point(stage->at(asked.part), state, asked.part);
  if (!working) return std::nullopt;
  const auto changed =
      stage.edited([&](circuit::Circuit& circuit) { circuit.at(asked.part).type = asked.type; });
  const auto before = control_volts(stage, asked.part, working->across_v, working->current);
  const auto after = control_volts(changed, asked.part, working->across_v, working->current);
  if (!before || !after) return std::nullopt;
  ControlStep step{*before, *after};
  const double temperature_k = working->current.temperature_k;
  const double variance = variance_v2(stage->at(*stage->at(asked.part).type), temperature_k) +
                          variance_v2(stage->at(asked.type), temperature_k);
  constexpr double coverage = 2.0;  // 95 % [JCGM100]
  if (variance > 0.0) step.half_width_v = coverage * std::sqrt(variance);
  return step;
}

}  // namespace idlepoint::answers
