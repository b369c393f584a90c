#include "time_options.hpp"

#include <fmt/format.h>

#include "values/quantity.hpp"

namespace idlepoint::cli {
namespace {

constexpr double longest_s = 86400.0;

std::optional<double> seconds_of(std::string text) {
  double unit_s = 1.0;
  const auto ends_with = [&](const std::string& ending) {
    if (!text.ends_with(ending)) return false;
    text.resize(text.size() - ending.size());
    return true;
  };
  if (ends_with("min")) {
    unit_s = 60.0;
  } else if (ends_with("h")) {
    unit_s = 3600.0;
  } else if (!ends_with("s")) {
    return std::nullopt;
  }
  const auto read = values::read_value(text, values::Unit::none);
  const double* number = std::get_if<double>(&read);
  if (number == nullptr || !(*number > 0.0) || *number * unit_s > longest_s) return std::nullopt;
  return *number * unit_s;
}

}  // namespace

Tried<std::optional<ForATime>> read_for_a_time(const Given& given,
                                               const std::string& option,
                                               values::Unit unit,
                                               const std::string& example) {
  if (!given.has(option)) return std::optional<ForATime>{};
  const std::string written = given.all(option).back();
  const auto colon = written.find(':');
  const auto shown = fmt::format("Write it as in `{} {}`.", option, example);
  if (colon == std::string::npos) {
    return Trouble{fmt::format("{} {} does not say how long", option, written), shown};
  }
  std::string number = written.substr(0, colon);
  if (unit == values::Unit::kelvin && number.ends_with('C')) number.back() = 'K';
  const auto amount = values::read_value(number, unit);
  if (const auto* problem = std::get_if<values::ValueProblem>(&amount)) {
    return Trouble{fmt::format("{} {}: {}", option, written, problem->headline), shown};
  }
  const auto lasts_s = seconds_of(written.substr(colon + 1));
  if (!lasts_s) {
    return Trouble{fmt::format("{} {}: the time cannot be read", option, written),
                   "A time is a number with s, min or h, more than 0 and at most 24h. " + shown};
  }
  return std::optional<ForATime>{{std::get<double>(amount), *lasts_s}};
}

}  // namespace idlepoint::cli
