#include "heat/moved_stage.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "circuit/type_fields.hpp"

namespace idlepoint::tests {
namespace {

using circuit::Circuit;
using circuit::Parameter;
using circuit::PartId;
using circuit::PartKind;

bool has_followed_value(const circuit::Part& part) {
  switch (part.kind) {
    case PartKind::resistor:
    case PartKind::trimmer:
    case PartKind::thermistor:
    case PartKind::feed:
    case PartKind::hold:
      return part.value != 0.0;
    default:
      return false;
  }
}

void add_fields(const Circuit& circuit, PartId part, std::vector<Parameter>& list) {
  const circuit::PartType& type = circuit.at(*circuit.at(part).type);
  std::visit(
      [&](const auto& data) {
        using Data = std::decay_t<decltype(data)>;
        const auto add = [&](const auto& fields) {
          for (const auto& field : fields) {
            const auto value = circuit::field_value(type, field.name);
            // 0 drops a term: a current, a resistance.
            if (value && *value != 0.0) list.push_back({part, std::string(field.name)});
          }
        };
        if constexpr (std::is_same_v<Data, devices::DiodeData>) add(circuit::diode_fields());
        if constexpr (std::is_same_v<Data, devices::BipolarData>) add(circuit::bipolar_fields());
        if constexpr (std::is_same_v<Data, devices::FetData>) add(circuit::fet_fields());
      },
      type.law);
}

}  // namespace

MovedStage::MovedStage(circuit::CheckedCircuit stage, const solve::Conditions& conditions)
    : stage_(std::move(stage)), conditions_(conditions) {
  for (const circuit::Reading& reading : stage_->readings) probes_.push_back(reading.probe);
  for (const circuit::Rail& rail : stage_->rails) {
    const auto id = *circuit::find_rail(*stage_, rail.node);
    probes_.emplace_back(circuit::WattsIn{id});
    probes_.emplace_back(circuit::AmpsThrough{id});
  }
  for (std::size_t k = 0; k < stage_->parts.size(); ++k) {
    if (!circuit::is_transistor(stage_->parts[k].kind)) continue;
    probes_.emplace_back(circuit::WattsIn{PartId{k}});
    probes_.emplace_back(circuit::CelsiusOf{PartId{k}});
  }
  for (std::size_t k = 0; k < stage_->heatsinks.size(); ++k) {
    probes_.emplace_back(circuit::CelsiusOf{circuit::HeatsinkId{k}});
  }
  solve::StateFinder finder(*stage_, conditions_);
  auto found = finder.find();
  REQUIRE(std::holds_alternative<solve::Rest>(found));
  rest_ = std::get<solve::Rest>(std::move(found));
  for (const circuit::Adjustment& adjustment : stage_->adjustments) {
    targets_.push_back(finder.read(stage_->at(adjustment.reading).probe, rest_));
  }
}

std::vector<solve::Wanted> MovedStage::wanted(const solve::System& system) const {
  std::vector<solve::Wanted> list;
  for (std::size_t k = 0; k < stage_->adjustments.size(); ++k) {
    const circuit::Adjustment& adjustment = stage_->adjustments[k];
    const auto& tracks = system.wiring.tracks;
    const auto track = std::find_if(tracks.begin(), tracks.end(), [&](const solve::Track& one) {
      return one.part == adjustment.trimmer;
    });
    list.push_back({static_cast<std::size_t>(track - tracks.begin()),
                    stage_->at(adjustment.reading).probe,
                    targets_[k]});
  }
  return list;
}

Moved MovedStage::at(const circuit::CheckedCircuit& stage) const {
  solve::StateFinder finder(*stage, conditions_);
  auto found = finder.find(&rest_);
  REQUIRE(std::holds_alternative<solve::Rest>(found));
  auto& rest = std::get<solve::Rest>(found);
  Moved result;
  for (const circuit::Probe& probe : probes_) result.readings.push_back(finder.read(probe, rest));
  if (targets_.empty()) return result;
  solve::BorderedState at = rest.at;
  for (const circuit::Adjustment& adjustment : stage->adjustments) {
    const auto& trimmer = stage->at(adjustment.trimmer);
    at.travels.push_back(std::get<circuit::TrimmerDetails>(trimmer.details).travel);
  }
  REQUIRE(finder.newton().iterate(wanted(finder.solver().system()), at).settled);
  result.travels = at.travels;
  return result;
}

Moved MovedStage::combined(const Moved& a, double by_a, const Moved& b, double by_b) {
  Moved result;
  for (std::size_t k = 0; k < a.readings.size(); ++k) {
    result.readings.push_back(by_a * a.readings[k] + by_b * b.readings[k]);
  }
  for (std::size_t k = 0; k < a.travels.size(); ++k) {
    result.travels.push_back(by_a * a.travels[k] + by_b * b.travels[k]);
  }
  return result;
}

Moved MovedStage::slopes(const Parameter& parameter) const {
  const double nominal = circuit::nominal(*stage_, parameter);
  return slopes(1e-3 * std::abs(nominal), [&](Circuit& copy, double step) {
    const std::vector<Parameter> one{parameter};
    const std::vector<double> value{nominal + step};
    copy = *circuit::with_parameters(stage_, one, value);
  });
}

std::vector<Parameter> MovedStage::every_parameter() const {
  std::vector<Parameter> list;
  for (std::size_t k = 0; k < stage_->rails.size(); ++k) {
    list.push_back({circuit::RailId{k}, "voltage"});
  }
  for (std::size_t k = 0; k < stage_->parts.size(); ++k) {
    const circuit::Part& part = stage_->parts[k];
    if (has_followed_value(part)) list.push_back({PartId{k}, "value"});
    if (part.type) add_fields(*stage_, PartId{k}, list);
  }
  return list;
}

solve::Sensitivities MovedStage::adjoint(const std::vector<Parameter>& parameters) const {
  solve::StateFinder finder(*stage_, conditions_);
  auto found = finder.find();
  REQUIRE(std::holds_alternative<solve::Rest>(found));
  const auto list = wanted(finder.solver().system());
  auto result = solve::sensitivities(
      *stage_, finder, std::get<solve::Rest>(found), {probes_, list, parameters});
  REQUIRE(result);
  return std::move(*result);
}

}  // namespace idlepoint::tests
