#include "report/figures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "values/constants.hpp"
#include "values/format.hpp"

namespace idlepoint::report {
namespace {

using answers::ReadingUnit;

// Decimals fixed by size, and no minus before a figure that rounds to zero.
std::string fixed(double value, int decimals, const char* unit) {
  const double scale = std::pow(10.0, decimals);
  const double rounded = std::round(value * scale) / scale;
  return fmt::format("{:.{}f} {}", rounded == 0.0 ? 0.0 : rounded, decimals, unit);
}

/// How a value of that size is written.
struct Shown {
  double factor;
  int decimals;
  const char* unit;
};

Shown shown_as(double value, ReadingUnit unit) {
  const double size = std::abs(value);
  switch (unit) {
    case ReadingUnit::volt:
      if (size < 0.9995) return {1e3, size < 0.09995 ? 1 : 0, "mV"};
      if (size < 9.995) return {1.0, 2, "V"};
      return {1.0, size < 99.95 ? 1 : 0, "V"};
    case ReadingUnit::ampere:
      if (size < 0.5e-6) return {1e3, 1, "mA"};
      if (size < 0.9995e-3) return {1e6, size < 9.95e-6 ? 1 : 0, "uA"};
      if (size < 0.9995) return {1e3, size < 9.95e-3 ? 1 : 0, "mA"};
      return {1.0, size < 9.995 ? 2 : 1, "A"};
    case ReadingUnit::watt:
      if (size < 0.9995) return {1e3, 0, "mW"};
      return {1.0, size < 9.95 ? 1 : 0, "W"};
    case ReadingUnit::celsius:
      break;
  }
  return {1.0, 0, "C"};
}

}  // namespace

std::string volts(double volts) { return figure(volts, ReadingUnit::volt); }

std::string amps(double amps) { return figure(amps, ReadingUnit::ampere); }

std::string size_a(double current_a) { return amps(std::abs(current_a)); }

std::string watts(double watts) { return figure(watts, ReadingUnit::watt); }

std::string figure(double value, ReadingUnit unit) {
  const Shown shown = shown_as(value, unit);
  const double nothing_a = unit == ReadingUnit::ampere && std::abs(value) < 0.5e-6 ? 0.0 : 1.0;
  return fixed(nothing_a * value * shown.factor, shown.decimals, shown.unit);
}

std::string celsius(double kelvin) {
  return figure(values::celsius_from_kelvin(kelvin), ReadingUnit::celsius);
}

std::string as_written(double value, ReadingUnit unit) {
  using values::Unit;
  switch (unit) {
    case ReadingUnit::volt:
      return values::format_value(value, Unit::volt);
    case ReadingUnit::ampere:
      return values::format_value(value, Unit::ampere);
    case ReadingUnit::watt:
      return values::format_value(value, Unit::watt);
    case ReadingUnit::celsius:
      return values::format_value(values::kelvin_from_celsius(value), Unit::temperature);
  }
  return {};
}

std::string step(double difference, ReadingUnit unit) {
  if (unit == ReadingUnit::celsius) return fixed(difference, 1, "K");
  const double size = std::abs(difference);
  if (unit == ReadingUnit::volt && size < 0.9995) {
    return fixed(difference * 1e3, size < 0.95e-3 ? 2 : (size < 9.95e-3 ? 1 : 0), "mV");
  }
  return figure(difference, unit);
}

std::string band(double low, double high, double value, ReadingUnit unit) {
  const Shown shown = shown_as(value, unit);
  const double half = 0.5 * (high - low) * shown.factor;
  if (!(half > 0.0)) return {};
  // One digit of the half-width, two where it begins with a small one.
  const int decimals =
      std::min(shown.decimals, -static_cast<int>(std::floor(std::log10(half / 5.0))));
  const double step = std::pow(10.0, -decimals);
  const auto end = [&](double at) {
    const double rounded = std::round(at * shown.factor / step) * step;
    return fmt::format("{:.{}f}", rounded == 0.0 ? 0.0 : rounded, std::max(decimals, 0));
  };
  const std::string first = end(low);
  const std::string last = end(high);
  return first == last ? std::string() : "(" + first + " to " + last + ")";
}

std::string percent(double fraction) { return fixed(100.0 * fraction, 0, "%"); }

}  // namespace idlepoint::report
