#include "solve/assembly.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "devices/passive.hpp"
#include "solve/limiting.hpp"

namespace idlepoint::solve {
namespace {

/// What every family of poles reads and writes.
struct Pass {
  const Numbers& numbers;
  const Drive& drive;
  Limiting limiting;
  State& state;
  Work& work;
  bool all_arrived = true;

  [[nodiscard]] double across(const TwoPoleStamp& stamp) const {
    return work.point_v[at(stamp.a)] - work.point_v[at(stamp.b)];
  }

  /// Remembers the voltage to evaluate at, and notes whether it is the one asked for.
  double move(double proposed_v, double limited_v, double& remembered_v) {
    if (limiting == Limiting::off) {
      remembered_v = proposed_v;
    } else if (!state.holds_junctions) {
      remembered_v = limited_v;
    }
    all_arrived = all_arrived && remembered_v == proposed_v;
    return remembered_v;
  }
};

void stamp_two_pole(const TwoPoleStamp& stamp, const TwoPoleTangent& tangent, Work& work) {
  work.balance_a[at(stamp.row_a)] += tangent.current_a;
  work.balance_a[at(stamp.row_b)] -= tangent.current_a;
  work.slopes_s[at(stamp.aa)] += tangent.conductance_s;
  work.slopes_s[at(stamp.ab)] -= tangent.conductance_s;
  work.slopes_s[at(stamp.ba)] -= tangent.conductance_s;
  work.slopes_s[at(stamp.bb)] += tangent.conductance_s;
}

void stamp_three_pole(const ThreePoleStamp& stamp, const ThreePoleTangent& t, Work& work) {
  work.balance_a[at(stamp.rows[0])] += t.current_0_a;
  work.balance_a[at(stamp.rows[1])] += t.current_1_a;
  work.balance_a[at(stamp.rows[2])] -= t.current_0_a + t.current_1_a;
  const double s02 = -(t.s00 + t.s01);
  const double s12 = -(t.s10 + t.s11);
  const auto& slots = stamp.slots;
  work.slopes_s[at(slots[0])] += t.s00;
  work.slopes_s[at(slots[1])] += t.s01;
  work.slopes_s[at(slots[2])] += s02;
  work.slopes_s[at(slots[3])] += t.s10;
  work.slopes_s[at(slots[4])] += t.s11;
  work.slopes_s[at(slots[5])] += s12;
  work.slopes_s[at(slots[6])] -= t.s00 + t.s10;
  work.slopes_s[at(slots[7])] -= t.s01 + t.s11;
  work.slopes_s[at(slots[8])] -= s02 + s12;
}

void assemble_conductors(const System& system, Pass& pass) {
  for (std::size_t k = 0; k < system.conductors.size(); ++k) {
    const TwoPoleStamp& stamp = system.conductors[k];
    const double current_a = pass.numbers.conductance_s[k] * pass.across(stamp);
    pass.work.balance_a[at(stamp.row_a)] += current_a;
    pass.work.balance_a[at(stamp.row_b)] -= current_a;
  }
  for (const InsulationStamp& stamp : system.insulation) {
    pass.work.balance_a[at(stamp.row)] += insulation_s * pass.work.point_v[at(stamp.point)];
  }
}

void assemble_diodes(const System& system, Pass& pass) {
  for (std::size_t k = 0; k < system.diodes.size(); ++k) {
    const TwoPoleStamp& stamp = system.diodes[k];
    const DiodeNumbers& diode = pass.numbers.diodes[k];
    double& remembered = pass.state.diode_v[k];
    const double proposed_v = pass.across(stamp) / diode.count;
    const double v =
        pass.move(proposed_v, limited_diode(diode, proposed_v, remembered), remembered);
    const devices::JunctionTangent law = devices::evaluate_diode(diode.at, v);
    TwoPoleTangent& tangent = pass.work.diodes[k];
    tangent.current_a = law.current_a + law.conductance_s * (proposed_v - v);
    tangent.conductance_s = law.conductance_s / diode.count;
    stamp_two_pole(stamp, tangent, pass.work);
  }
}

void assemble_lamps(const System& system, Pass& pass) {
  for (std::size_t k = 0; k < system.lamps.size(); ++k) {
    const LampNumbers& lamp = pass.numbers.lamps[k];
    const auto law =
        devices::evaluate_lamp(lamp.rated_v, lamp.rated_w, pass.across(system.lamps[k]));
    pass.work.lamps[k] = {law.current_a, law.conductance_s};
    stamp_two_pole(system.lamps[k], pass.work.lamps[k], pass.work);
  }
}

void assemble_feeds(const System& system, Pass& pass) {
  for (std::size_t k = 0; k < system.feeds.size(); ++k) {
    const FeedNumbers& feed = pass.numbers.feeds[k];
    const double value_a = pass.drive.sources * feed.value_a;
    TwoPoleTangent& tangent = pass.work.feeds[k];
    tangent = {value_a, 0.0};
    if (feed.compliance_v) {
      double& remembered = pass.state.feed_v[k];
      const double proposed_v = pass.across(system.feeds[k]);
      const double v = pass.move(
          proposed_v, limited_feed(*feed.compliance_v, proposed_v, remembered), remembered);
      const auto law = devices::evaluate_feed(value_a, *feed.compliance_v, v);
      tangent = {law.current_a + law.conductance_s * (proposed_v - v), law.conductance_s};
    }
    stamp_two_pole(system.feeds[k], tangent, pass.work);
  }
}

void assemble_bipolars(const System& system, Pass& pass) {
  for (std::size_t k = 0; k < system.bipolars.size(); ++k) {
    const ThreePoleStamp& stamp = system.bipolars[k];
    const BipolarNumbers& bipolar = pass.numbers.bipolars[k];
    const double sign = bipolar.sign;
    const double base_v = pass.work.point_v[at(stamp.points[1])];
    const double asked_ube = sign * (base_v - pass.work.point_v[at(stamp.points[2])]);
    const double asked_ubc = sign * (base_v - pass.work.point_v[at(stamp.points[0])]);
    auto& remembered = pass.state.bipolar_v[k];
    const double ube = pass.move(
        asked_ube, limited_base_emitter(bipolar, asked_ube, remembered[0]), remembered[0]);
    const double ubc = pass.move(
        asked_ubc, limited_base_collector(bipolar, asked_ubc, remembered[1]), remembered[1]);
    const devices::BipolarTangent law = devices::evaluate_bipolar(bipolar.at, ube, ubc);
    const double dube = asked_ube - ube;
    const double dubc = asked_ubc - ubc;
    ThreePoleTangent& t = pass.work.bipolars[k];
    t.current_0_a =
        sign * (law.collector_a + law.collector_by_ube_s * dube + law.collector_by_ubc_s * dubc);
    t.current_1_a = sign * (law.base_a + law.base_by_ube_s * dube + law.base_by_ubc_s * dubc);
    t.s00 = -law.collector_by_ubc_s;
    t.s01 = law.collector_by_ube_s + law.collector_by_ubc_s;
    t.s10 = -law.base_by_ubc_s;
    t.s11 = law.base_by_ube_s + law.base_by_ubc_s;
    stamp_three_pole(stamp, t, pass.work);
  }
}

void assemble_fets(const System& system, Pass& pass) {
  for (std::size_t k = 0; k < system.fets.size(); ++k) {
    const ThreePoleStamp& stamp = system.fets[k];
    const FetNumbers& fet = pass.numbers.fets[k];
    const double sign = fet.sign;
    const double n = fet.at.slope_factor;
    const double source_v = pass.work.point_v[at(stamp.points[2])];
    const double asked_ugs = sign * (pass.work.point_v[at(stamp.points[1])] - source_v);
    const double asked_uds = sign * (pass.work.point_v[at(stamp.points[0])] - source_v);
    const double asked_ugd = asked_ugs - n * asked_uds;
    auto& remembered = pass.state.fet_v[k];
    const double ugs =
        pass.move(asked_ugs, limited_gate(fet, asked_ugs, remembered[0]), remembered[0]);
    const double ugd =
        pass.move(asked_ugd, limited_gate(fet, asked_ugd, remembered[1]), remembered[1]);
    const double uds = ugs == asked_ugs && ugd == asked_ugd ? asked_uds : (ugs - ugd) / n;
    const devices::FetTangent law = devices::evaluate_fet(fet.at, ugs, uds);
    ThreePoleTangent& t = pass.work.fets[k];
    t.current_0_a =
        sign * (law.drain_a + law.by_ugs_s * (asked_ugs - ugs) + law.by_uds_s * (asked_uds - uds));
    t.current_1_a = 0.0;
    t.s00 = law.by_uds_s;
    t.s01 = law.by_ugs_s;
    stamp_three_pole(stamp, t, pass.work);
  }
}

void apply_drive(const System& system, const Drive& drive, const State& state, Work& work) {
  const double extra_s = drive.shunt_s + drive.inertia_s;
  if (extra_s == 0.0) return;
  for (Index k = 0; k < system.unknowns; ++k) {
    work.balance_a[at(k)] += drive.shunt_s * state.x[at(k)];
    if (drive.inertia_s > 0.0) {
      work.balance_a[at(k)] += drive.inertia_s * (state.x[at(k)] - drive.anchor[at(k)]);
    }
    work.slopes_s[at(system.elimination.diagonal_slot(k))] += extra_s;
  }
}

/// Sources that stand on ground bound the points by their potentials, others by their sum.
void find_bounds(const System& system, const Numbers& numbers, Work& work) {
  double floating_v = system.feeds.empty() ? 0.0 : std::numeric_limits<double>::infinity();
  work.lowest_v = 0.0;
  work.highest_v = 0.0;
  for (const OffsetStep& step : system.offsets) {
    if (system.unknown_of[at(step.point)] == system.unknowns) {
      work.lowest_v = std::min(work.lowest_v, work.offset_v[at(step.point)]);
      work.highest_v = std::max(work.highest_v, work.offset_v[at(step.point)]);
    } else {
      floating_v += std::abs(numbers.emf_v[step.ideal]);
    }
  }
  work.lowest_v -= floating_v;
  work.highest_v += floating_v;
}

}  // namespace

void prepare(const System& system, const Numbers& numbers, Work& work) {
  const std::size_t rows = at(system.unknowns) + 1;
  const std::size_t slots = at(system.elimination.slots());
  work.point_v.resize(at(system.wiring.points));
  for (auto* array : {&work.balance_a, &work.step, &work.scratch, &work.product, &work.right}) {
    array->resize(rows);
  }
  work.slopes_s.resize(slots);
  work.factors.resize(slots);
  work.diodes.resize(system.diodes.size());
  work.lamps.resize(system.lamps.size());
  work.feeds.resize(system.feeds.size());
  work.bipolars.resize(system.bipolars.size());
  work.fets.resize(system.fets.size());

  work.fixed_slopes_s.assign(slots, 0.0);
  for (std::size_t k = 0; k < system.conductors.size(); ++k) {
    const TwoPoleStamp& stamp = system.conductors[k];
    work.fixed_slopes_s[at(stamp.aa)] += numbers.conductance_s[k];
    work.fixed_slopes_s[at(stamp.ab)] -= numbers.conductance_s[k];
    work.fixed_slopes_s[at(stamp.ba)] -= numbers.conductance_s[k];
    work.fixed_slopes_s[at(stamp.bb)] += numbers.conductance_s[k];
  }
  for (const InsulationStamp& stamp : system.insulation) {
    work.fixed_slopes_s[at(stamp.slot)] += insulation_s;
  }
  work.offset_v.assign(at(system.wiring.points), 0.0);
  for (const OffsetStep& step : system.offsets) {
    work.offset_v[at(step.point)] =
        work.offset_v[at(step.from)] + step.sign * numbers.emf_v[step.ideal];
  }
  find_bounds(system, numbers, work);
}

bool assemble(const System& system,
              const Numbers& numbers,
              const Drive& drive,
              Limiting limiting,
              State& state,
              Work& work) {
  for (std::size_t k = 0; k < work.point_v.size(); ++k) {
    work.point_v[k] = state.x[at(system.unknown_of[k])] + drive.sources * work.offset_v[k];
  }
  std::copy(work.fixed_slopes_s.begin(), work.fixed_slopes_s.end(), work.slopes_s.begin());
  std::fill(work.balance_a.begin(), work.balance_a.end(), 0.0);
  Pass pass{numbers, drive, limiting, state, work};
  assemble_conductors(system, pass);
  assemble_diodes(system, pass);
  assemble_lamps(system, pass);
  assemble_feeds(system, pass);
  assemble_bipolars(system, pass);
  assemble_fets(system, pass);
  apply_drive(system, drive, state, work);
  state.holds_junctions = false;
  return pass.all_arrived;
}

}  // namespace idlepoint::solve
