// One row of what benches report: a stage sound and with a fault, cold, its readings side by side.
#pragma once

#include <cmath>
#include <string>
#include <vector>

#include "answers/asked.hpp"
#include "fault/explained.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::tests {

/// What a meter on its lowest range takes for nothing.
inline constexpr double nothing_v = 0.3e-3;

inline circuit::CheckedCircuit with_safety_resistors(const circuit::CheckedCircuit& stage) {
  return stage.edited([](circuit::Circuit& circuit) {
    for (auto& rail : circuit.rails) rail.resistance_ohm += 47.0;
  });
}

/// Faults as written on a command line, made in order.
inline circuit::CheckedCircuit faulty(circuit::CheckedCircuit stage,
                                      const std::vector<std::string>& faults) {
  for (const auto& fault : faults) {
    auto edited = circuit::apply(stage, required(language::read_fault(fault, *stage)));
    if (const auto* why = std::get_if<std::string>(&edited)) FAIL(*why);
    stage = std::get<circuit::CheckedCircuit>(std::move(edited));
  }
  return stage;
}

/// A fault's readings by their names.
class Row {
 public:
  Row(circuit::CheckedCircuit sound, circuit::CheckedCircuit with_fault)
      : sound_(std::move(sound)),
        faulty_(std::move(with_fault)),
        before_(settled(solve::solve_cold(sound_, {}))),
        after_(settled(solve::solve_cold(faulty_, {}))) {}
  Row(const circuit::CheckedCircuit& stage, const std::string& fault)
      : Row(stage, faulty(stage, {fault})) {}
  Row(const std::string& stage, const std::string& fault) : Row(cold_demo(stage), fault) {}

  [[nodiscard]] double now(const std::string& name) const {
    return after_.read(*faulty_, at(name));
  }
  [[nodiscard]] double was(const std::string& name) const {
    return before_.read(*sound_, at(name));
  }
  [[nodiscard]] double times(const std::string& name) const { return now(name) / was(name); }
  [[nodiscard]] double moved(const std::string& name) const { return now(name) - was(name); }
  [[nodiscard]] double rail_a(std::size_t rail) const {
    return std::abs(after_.rail(circuit::RailId{rail}).delivered_a);
  }
  [[nodiscard]] double volts(const std::string& node) const {
    return after_.voltage_v(*circuit::find_node(*faulty_, node));
  }
  [[nodiscard]] double volts_before(const std::string& node) const {
    return before_.voltage_v(*circuit::find_node(*sound_, node));
  }

 private:
  [[nodiscard]] const circuit::Probe& at(const std::string& name) const {
    const auto reading = circuit::find_reading(*sound_, name);
    if (!reading) FAIL("no reading " << name);
    return sound_->at(*reading).probe;
  }

  circuit::CheckedCircuit sound_;
  circuit::CheckedCircuit faulty_;
  solve::OperatingPoint before_;
  solve::OperatingPoint after_;
};

inline bool alike(double one, double other, double share) {
  return std::abs(one - other) <= share * std::max(std::abs(one), std::abs(other));
}

/// 47 ohms in each rail lead.
inline Row limited(const std::string& stage, const std::string& fault) {
  return {with_safety_resistors(cold_demo(stage)), fault};
}

}  // namespace idlepoint::tests
