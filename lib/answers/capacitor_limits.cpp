#include "answers/capacitor_limits.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace idlepoint::answers {
namespace {

struct LossRow {
  double rated_v;
  double tan_delta;
};

constexpr auto loss_table = std::to_array<LossRow>({{6.3, 0.23},
                                                    {10.0, 0.20},
                                                    {16.0, 0.16},
                                                    {25.0, 0.14},
                                                    {35.0, 0.12},
                                                    {50.0, 0.10},
                                                    {63.0, 0.09},
                                                    {100.0, 0.08},
                                                    {160.0, 0.12},
                                                    {200.0, 0.14},
                                                    {250.0, 0.17},
                                                    {350.0, 0.20},
                                                    {400.0, 0.25},
                                                    {450.0, 0.25}});

constexpr double microfarad = 1e-6;
constexpr double microampere = 1e-6;
constexpr double large_f = 1000.0 * microfarad;
constexpr double loss_of_each_large = 0.02;
constexpr double low_voltage_v = 100.0;  ///< Up to here the first formula of the leakage holds.
constexpr double least_leakage_ua = 3.0;
constexpr double large_charge = 1000.0;  ///< C V in uF V.
/// A meter that reads below this reads as the limit is specified: 100 and 120 Hz.
constexpr double low_frequency_hz = 130.0;
constexpr double limit_rounding = 1e-9;

const LossRow& row_of(double rated_v) noexcept {
  const LossRow* row = loss_table.data();
  for (const LossRow& one : loss_table) {
    if (one.rated_v <= rated_v * (1.0 + limit_rounding)) row = &one;
  }
  return *row;
}

CapacitorLimit judge_capacitance(double value_f, double measured_f) {
  CapacitorLimit limit;
  limit.what = CapacitorQuantity::capacitance;
  limit.measured = measured_f;
  limit.low = value_f * (1.0 - life_capacitance);
  limit.high = value_f * (1.0 + life_capacitance);
  limit.limit = measured_f < value_f ? *limit.low : *limit.high;
  limit.ok = measured_f >= *limit.low * (1.0 - limit_rounding) &&
             measured_f <= *limit.high * (1.0 + limit_rounding);
  limit.life_ended = !limit.ok;
  return limit;
}

CapacitorLimit judge_esr(const CapacitorFigures& figures) {
  CapacitorLimit limit;
  limit.what = CapacitorQuantity::esr;
  limit.measured = *figures.esr_ohm;
  limit.limit = esr_limit_ohm(figures.value_f, *figures.rated_v);
  limit.ok = limit.measured <= limit.limit * (1.0 + limit_rounding);
  limit.life_ended = limit.measured > life_loss * limit.limit;
  if (figures.frequency_hz.value_or(loss_frequency_hz) > low_frequency_hz) {
    limit.worth = Worth::high_frequency;
  }
  return limit;
}

CapacitorLimit judge_leakage(const CapacitorFigures& figures) {
  CapacitorLimit limit;
  limit.what = CapacitorQuantity::leakage;
  limit.measured = *figures.leakage_a;
  limit.limit = leakage_limit_a(figures.value_f, *figures.rated_v);
  limit.ok = limit.measured <= limit.limit * (1.0 + limit_rounding);
  limit.life_ended = !limit.ok;
  const double at_v = figures.leakage_at_v.value_or(*figures.rated_v);
  if (at_v < *figures.rated_v * (1.0 - limit_rounding)) limit.worth = Worth::low_voltage;
  return limit;
}

}  // namespace

double table_voltage(double rated_v) noexcept { return row_of(rated_v).rated_v; }

double tan_delta_limit(double value_f, double rated_v) noexcept {
  const double above = std::max(0.0, value_f - large_f) / large_f;
  return row_of(rated_v).tan_delta + loss_of_each_large * above;
}

double esr_limit_ohm(double value_f, double rated_v) noexcept {
  return tan_delta_limit(value_f, rated_v) / (2.0 * std::numbers::pi * loss_frequency_hz * value_f);
}

double leakage_limit_a(double value_f, double rated_v) noexcept {
  const double charge = value_f / microfarad * rated_v;
  if (rated_v <= low_voltage_v) return std::max(0.01 * charge, least_leakage_ua) * microampere;
  if (charge <= large_charge) return (0.03 * charge + 15.0) * microampere;
  return (0.02 * charge + 25.0) * microampere;
}

int leakage_minutes(double rated_v) noexcept { return rated_v <= low_voltage_v ? 2 : 5; }

CapacitorVerdict judge(const CapacitorFigures& figures) {
  CapacitorVerdict verdict{figures, {}, true};
  if (figures.capacitance_f) {
    verdict.limits.push_back(judge_capacitance(figures.value_f, *figures.capacitance_f));
  }
  verdict.lacks_voltage = !figures.rated_v && (figures.esr_ohm || figures.leakage_a);
  if (figures.rated_v && figures.esr_ohm) verdict.limits.push_back(judge_esr(figures));
  if (figures.rated_v && figures.leakage_a) verdict.limits.push_back(judge_leakage(figures));
  verdict.keep = std::all_of(verdict.limits.begin(),
                             verdict.limits.end(),
                             [](const CapacitorLimit& limit) { return limit.ok; });
  return verdict;
}

}  // namespace idlepoint::answers
