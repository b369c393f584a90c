#include "language/same_circuit.hpp"

#include <sstream>

namespace idlepoint::language {
namespace {

// Numbers in hexadecimal: every bit of a double shows.
struct Dump {
  std::ostringstream out;

  Dump() { out << std::hexfloat; }
  Dump& operator<<(double value) {
    out << value << ' ';
    return *this;
  }
  Dump& operator<<(const std::optional<double>& value) {
    if (value) return *this << *value;
    out << "- ";
    return *this;
  }
  Dump& operator<<(const std::string& text) {
    out << '[' << text << "] ";
    return *this;
  }
  Dump& operator<<(std::size_t number) {
    out << number << ' ';
    return *this;
  }
  Dump& operator<<(int number) {
    out << number << ' ';
    return *this;
  }
  template <class Tag>
  Dump& operator<<(const circuit::Id<Tag>& id) {
    return *this << id.index;
  }
  template <class Tag>
  Dump& operator<<(const std::optional<circuit::Id<Tag>>& id) {
    if (id) return *this << id->index;
    out << "- ";
    return *this;
  }
};

struct DumpDetails {
  Dump& to;

  void operator()(std::monostate) const {}
  void operator()(const circuit::ResistorDetails& d) const { to << d.power_w << d.tempco_per_k; }
  void operator()(const circuit::TrimmerDetails& d) const {
    to << d.travel << d.end_resistance_ohm << d.wiper_resistance_ohm
       << (d.clockwise ? static_cast<int>(*d.clockwise) : -1) << d.turns
       << static_cast<int>(d.spare);
  }
  void operator()(const circuit::CapacitorDetails& d) const { to << d.leakage_ohm << d.rated_v; }
  void operator()(const circuit::SeriesDetails& d) const { to << d.resistance_ohm; }
  void operator()(const circuit::LampDetails& d) const { to << d.rated_v << d.rated_w; }
  void operator()(const circuit::ThermistorDetails& d) const {
    to << d.beta_k << static_cast<int>(d.beta_assumed);
  }
  void operator()(const circuit::FeedDetails& d) const { to << d.compliance_v; }
  void operator()(const circuit::DiodeDetails& d) const { to << d.junctions; }
};

struct DumpLaw {
  Dump& to;

  void operator()(const devices::DiodeData& d) const {
    to << d.saturation_current_a << d.ideality << d.series_resistance_ohm << d.zener_voltage_v
       << d.zener_test_current_a << d.zener_ideality << d.zener_tempco_per_k << d.temperature_power
       << d.band_gap_ev << d.measured_at_k;
  }
  void operator()(const devices::BipolarData& d) const {
    to << d.saturation_current_a << d.gain << d.inverse_gain << d.ideality << d.inverse_ideality
       << d.early_voltage_v << d.inverse_early_voltage_v << d.knee_current_a
       << d.inverse_knee_current_a << d.recombination_current_a << d.recombination_ideality
       << d.collector_recombination_current_a << d.collector_recombination_ideality
       << d.cutoff_current_a << d.cutoff_doubles_every_k << d.base_resistance_ohm
       << d.collector_resistance_ohm << d.emitter_resistance_ohm
       << d.emitter_base_breakdown_voltage_v << d.gain_temperature_power << d.temperature_power
       << d.band_gap_ev << d.measured_at_k;
  }
  void operator()(const devices::FetData& d) const {
    to << static_cast<int>(d.is_junction) << d.threshold_voltage_v << d.current_factor_a_per_v2
       << d.slope_factor << d.drain_slope_per_v << d.source_resistance_ohm << d.drain_resistance_ohm
       << d.threshold_tempco_v_per_k << d.current_factor_temperature_power
       << d.gate_leakage_current_a << d.body_diode_a << d.temperature_power << d.band_gap_ev
       << d.measured_at_k;
  }
};

void dump_type(Dump& to, const circuit::PartType& type) {
  to << std::string("type") << type.name << static_cast<int>(type.kind);
  std::visit(DumpLaw{to}, type.law);
  const circuit::Ratings& r = type.ratings;
  to << r.max_voltage_v << r.max_current_a << r.max_base_emitter_voltage_v << r.max_power_w
     << r.max_junction_temperature_k << r.junction_to_case_k_per_w << r.junction_to_ambient_k_per_w
     << r.transition_frequency_hz << r.case_style << type.source;
  for (const auto& point : r.safe_area) to << point.voltage_v << point.current_a;
  for (const auto& [field, spread] : type.spreads) to << field << spread.min << spread.max;
  to.out << '\n';
}

void dump_part(Dump& to, const circuit::Part& part) {
  to << std::string("part") << part.name << static_cast<int>(part.kind) << part.value
     << part.tolerance << part.type << part.mounting.heatsink << part.mounting.washer_k_per_w
     << part.mounting.coupling;
  for (const auto& lead : part.leads) to << lead;
  std::visit(DumpDetails{to}, part.details);
  to.out << '\n';
}

void dump_probe(Dump& to, const circuit::Probe& probe) {
  to << probe.index();
  const auto dump_what = [&to](const auto& what) {
    to << what.index();
    std::visit([&to](const auto& id) { to << id; }, what);
  };
  if (const auto* volts = std::get_if<circuit::VoltsBetween>(&probe)) to << volts->a << volts->b;
  if (const auto* amps = std::get_if<circuit::AmpsThrough>(&probe)) dump_what(amps->what);
  if (const auto* watts = std::get_if<circuit::WattsIn>(&probe)) dump_what(watts->what);
  if (const auto* celsius = std::get_if<circuit::CelsiusOf>(&probe)) dump_what(celsius->what);
}

void dump_asked(Dump& to, const circuit::Circuit& circuit) {
  for (const circuit::Reading& reading : circuit.readings) {
    to << std::string("reading") << reading.name;
    dump_probe(to, reading.probe);
    if (reading.limit) to << reading.limit->low << reading.limit->high;
    to.out << '\n';
  }
  for (const circuit::Adjustment& a : circuit.adjustments) {
    to << std::string("adjust") << a.trimmer << a.reading << a.target << a.within;
    to.out << '\n';
  }
  for (const circuit::PrintedVolts& p : circuit.printed) {
    to << std::string("printed") << p.a << p.b << p.volts << p.text;
    to.out << '\n';
  }
  for (const circuit::Matched& m : circuit.matched) {
    to << std::string("matched") << m.within_fraction << m.within_v;
    for (const circuit::PartId part : m.parts) to << part;
    to.out << '\n';
  }
}

}  // namespace

std::string dump(const circuit::Circuit& circuit) {
  Dump to;
  to << circuit.title << circuit.ambient_k << circuit.meter.error << circuit.meter.floor_v
     << circuit.meter.input_ohm << circuit.signal.output << circuit.signal.input
     << circuit.signal.drive;
  to.out << '\n';
  for (const circuit::Node& node : circuit.nodes) {
    to << std::string("node") << node.name << static_cast<int>(node.is_socket);
    to.out << '\n';
  }
  for (const circuit::Rail& rail : circuit.rails) {
    to << std::string("rail") << rail.node << rail.nominal_v << rail.measured_v
       << rail.resistance_ohm << rail.tolerance;
    to.out << '\n';
  }
  for (const circuit::Heatsink& sink : circuit.heatsinks) {
    to << std::string("sink") << sink.name << sink.resistance_k_per_w << sink.capacity_j_per_k;
    to.out << '\n';
  }
  for (const circuit::PartType& type : circuit.types) dump_type(to, type);
  for (const circuit::Part& part : circuit.parts) dump_part(to, part);
  dump_asked(to, circuit);
  return to.out.str();
}

}  // namespace idlepoint::language
