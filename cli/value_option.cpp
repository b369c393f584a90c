#include "value_option.hpp"

#include <fmt/format.h>

#include <variant>

#include "values/quantity.hpp"

namespace idlepoint::cli {

Tried<double> value_of(const Given& given,
                       const std::string& option,
                       values::Unit unit,
                       double low,
                       double high,
                       const char* range) {
  const std::string written = given.all(option).back();
  const auto read = values::read_value(written, unit);
  if (const auto* problem = std::get_if<values::ValueProblem>(&read)) {
    return Trouble{fmt::format("{} {}: {}", option, written, problem->headline), problem->instead};
  }
  const double value = std::get<double>(read);
  if (value < low || value > high) {
    return Trouble{fmt::format("{} {} is out of range", option, written),
                   fmt::format("{} takes {}.", option, range)};
  }
  return value;
}

}  // namespace idlepoint::cli
