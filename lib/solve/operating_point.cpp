#include "solve/operating_point.hpp"

namespace idlepoint::solve {

using circuit::Circuit;
using circuit::PartId;
using circuit::RailId;

std::string_view word(Conduction conduction) noexcept {
  switch (conduction) {
    case Conduction::off:
      return "off";
    case Conduction::active:
      return "active";
    case Conduction::saturated:
      return "saturated";
    case Conduction::reversed:
      return "reversed";
    case Conduction::forward:
      return "forward";
    case Conduction::breakdown:
      return "breakdown";
  }
  return "off";
}

double OperatingPoint::total_power_w() const noexcept {
  double total = 0.0;
  for (const RailState& rail : rails_) total += rail.power_w;
  return total;
}

namespace {

/// One overload a kind of probe.
struct Reader {
  const Circuit& circuit;
  const OperatingPoint& point;

  double operator()(const circuit::VoltsBetween& volts) const {
    return point.voltage_v(volts.a) - point.voltage_v(volts.b);
  }

  double operator()(const circuit::AmpsThrough& amps) const {
    if (const auto* rail = std::get_if<RailId>(&amps.what)) return point.rail(*rail).delivered_a;
    const PartId part = std::get<PartId>(amps.what);
    const double sign = circuit::is_p_kind(circuit.at(part).kind) ? -1.0 : 1.0;
    return sign * point.part(part).lead_current_a[0];
  }

  double operator()(const circuit::WattsIn& watts) const {
    if (const auto* rail = std::get_if<RailId>(&watts.what)) return point.rail(*rail).power_w;
    return point.part(std::get<PartId>(watts.what)).power_w;
  }

  double operator()(const circuit::CelsiusOf& celsius) const {
    if (const auto* sink = std::get_if<circuit::HeatsinkId>(&celsius.what)) {
      return point.heatsink(*sink).temperature_k;
    }
    return point.part(std::get<PartId>(celsius.what)).junction_k;
  }
};

}  // namespace

double OperatingPoint::read(const Circuit& circuit, const circuit::Probe& probe) const {
  return std::visit(Reader{circuit, *this}, probe);
}

}  // namespace idlepoint::solve
