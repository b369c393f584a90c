#include "circuit/uncertainty.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "circuit/type_fields.hpp"
#include "devices/elementary.hpp"
#include "values/constants.hpp"

namespace idlepoint::circuit {
namespace {

bool is_there(const Part& part) { return !part.damage.absent && !part.damage.is_link; }

/// How a spread moves its field; half width 0 where it does not.
Effect effect_of(const Spread& spread, double nominal_value, values::Range range) {
  const double low = spread.min.value_or(nominal_value);
  const double high = spread.max.value_or(nominal_value);
  if (low * high > 0.0) {
    return {0, Move::logarithmic, 0.5 * std::abs(std::log(high / low))};
  }
  double half_width = 0.5 * (high - low);
  if (range != values::Range::any) half_width = std::min(half_width, nominal_value);
  return {0, Move::additive, half_width};
}

/// The volts by which a field in an exponent moves a part's current by a factor e.
double scale_v(const PartType& type) {
  const double ideality = field_value(type, "ideality").value_or(1.0);
  const double measured_at_k = field_value(type, "measured_at").value_or(298.15);
  return ideality * values::thermal_voltage_v(measured_at_k);
}

class Gathering {
 public:
  explicit Gathering(const Circuit& circuit)
      : circuit_(circuit), is_matched_(circuit.parts.size(), false) {
    for (const Matched& group : circuit.matched) {
      for (const PartId part : group.parts) is_matched_[part.index] = true;
    }
  }

  Uncertainty run() && {
    for (std::size_t k = 0; k < circuit_.rails.size(); ++k) add_rail(RailId{k});
    for (std::size_t k = 0; k < circuit_.parts.size(); ++k) add_part(PartId{k});
    for (const Matched& group : circuit_.matched) add_group(group);
    return std::move(result_);
  }

 private:
  std::size_t index_of(Parameter parameter) {
    auto& parameters = result_.parameters;
    const auto found = std::find(parameters.begin(), parameters.end(), parameter);
    if (found != parameters.end()) return static_cast<std::size_t>(found - parameters.begin());
    parameters.push_back(std::move(parameter));
    return parameters.size() - 1;
  }

  void add_effect(Draw& draw, Parameter parameter, Effect effect) {
    if (!(effect.half_width > 0.0)) return;
    effect.parameter = index_of(std::move(parameter));
    draw.effects.push_back(effect);
  }

  void add_draw(Parameter parameter, const Effect& effect) {
    Draw draw;
    add_effect(draw, std::move(parameter), effect);
    add(std::move(draw));
  }

  void add(Draw draw) {
    if (!draw.effects.empty()) result_.draws.push_back(std::move(draw));
  }

  void add_rail(RailId id) {
    const Rail& rail = circuit_.at(id);
    if (!rail.lost) add_draw({id, "voltage"}, {0, Move::relative, rail.tolerance});
  }

  void add_part(PartId id) {
    const Part& part = circuit_.at(id);
    if (!is_there(part)) return;
    if (part.value != 0.0) add_draw({id, "value"}, {0, Move::relative, part.tolerance});
    if (!part.type || is_matched_[id.index]) return;
    for (const auto& [field, spread] : circuit_.at(*part.type).spreads) {
      Draw draw;
      add_spread(draw, id, field);
      add(std::move(draw));
    }
  }

  /// What a spread does to one part; nothing where the part has no such field or number.
  void add_spread(Draw& draw, PartId id, const std::string& field) {
    if (!may_move(id, field)) return;
    const PartType& type = circuit_.at(*circuit_.at(id).type);
    const auto spread = type.spreads.find(field);
    if (spread == type.spreads.end()) return;
    add_effect(draw,
               {id, field},
               effect_of(spread->second, *field_value(type, field), *field_range(type, field)));
  }

  [[nodiscard]] bool may_move(PartId id, const std::string& field) const {
    const Part& part = circuit_.at(id);
    if (!is_there(part) || !part.type) return false;
    if (field == "gain" && part.damage.gain) return false;
    return field_value(circuit_.at(*part.type), field).has_value();
  }

  void add_group(const Matched& group) {
    std::vector<std::string> fields;
    for (const PartId id : group.parts) {
      if (!circuit_.at(id).type) continue;
      for (const auto& [field, spread] : circuit_.at(*circuit_.at(id).type).spreads) {
        fields.push_back(field);
      }
    }
    std::sort(fields.begin(), fields.end());
    fields.erase(std::unique(fields.begin(), fields.end()), fields.end());
    for (const std::string& field : fields) {
      Draw common;
      for (const PartId id : group.parts) add_spread(common, id, field);
      add(std::move(common));
    }
    for (const PartId id : group.parts) add_difference(group, id);
  }

  void add_difference(const Matched& group, PartId id) {
    for (const char* field : {"gain", "saturation_current", "threshold_voltage"}) {
      if (!may_move(id, field)) continue;
      if (group.within_fraction) {
        add_draw({id, field}, {0, Move::relative, *group.within_fraction});
      } else if (group.within_v && std::string_view(field) == "saturation_current") {
        const double exponent = *group.within_v / scale_v(circuit_.at(*circuit_.at(id).type));
        add_draw({id, field}, {0, Move::logarithmic, exponent});
      } else if (group.within_v && std::string_view(field) == "threshold_voltage") {
        add_draw({id, field}, {0, Move::additive, *group.within_v});
      }
    }
  }

  const Circuit& circuit_;
  std::vector<bool> is_matched_;
  Uncertainty result_;
};

}  // namespace

Uncertainty uncertainty(const Circuit& circuit) { return Gathering(circuit).run(); }

double moved(double value, const Effect& effect, double u) noexcept {
  switch (effect.move) {
    case Move::relative:
      return value * (1.0 + effect.half_width * u);
    case Move::logarithmic:
      return value * devices::exponential(effect.half_width * u);
    case Move::additive:
      return value + effect.half_width * u;
  }
  return value;
}

double slope_by_draw(double nominal_value, const Effect& effect) noexcept {
  return effect.half_width * (effect.move == Move::additive ? 1.0 : nominal_value);
}

double slope_by_draw(const Circuit& circuit,
                     const Uncertainty& uncertainty,
                     const Draw& draw,
                     std::span<const double> by_parameter) {
  double slope = 0.0;
  for (const Effect& effect : draw.effects) {
    const double middle = nominal(circuit, uncertainty.parameters[effect.parameter]);
    slope += by_parameter[effect.parameter] * slope_by_draw(middle, effect);
  }
  return slope;
}

std::vector<double> values_at(const Circuit& circuit,
                              const Uncertainty& uncertainty,
                              std::span<const double> u) {
  assert(u.size() == uncertainty.draws.size());
  std::vector<double> values;
  values.reserve(uncertainty.parameters.size());
  for (const Parameter& parameter : uncertainty.parameters) {
    values.push_back(nominal(circuit, parameter));
  }
  for (std::size_t k = 0; k < u.size(); ++k) {
    for (const Effect& effect : uncertainty.draws[k].effects) {
      values[effect.parameter] = moved(values[effect.parameter], effect, u[k]);
    }
  }
  return values;
}

}  // namespace idlepoint::circuit
