#include "shelf/one_transistor.hpp"

#include "language/write_parts.hpp"
#include "published/solve_text.hpp"

namespace idlepoint::shelf {
namespace {

using tests::Solved;

// 1 teraohm ties to gnd what only currents feed; it takes a picoampere.
tests::Solved solved_with(const circuit::PartType& type, const std::string& circuit) {
  const auto text = "stage \"One part\"\nambient 25C\n" + circuit + language::write_type(type);
  return tests::solved(tests::drawn(text));
}

// Emitter current drawn out of an npn, pushed into a pnp; the base on gnd, the collector held.
Solved with_emitter_current(const circuit::PartType& type, double emitter_a, double cb_v) {
  const bool npn = type.kind == circuit::PartKind::npn;
  return solved_with(
      type,
      fmt::format("hold V1 c gnd {}V\nfeed I1 {}A {} compliance=none\nresistor R1 e gnd 1000G\n"
                  "{} Q1 c=c b=gnd e=e type={}\n",
                  npn ? cb_v : -cb_v,
                  emitter_a,
                  npn ? "from=e into=gnd" : "from=gnd into=e",
                  npn ? "npn" : "pnp",
                  type.name));
}

}  // namespace

Conducting conducting(const circuit::PartType& type, double collector_a, double vce_v) {
  double gain = 1e9;
  double vbe_v = 0.0;
  // Neither changes much with the other: four rounds leave less than 0.1 %.
  for (int round = 0; round < 4; ++round) {
    const auto stage = with_emitter_current(type, collector_a * (1.0 + 1.0 / gain), vce_v - vbe_v);
    const double base_a = tests::base_current_a(stage, "Q1");
    gain = tests::lead_current_a(stage, "Q1", 0) / base_a;
    vbe_v = std::abs(stage("volts e gnd"));
  }
  return {gain, vbe_v};
}

Bottomed bottomed(const circuit::PartType& type, double collector_a, double base_a) {
  const bool npn = type.kind == circuit::PartKind::npn;
  const auto way = [npn](const char* node) {
    return npn ? fmt::format("from=gnd into={}", node) : fmt::format("from={} into=gnd", node);
  };
  const auto stage =
      solved_with(type,
                  fmt::format("feed I1 {}A {} compliance=none\nfeed I2 {}A {} compliance=none\n"
                              "resistor R1 c gnd 1000G\nresistor R2 b gnd 1000G\n"
                              "{} Q1 c=c b=b e=gnd type={}\n",
                              collector_a,
                              way("c"),
                              base_a,
                              way("b"),
                              npn ? "npn" : "pnp",
                              type.name));
  return {std::abs(stage("volts c gnd")), std::abs(stage("volts b gnd"))};
}

double forward_v(const circuit::PartType& type, double current_a) {
  const auto stage =
      solved_with(type,
                  fmt::format("feed I1 {}A from=gnd into=a compliance=none\n"
                              "resistor R1 a gnd 1000G\ndiode D1 anode=a cathode=gnd type={}\n",
                              current_a,
                              type.name));
  return stage("volts a gnd");
}

}  // namespace idlepoint::shelf
