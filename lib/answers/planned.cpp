#include "answers/planned.hpp"

#include <algorithm>
#include <cmath>

namespace idlepoint::answers {
namespace {

using circuit::Measurement;

/// From place to place of a size, of its range from -1 to 1: a leak's ohms change by a quarter, a
/// drift by a tenth, and the straight line between is off by 1 in 100 at most.
constexpr double step_of_size = 0.05;

}  // namespace

std::optional<Planned::Key> Planned::key_of(const Measurement& measurement, Slopes slopes) {
  if (const auto* ohms = std::get_if<circuit::OhmsBetween>(&measurement)) {
    return Key{slopes, 1, ohms->a.index, ohms->b.index};
  }
  if (const auto* diode = std::get_if<circuit::DiodeBetween>(&measurement)) {
    return Key{slopes, 2, diode->a.index, diode->b.index};
  }
  const auto* volts = std::get_if<circuit::VoltsBetween>(&std::get<circuit::Probe>(measurement));
  if (volts == nullptr) return std::nullopt;
  return Key{slopes, 0, volts->a.index, volts->b.index};
}

bool Planned::is_of(const Known& known, const Standing& from) {
  return std::ranges::equal(known.place->u, from.u) && std::ranges::equal(known.place->t, from.t);
}

void Planned::keep(const std::vector<Measurement>& measurements,
                   const Shown& shown,
                   const Standing& at,
                   Slopes slopes,
                   Table& table) {
  const auto place =
      std::make_shared<const Place>(Place{{at.u.begin(), at.u.end()}, {at.t.begin(), at.t.end()}});
  for (std::size_t k = 0; k < measurements.size(); ++k) {
    table[*key_of(measurements[k], slopes)] = {shown.values[k], shown.by_draw[k], place};
  }
}

Shown Planned::read(const Table& table,
                    const std::vector<Measurement>& measurements,
                    const Standing& at,
                    Slopes slopes) {
  Shown shown;
  for (const Measurement& one : measurements) {
    const Known& known = table.at(*key_of(one, slopes));
    double value = known.value;
    for (std::size_t k = 0; k < at.u.size(); ++k) {
      value += known.by_draw[k] * (at.u[k] - known.place->u[k]);
    }
    for (std::size_t s = 0; s < at.t.size(); ++s) {
      value += known.by_draw[at.u.size() + s] * (at.t[s] - known.place->t[s]);
    }
    shown.values.push_back(value);
    shown.by_draw.push_back(known.by_draw);
  }
  return shown;
}

std::optional<Shown> Planned::show_off(const PlannedStage& planned,
                                       const std::vector<Measurement>& measurements,
                                       const Standing& at,
                                       Slopes slopes) {
  std::vector<long> steps;
  std::vector<double> sizes;
  for (const double size : at.t) {
    steps.push_back(std::lround(size / step_of_size));
    sizes.push_back(step_of_size * static_cast<double>(steps.back()));
  }
  Table& table = off_[steps];
  std::vector<Measurement> unknown;
  std::copy_if(
      measurements.begin(), measurements.end(), std::back_inserter(unknown), [&](const auto& one) {
        return !table.contains(*key_of(one, slopes));
      });
  if (!unknown.empty()) {
    const std::vector<double> middle(at.u.size(), 0.0);
    BenchStage bench(planned.stage, planned.conditions, planned.sized, unknown, planned.sound);
    const auto shown = bench.show(middle, sizes, slopes);
    if (!shown) return std::nullopt;
    keep(unknown, *shown, {middle, sizes}, slopes, table);
  }
  return read(table, measurements, at, slopes);
}

std::optional<Shown> Planned::show_on(BenchStage& bench,
                                      const std::vector<Measurement>& measurements,
                                      const Standing& from,
                                      const Standing& at) {
  std::vector<Measurement> unknown;
  std::vector<circuit::Probe> probes;
  for (const Measurement& one : measurements) {
    const auto key = key_of(one, Slopes::of_all);
    if (!key) return std::nullopt;
    const auto known = on_.find(*key);
    if (known != on_.end() && is_of(known->second, from)) continue;
    unknown.push_back(one);
    probes.push_back(std::get<circuit::Probe>(one));
  }
  if (!unknown.empty()) {
    const auto shown = bench.foresee(probes, from.u, from.t);
    if (!shown) return std::nullopt;
    keep(unknown, *shown, from, Slopes::of_all, on_);
  }
  return read(on_, measurements, at, Slopes::of_all);
}

}  // namespace idlepoint::answers
