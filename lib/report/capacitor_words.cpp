#include "report/capacitor_words.hpp"

#include <fmt/format.h>

#include <cmath>

#include "report/figures.hpp"
#include "values/format.hpp"

namespace idlepoint::report {
namespace {

using answers::CapacitorFigures;
using answers::CapacitorLimit;
using answers::CapacitorQuantity;
using answers::CapacitorVerdict;
using answers::Worth;
using values::Unit;

// Large ones too are printed in microfarads on the part.
std::string farads(double value_f) {
  constexpr double millifarad = 1e-3;
  constexpr double microfarad = 1e-6;
  if (value_f < millifarad) return values::format_value(value_f, Unit::farad);
  return fmt::format("{:.0f} uF", value_f / microfarad);
}
std::string written_v(double value_v) { return values::format_value(value_v, Unit::volt); }
std::string written_a(double value_a) { return values::format_value(value_a, Unit::ampere, 2); }

std::string hertz(const std::optional<double>& frequency_hz) {
  return values::format_value(frequency_hz.value_or(answers::loss_frequency_hz), Unit::hertz);
}

std::string broken_in_words(const CapacitorVerdict& verdict) {
  std::string words;
  for (const CapacitorLimit& limit : verdict.limits) {
    if (limit.ok) continue;
    words += fmt::format("{}its {} is {}, and a sound one has {}",
                         words.empty() ? "" : "; ",
                         quantity_in_words(limit.what),
                         measured_in_words(limit, verdict.figures),
                         limit_in_words(limit, verdict.figures));
  }
  return words;
}

// Only its ESR is past a new part's limit, and not yet at twice that.
bool is_aged_only(const CapacitorVerdict& verdict) {
  for (const CapacitorLimit& limit : verdict.limits) {
    if (!limit.ok && limit.life_ended) return false;
  }
  return !verdict.keep;
}

}  // namespace

std::string printed_on(const CapacitorFigures& figures) {
  const std::string value = farads(figures.value_f);
  return figures.rated_v ? value + ", " + written_v(*figures.rated_v) : value;
}

std::string quantity_in_words(CapacitorQuantity what) {
  switch (what) {
    case CapacitorQuantity::capacitance:
      return "capacitance";
    case CapacitorQuantity::esr:
      return "ESR";
    case CapacitorQuantity::leakage:
      break;
  }
  return "leakage";
}

std::string measured_in_words(const CapacitorLimit& limit, const CapacitorFigures& figures) {
  switch (limit.what) {
    case CapacitorQuantity::capacitance:
      return farads(limit.measured);
    case CapacitorQuantity::esr:
      return values::format_ohms(limit.measured) + " at " + hertz(figures.frequency_hz);
    case CapacitorQuantity::leakage:
      break;
  }
  return written_a(limit.measured) + " at " +
         written_v(figures.leakage_at_v.value_or(figures.rated_v.value_or(0.0)));
}

std::string limit_in_words(const CapacitorLimit& limit, const CapacitorFigures& figures) {
  switch (limit.what) {
    case CapacitorQuantity::capacitance:
      return farads(limit.low.value_or(0.0)) + " to " + farads(limit.high.value_or(0.0));
    case CapacitorQuantity::esr:
      return "at most " + values::format_ohms(limit.limit) + " at " +
             hertz(answers::loss_frequency_hz);
    case CapacitorQuantity::leakage:
      break;
  }
  return fmt::format("at most {} at {}, after {} minutes",
                     values::format_value(limit.limit, Unit::ampere, 3),
                     written_v(figures.rated_v.value_or(0.0)),
                     answers::leakage_minutes(figures.rated_v.value_or(0.0)));
}

std::vector<std::string> what_is_not_shown(const CapacitorVerdict& verdict) {
  std::vector<std::string> sentences;
  for (const CapacitorLimit& limit : verdict.limits) {
    if (limit.ok && limit.worth == Worth::high_frequency) {
      sentences.push_back(
          fmt::format("The ESR was read at {}, and the limit is for 120 Hz. ESR falls as the "
                      "frequency rises, at 100 kHz often to a tenth: above the limit it would "
                      "have condemned the part, below it it proves little. Compare with a new one "
                      "of the same value on the same meter.",
                      hertz(verdict.figures.frequency_hz)));
    }
    if (limit.ok && limit.worth == Worth::low_voltage) {
      sentences.push_back(fmt::format(
          "The leakage was read at {}, and the limit is for {}: more may flow there. What it "
          "does at the volts it stands at in the amplifier is what counts.",
          written_v(*verdict.figures.leakage_at_v),
          written_v(*verdict.figures.rated_v)));
    }
    if (!limit.ok && limit.what == CapacitorQuantity::capacitance && limit.limit == limit.high) {
      sentences.emplace_back(
          "Too much capacitance: some old ones were made up to half as large again, and a leaking "
          "one reads high on many meters. Measure its leakage.");
    }
  }
  if (verdict.lacks_voltage) {
    sentences.emplace_back(
        "ESR and leakage were not judged: their limits need the rated voltage, and it is not "
        "given. Write it as `voltage=40V`.");
  }
  return sentences;
}

std::string recommended(const CapacitorVerdict& verdict,
                        const std::optional<circuit::Scope>& scope) {
  using circuit::Scope;
  if (verdict.limits.empty()) return "Nothing was measured that could be judged.";
  if (verdict.keep) {
    if (scope == Scope::restoration) {
      return "Keep it: it keeps its limits. Where all are changed for their age, that is a choice "
             "and not a finding.";
    }
    if (scope == Scope::repair)
      return "Keep it: it keeps its limits, and a repair leaves it alone.";
    return "Keep it: it keeps its limits.";
  }
  const std::string why = broken_in_words(verdict);
  if (!is_aged_only(verdict)) return "Replace it: " + why + ".";
  const std::string aged =
      "Replace it: " + why + ". Makers call a life ended at twice that, and it is not there yet";
  return scope == Scope::repair
             ? aged + ": in a repair the owner may choose to leave it, and be told."
             : aged + ".";
}

std::string where_limits_come_from(const CapacitorFigures& figures) {
  if (!figures.rated_v) return "The limit is what makers call the end of a life: a fifth away.";
  const double row_v = answers::table_voltage(*figures.rated_v);
  const bool own_row = std::abs(row_v - *figures.rated_v) < 1e-6 * row_v;
  return fmt::format(
      "The limits are makers' for general-purpose electrolytics, new, at 20 C: tan delta {:.3g}{}, "
      "capacitance a fifth either way.",
      answers::tan_delta_limit(figures.value_f, *figures.rated_v),
      own_row
          ? ""
          : fmt::format(
                " (the row of {} stands for {})", written_v(row_v), written_v(*figures.rated_v)));
}

std::string why_it_matters(const answers::CapacitorLeaks& leaks,
                           const answers::LeakEffect& effect) {
  const answers::ReadingValue& reading = leaks.readings[effect.reading];
  const std::string size = step(effect.shift, reading.unit);
  switch (effect.why) {
    case answers::Matters::limit:
      return "your limit, " + size + " away";
    case answers::Matters::share:
      return "5 %, " + size;
    case answers::Matters::meter:
      return size + ", what the meter can tell";
    case answers::Matters::offset:
    case answers::Matters::warmth:
      break;
  }
  return size;
}

std::string leakage_in_words(const std::optional<double>& leakage_a) {
  return leakage_a ? written_a(*leakage_a) : "none in reason";
}

}  // namespace idlepoint::report
