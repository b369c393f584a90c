#include "report/figures.hpp"

#include <fmt/format.h>

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

}  // namespace

std::string volts(double volts) {
  const double size = std::abs(volts);
  if (size < 0.09995) return fixed(volts * 1e3, 1, "mV");
  if (size < 0.9995) return fixed(volts * 1e3, 0, "mV");
  if (size < 9.995) return fixed(volts, 2, "V");
  return fixed(volts, size < 99.95 ? 1 : 0, "V");
}

std::string amps(double amps) {
  const double size = std::abs(amps);
  if (size < 0.5e-6) return "0.0 mA";
  if (size < 9.95e-6) return fixed(amps * 1e6, 1, "uA");
  if (size < 0.9995e-3) return fixed(amps * 1e6, 0, "uA");
  if (size < 9.95e-3) return fixed(amps * 1e3, 1, "mA");
  if (size < 0.9995) return fixed(amps * 1e3, 0, "mA");
  return fixed(amps, size < 9.995 ? 2 : 1, "A");
}

std::string watts(double watts) {
  const double size = std::abs(watts);
  if (size < 0.9995) return fixed(watts * 1e3, 0, "mW");
  return fixed(watts, size < 9.95 ? 1 : 0, "W");
}

std::string figure(double value, ReadingUnit unit) {
  switch (unit) {
    case ReadingUnit::volt:
      return volts(value);
    case ReadingUnit::ampere:
      return amps(value);
    case ReadingUnit::watt:
      return watts(value);
    case ReadingUnit::celsius:
      return fixed(value, 0, "C");
  }
  return {};
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

std::string percent(double fraction) { return fixed(100.0 * fraction, 0, "%"); }

}  // namespace idlepoint::report
