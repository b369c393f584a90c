#include "answers/answering.hpp"

#include <algorithm>
#include <cmath>

#include "circuit/type_fields.hpp"
#include "solve/make_operating_point.hpp"
#include "solve/sensitivity.hpp"
#include "solve/solve_stage.hpp"
#include "solve/state_finder.hpp"
#include "values/constants.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Circuit;
using circuit::Parameter;
using circuit::Part;
using circuit::PartId;
using circuit::ReadingId;

constexpr double matters_from = 0.10;

bool is_output_volts(const Circuit& circuit, const circuit::Probe& probe) {
  const auto* points = std::get_if<circuit::VoltsBetween>(&probe);
  const auto output = circuit::output_node(circuit);
  if (points == nullptr || !output) return false;
  return (points->a == *output && points->b == circuit::ground) ||
         (points->b == *output && points->a == circuit::ground);
}

/// The number that sets a part's volts at a given current.
Parameter volts_parameter(const Circuit& circuit, PartId id) {
  return {id, circuit::is_fet(circuit.at(id).kind) ? "threshold_voltage" : "saturation_current"};
}

/// How far that number goes for the compared step: a threshold by the step itself, a saturation
/// current by the factor exp(step / (m U)), to first order.
double step_of(const Circuit& circuit, const Parameter& parameter, double junction_k) {
  const Part& part = circuit.at(std::get<PartId>(parameter.owner));
  if (circuit::is_fet(part.kind)) return -compared_step_v;
  const double ideality = circuit::field_value(circuit.at(*part.type), "ideality").value_or(1.0);
  const auto* diode = std::get_if<circuit::DiodeDetails>(&part.details);
  const double junctions = diode == nullptr ? 1.0 : diode->junctions;
  return circuit::nominal(circuit, parameter) * compared_step_v /
         (ideality * junctions * values::thermal_voltage_v(junction_k));
}

/// [readings] with the gain of one part multiplied; empty where that stage has no state.
std::vector<double> with_gain(const circuit::CheckedCircuit& stage,
                              const solve::Conditions& conditions,
                              const std::vector<ReadingId>& readings,
                              PartId id,
                              double times) {
  const double gain = circuit::nominal(*stage, {id, "gain"});
  const auto changed =
      stage.edited([&](Circuit& circuit) { circuit.at(id).damage.gain = times * gain; });
  const auto outcome = solve::solve_stage(changed, conditions);
  const auto* state = std::get_if<solve::OperatingPoint>(&outcome);
  std::vector<double> values;
  if (state == nullptr) return values;
  for (const ReadingId reading : readings) {
    values.push_back(state->read(*stage, stage->at(reading).probe));
  }
  return values;
}

std::optional<double> change(const std::vector<double>& values, std::size_t k, double from) {
  return values.empty() ? std::nullopt : std::optional(values[k] - from);
}

std::vector<PartId> typed(const Circuit& circuit, const std::vector<PartId>& parts) {
  std::vector<PartId> found;
  for (const PartId id : parts) {
    const Part& part = circuit.at(id);
    if (part.type && !part.damage.absent && !part.damage.is_link) found.push_back(id);
  }
  return found;
}

/// The state with its slopes by the volts of each part.
class AtRest {
 public:
  AtRest(const Circuit& circuit,
         const solve::Conditions& conditions,
         const std::vector<ReadingId>& readings,
         const std::vector<PartId>& parts)
      : circuit_(circuit), readings_(readings) {
    for (const PartId id : parts) parameters_.push_back(volts_parameter(circuit, id));
    solve::StateFinder finder(circuit, conditions);
    const auto found = finder.find();
    const auto* rest = std::get_if<solve::Rest>(&found);
    if (rest == nullptr) return;
    std::vector<circuit::Probe> probes;
    for (const ReadingId reading : readings) probes.push_back(circuit.at(reading).probe);
    slopes_ = solve::sensitivities(circuit, finder, *rest, {probes, {}, parameters_});
    state_ = solve::make_operating_point(circuit, conditions, finder, *rest);
  }

  [[nodiscard]] bool is_found() const { return state_.has_value(); }
  [[nodiscard]] double value(std::size_t reading) const {
    return state_->read(circuit_, circuit_.at(readings_[reading]).probe);
  }
  [[nodiscard]] std::optional<double> by_lower_volts(std::size_t reading, std::size_t part) const {
    if (!slopes_) return std::nullopt;
    const Parameter& parameter = parameters_[part];
    const double junction_k = state_->part(std::get<PartId>(parameter.owner)).junction_k;
    return slopes_->readings[reading].by_parameter[part] * step_of(circuit_, parameter, junction_k);
  }

 private:
  const Circuit& circuit_;
  const std::vector<ReadingId>& readings_;
  std::vector<Parameter> parameters_;
  std::optional<solve::Sensitivities> slopes_;
  std::optional<solve::OperatingPoint> state_;
};

}  // namespace

std::vector<ReadingId> standing_current_readings(const Circuit& circuit) {
  std::vector<ReadingId> readings;
  for (const auto& adjustment : circuit.adjustments) {
    if (!is_output_volts(circuit, circuit.at(adjustment.reading).probe)) {
      readings.push_back(adjustment.reading);
    }
  }
  return readings;
}

std::vector<Answering> how_it_answers(const circuit::CheckedCircuit& stage,
                                      const solve::Conditions& conditions,
                                      const std::vector<PartId>& parts) {
  const Circuit& circuit = *stage;
  const auto readings = standing_current_readings(circuit);
  const auto compared = typed(circuit, parts);
  const AtRest rest(circuit, conditions, readings, compared);
  std::vector<Answering> answers;
  if (!rest.is_found()) return answers;
  for (std::size_t k = 0; k < readings.size(); ++k) {
    for (std::size_t p = 0; p < compared.size(); ++p) {
      answers.push_back({compared[p], readings[k], rest.value(k), rest.by_lower_volts(k, p)});
    }
  }
  for (std::size_t p = 0; p < compared.size(); ++p) {
    if (!circuit::is_bipolar(circuit.at(compared[p]).kind)) continue;
    const auto halved = with_gain(stage, conditions, readings, compared[p], 0.5);
    const auto doubled = with_gain(stage, conditions, readings, compared[p], 2.0);
    for (std::size_t k = 0; k < readings.size(); ++k) {
      Answering& one = answers[k * compared.size() + p];
      one.by_half_gain = change(halved, k, one.value);
      one.by_double_gain = change(doubled, k, one.value);
    }
  }
  return answers;
}

bool gain_matters(const Answering& answering) noexcept {
  const double noticeable = matters_from * std::abs(answering.value);
  return std::abs(answering.by_half_gain.value_or(0.0)) > noticeable ||
         std::abs(answering.by_double_gain.value_or(0.0)) > noticeable;
}

}  // namespace idlepoint::answers
