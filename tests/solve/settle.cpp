#include "board.hpp"

namespace idlepoint::solve {

double Settled::volts(const std::string& name) const {
  INFO(name);
  const auto found = circuit::find_node(circuit, name);
  REQUIRE(found);
  return point.voltage_v(*found);
}

double Settled::lead_a(const std::string& name, std::size_t lead) const {
  INFO(name);
  const auto found = circuit::find_part(circuit, name);
  REQUIRE(found);
  return point.part(*found).lead_current_a.at(lead);
}

double Settled::amps(const std::string& name) const {
  const auto found = circuit::find_part(circuit, name);
  return point.read(circuit, circuit::AmpsThrough{found.value()});
}

double Settled::watts(const std::string& name) const {
  const auto found = circuit::find_part(circuit, name);
  return point.part(found.value()).power_w;
}

double Settled::delivered_a(std::size_t rail) const {
  return point.rail(circuit::RailId{rail}).delivered_a;
}

Settled settle(const circuit::CheckedCircuit& checked, const Conditions& conditions) {
  Outcome outcome = solve_cold(checked, conditions);
  if (const auto* story = std::get_if<NotSettled>(&outcome)) {
    std::string words = fmt::format("not settled: {}", story->likely);
    for (const Attempt& attempt : story->tried) {
      words += fmt::format("; {} stopped at {}", attempt.strategy, attempt.stopped_at);
    }
    FAIL(words);
  }
  return {checked.circuit(), std::get<OperatingPoint>(std::move(outcome))};
}

Settled settle(const Board& board, const Conditions& conditions) {
  return settle(board.checked(), conditions);
}

NotSettled refuse(const Board& board) {
  Outcome outcome = solve_cold(board.checked());
  REQUIRE(std::holds_alternative<NotSettled>(outcome));
  return std::get<NotSettled>(std::move(outcome));
}

circuit::CheckedCircuit edited(const Board& board, const std::vector<circuit::Edit>& edits) {
  circuit::CheckedCircuit result = board.checked();
  for (const circuit::Edit& edit : edits) {
    auto changed = circuit::apply(result, edit);
    if (const auto* words = std::get_if<std::string>(&changed)) FAIL(*words);
    result = std::get<circuit::CheckedCircuit>(std::move(changed));
  }
  return result;
}

devices::BipolarData small_transistor() {
  devices::BipolarData data = plain_transistor();
  data.early_voltage_v = 80.0;
  data.inverse_early_voltage_v = 25.0;
  data.knee_current_a = 0.15;
  data.recombination_current_a = 3e-14;
  data.recombination_ideality = 1.8;
  data.base_resistance_ohm = 30.0;
  data.collector_resistance_ohm = 2.0;
  data.emitter_resistance_ohm = 0.4;
  data.emitter_base_breakdown_voltage_v = 7.0;
  return data;
}

devices::BipolarData plain_transistor() {
  devices::BipolarData data;
  data.saturation_current_a = 2e-14;
  data.gain = 150.0;
  return data;
}

devices::FetData small_mosfet() {
  devices::FetData data;
  data.threshold_voltage_v = 2.0;
  data.current_factor_a_per_v2 = 0.05;
  data.slope_factor = 1.2;
  data.drain_slope_per_v = 0.01;
  data.source_resistance_ohm = 0.5;
  data.drain_resistance_ohm = 0.3;
  data.body_diode_a = 1e-12;
  return data;
}

devices::FetData small_jfet() {
  devices::FetData data;
  data.is_junction = true;
  data.threshold_voltage_v = -2.0;
  data.current_factor_a_per_v2 = 3e-3;
  data.drain_slope_per_v = 0.01;
  return data;
}

devices::DiodeData small_diode() {
  devices::DiodeData data;
  data.saturation_current_a = 4e-9;
  data.ideality = 1.9;
  data.series_resistance_ohm = 0.6;
  return data;
}

}  // namespace idlepoint::solve
