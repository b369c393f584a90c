#include "answers/assumed_spreads.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace idlepoint::answers {
namespace {

using circuit::Circuit;
using circuit::PartType;

bool is_used(const Circuit& circuit, std::size_t type) {
  return std::any_of(circuit.parts.begin(), circuit.parts.end(), [&](const circuit::Part& part) {
    return part.type && part.type->index == type;
  });
}

bool assume(PartType& type, const char* field, double value, double times) {
  return type.spreads.emplace(field, circuit::Spread{value / times, value * times}).second;
}

struct Filling {
  PartType& type;
  bool gain = false;
  bool saturation = false;

  void operator()(const devices::BipolarData& law) {
    gain = assume(type, "gain", law.gain, assumed_gain_times);
    (*this)(law.saturation_current_a);
  }
  void operator()(const devices::DiodeData& law) { (*this)(law.saturation_current_a); }
  void operator()(const devices::FetData&) {}
  void operator()(double saturation_current_a) {
    saturation = assume(type, "saturation_current", saturation_current_a, assumed_saturation_times);
  }
};

}  // namespace

AssumedSpreads with_assumed_spreads(const circuit::CheckedCircuit& stage) {
  std::vector<std::string> assumed;
  auto filled = stage.edited([&](Circuit& circuit) {
    for (std::size_t index = 0; index < circuit.types.size(); ++index) {
      PartType& type = circuit.types[index];
      Filling filling{type};
      const auto law = type.law;
      std::visit(filling, law);
      if (!is_used(circuit, index)) continue;
      const auto say = [&](const char* field, double times) {
        assumed.push_back(fmt::format("{} of {}, {:g} times either way", field, type.name, times));
      };
      if (filling.gain) say("gain", assumed_gain_times);
      if (filling.saturation) say("saturation current", assumed_saturation_times);
    }
  });
  return {std::move(filled), std::move(assumed)};
}

}  // namespace idlepoint::answers
