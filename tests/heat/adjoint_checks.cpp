#include "heat/adjoint_checks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <catch2/catch.hpp>

namespace idlepoint::tests {
namespace {

using circuit::Circuit;
using solve::Sensitivity;

std::string name_of(const Circuit& circuit, const circuit::Parameter& parameter) {
  if (const auto* part = std::get_if<circuit::PartId>(&parameter.owner)) {
    return circuit.at(*part).name + " " + parameter.field;
  }
  return "rail " + parameter.field;
}

/// One quantity's slope by one number, times that number: what a change by itself would come to.
struct Slope {
  std::string quantity;
  std::string by;
  double adjoint;
  double difference;
  double step;
};

/// Close to each other, or both small against the largest of that quantity; a value solved for is
/// good to some 1e-11, which the division by a step makes larger.
bool agree(const Slope& one, double largest) {
  constexpr double noise = 2e-11;
  return std::abs(one.adjoint - one.difference) <=
         2e-5 * std::abs(one.difference) + 1e-6 * largest + noise / one.step;
}

void check(const std::vector<Slope>& slopes) {
  double largest = 0.0;
  for (const Slope& one : slopes) largest = std::max(largest, std::abs(one.difference));
  for (const Slope& one : slopes) {
    if (agree(one, largest)) continue;
    FAIL_CHECK(fmt::format("{} by {}: adjoint {:.9g}, differences {:.9g}, largest {:.3g}",
                           one.quantity,
                           one.by,
                           one.adjoint,
                           one.difference,
                           largest));
  }
}

/// `weight` is the number's size, `step` the share of it that the differences move it by.
struct Number {
  std::string name;
  double weight;
  double step;
  Moved differences;
};

template <class Pick>
void check_all(const MovedStage& stage,
               const solve::Sensitivities& adjoint,
               const std::vector<Number>& numbers,
               Pick pick) {
  for (std::size_t q = 0; q < stage.probes().size(); ++q) {
    std::vector<Slope> slopes;
    for (std::size_t k = 0; k < numbers.size(); ++k) {
      slopes.push_back({circuit::write_probe(stage.circuit(), stage.probes()[q]),
                        numbers[k].name,
                        numbers[k].weight * pick(adjoint.readings[q], k),
                        numbers[k].weight * numbers[k].differences.readings[q],
                        numbers[k].step});
    }
    check(slopes);
  }
  for (std::size_t q = 0; q < adjoint.positions.size(); ++q) {
    std::vector<Slope> slopes;
    for (std::size_t k = 0; k < numbers.size(); ++k) {
      slopes.push_back({"position",
                        numbers[k].name,
                        numbers[k].weight * pick(adjoint.positions[q], k),
                        numbers[k].weight * numbers[k].differences.travels[q],
                        numbers[k].step});
    }
    check(slopes);
  }
}

}  // namespace

void check_parameters(const MovedStage& stage) {
  const auto parameters = stage.every_parameter();
  const auto adjoint = stage.adjoint(parameters);
  std::vector<Number> numbers;
  for (const auto& parameter : parameters) {
    numbers.push_back({name_of(stage.circuit(), parameter),
                       circuit::nominal(stage.circuit(), parameter),
                       1e-3,
                       stage.slopes(parameter)});
  }
  check_all(stage, adjoint, numbers, [](const Sensitivity& one, std::size_t k) {
    return one.by_parameter[k];
  });
  // That something was there to compare.
  for (const Sensitivity& one : adjoint.readings) CHECK(one.by_parameter.size() == numbers.size());
  CHECK(numbers.size() > stage.circuit().parts.size());
}

void check_heat(const MovedStage& stage) {
  const auto adjoint = stage.adjoint({});
  std::vector<Number> room{
      {"ambient", 10.0, 0.01, stage.slopes(0.1, [](Circuit& copy, double step) {
         copy.ambient_k += step;
       })}};
  check_all(
      stage, adjoint, room, [](const Sensitivity& one, std::size_t) { return one.by_ambient; });
  std::vector<Number> sinks;
  for (std::size_t k = 0; k < stage.circuit().heatsinks.size(); ++k) {
    const double k_per_w = stage.circuit().heatsinks[k].resistance_k_per_w;
    sinks.push_back({stage.circuit().heatsinks[k].name,
                     k_per_w,
                     1e-3,
                     stage.slopes(1e-3 * k_per_w, [k](Circuit& copy, double step) {
                       copy.heatsinks[k].resistance_k_per_w += step;
                     })});
  }
  check_all(stage, adjoint, sinks, [](const Sensitivity& one, std::size_t k) {
    return one.by_sink_k_per_w[k];
  });
  std::vector<Number> washers;
  std::vector<std::size_t> mounted;
  for (std::size_t k = 0; k < stage.circuit().parts.size(); ++k) {
    const circuit::Part& part = stage.circuit().parts[k];
    if (!part.type || !part.mounting.heatsink) continue;
    mounted.push_back(k);
    washers.push_back(
        {"mounting of " + part.name, 1.0, 0.01, stage.slopes(0.01, [k](Circuit& copy, double step) {
           copy.parts[k].mounting.washer_k_per_w += step;
         })});
  }
  check_all(stage, adjoint, washers, [&](const Sensitivity& one, std::size_t k) {
    return one.by_mount_k_per_w[mounted[k]];
  });
}

}  // namespace idlepoint::tests
