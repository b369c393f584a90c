#include "fault/explained.hpp"

#include "answers/asked.hpp"

namespace idlepoint::tests {

circuit::CheckedCircuit without_heat(const circuit::CheckedCircuit& stage) {
  return stage.edited([](circuit::Circuit& circuit) {
    for (auto& part : circuit.parts) part.mounting.heatsink.reset();
    for (auto& type : circuit.types) type.ratings.junction_to_ambient_k_per_w.reset();
  });
}

circuit::CheckedCircuit cold_demo(const std::string& name) {
  return without_heat(demo(name + ".stage").stage);
}

std::optional<answers::Fault> explained(const circuit::CheckedCircuit& stage,
                                        const std::vector<circuit::Edit>& faults) {
  answers::FaultAsked asked{answers::Setup{stage, {}, {}, {}}, stage, faults};
  for (const auto& fault : faults) {
    auto edited = circuit::apply(asked.faulty, fault);
    if (const auto* why = std::get_if<std::string>(&edited)) FAIL(*why);
    asked.faulty = std::get<circuit::CheckedCircuit>(std::move(edited));
  }
  auto outcome = answers::ask_fault(asked);
  auto* answer = std::get_if<answers::Fault>(&outcome);
  return answer == nullptr ? std::nullopt : std::optional(std::move(*answer));
}

answers::Fault explained(const circuit::CheckedCircuit& stage, const std::string& fault) {
  auto answer = explained(stage, {required(language::read_fault(fault, *stage))});
  if (!answer) FAIL("no state with " << fault);
  return *std::move(answer);
}

}  // namespace idlepoint::tests
