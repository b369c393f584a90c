// Values that no part of an output stage has: a milli for a mega, farads for microfarads.
#include <fmt/format.h>

#include <array>
#include <cmath>

#include "circuit/sentence.hpp"
#include "circuit/topology_checks.hpp"
#include "circuit/topology_words.hpp"
#include "values/format.hpp"

namespace idlepoint::circuit {
namespace {

using values::Unit;

/// What the trade fits; zero is judged elsewhere.
struct Usual {
  PartKind kind;
  double least;
  double most;
  Unit unit;
};

constexpr std::array<Usual, 9> usual_values = {{
    {PartKind::resistor, 0.005, 100e6, Unit::ohm},
    {PartKind::trimmer, 1.0, 10e6, Unit::ohm},
    {PartKind::capacitor, 0.5e-12, 0.5, Unit::farad},
    {PartKind::inductor, 1e-9, 100.0, Unit::henry},
    {PartKind::fuse, 0.01, 63.0, Unit::ampere},
    {PartKind::thermistor, 0.5, 10e6, Unit::ohm},
    {PartKind::hold, 0.0, 400.0, Unit::volt},
    {PartKind::feed, 0.0, 20.0, Unit::ampere},
    {PartKind::load, 1.0, 2000.0, Unit::ohm},
}};

/// The largest rails of the trade's solid-state stages, with room to spare.
constexpr double most_rail_v = 250.0;
constexpr double least_rail_v = 1.0;

std::string written(double value, Unit unit) {
  return unit == Unit::ohm ? values::format_ohms(value) : values::format_value(value, unit);
}

std::string advice(const Usual& usual, double value) {
  if (usual.unit == Unit::farad && value > usual.most) {
    return "A bare number is farads: write 100u or 100uF for microfarads.";
  }
  if (usual.unit == Unit::ohm && value < usual.least) {
    return "m is a thousandth and M a million: 1m0 is 0.001 ohms, 1M0 a megohm.";
  }
  return fmt::format("{} to {} is usual; look at the prefix and the decimal point.",
                     written(usual.least, usual.unit),
                     written(usual.most, usual.unit));
}

complaints::Complaint odd(const complaints::Place& place,
                          std::string headline,
                          std::string instead) {
  return {.kind = complaints::kind("odd-value"),
          .headline = std::move(headline),
          .places = {with_remark(place, "")},
          .why = "Nothing in an output stage has a value of that size.",
          .instead = std::move(instead)};
}

void check_part_value(const Part& part, complaints::Complaints& found) {
  for (const Usual& usual : usual_values) {
    const double size = std::abs(part.value);
    const bool is_usual = size == 0.0 || (size >= usual.least && size <= usual.most);
    if (usual.kind != part.kind || is_usual) continue;
    found.push_back(
        odd(part.place,
            fmt::format(
                "{} is {} of {}", part.name, a_kind(part.kind), written(part.value, usual.unit)),
            advice(usual, size)));
  }
}

void check_ideal_feed(const Part& part, complaints::Complaints& found) {
  const auto* feed = std::get_if<FeedDetails>(&part.details);
  if (!feed || feed->compliance_v) return;
  found.push_back(
      {.kind = complaints::kind("ideal-feed"),
       .headline = fmt::format("{} feeds its current whatever the volts", part.name),
       .places = {with_remark(part.place, "")},
       .why = "No real current source does: faults tried around an ideal one mean nothing.",
       .instead = "Leave `compliance=none` out, unless an ideal source is what you want."});
}

void check_rail_value(const Circuit& circuit, const Rail& rail, complaints::Complaints& found) {
  const double size = std::abs(source_v(rail));
  if (size == 0.0 || (size >= least_rail_v && size <= most_rail_v)) return;
  found.push_back(odd(rail.place,
                      fmt::format("the rail {} is {}",
                                  quote(circuit, rail.node),
                                  values::format_value(source_v(rail), Unit::volt)),
                      "Look at the prefix and the decimal point."));
}

}  // namespace

void check_values(const Circuit& circuit, complaints::Complaints& found) {
  for (const Part& part : circuit.parts) {
    check_part_value(part, found);
    check_ideal_feed(part, found);
  }
  for (const Rail& rail : circuit.rails) check_rail_value(circuit, rail, found);
}

}  // namespace idlepoint::circuit
