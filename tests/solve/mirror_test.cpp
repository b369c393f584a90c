// Oracle: turn every source about, npn into pnp and n into p: every voltage and current of the
// stage turns about and nothing else. And energy: what the sources give, the parts take.
#include <algorithm>

#include "sample_boards.hpp"

namespace idlepoint::solve {
namespace {

using circuit::Circuit;
using circuit::PartKind;

PartKind mirrored(PartKind kind) {
  switch (kind) {
    case PartKind::npn:
      return PartKind::pnp;
    case PartKind::pnp:
      return PartKind::npn;
    case PartKind::n_jfet:
      return PartKind::p_jfet;
    case PartKind::p_jfet:
      return PartKind::n_jfet;
    case PartKind::n_mosfet:
      return PartKind::p_mosfet;
    case PartKind::p_mosfet:
      return PartKind::n_mosfet;
    default:
      return kind;
  }
}

Board mirrored(Board board) {
  for (auto& rail : board.circuit.rails) rail.nominal_v = -rail.nominal_v;
  for (auto& type : board.circuit.types) type.kind = mirrored(type.kind);
  for (auto& part : board.circuit.parts) {
    part.kind = mirrored(part.kind);
    if (part.kind == PartKind::hold) part.value = -part.value;
    if (part.kind == PartKind::feed || part.kind == PartKind::diode) {
      std::swap(part.leads[0], part.leads[1]);
    }
  }
  return board;
}

void check_mirror(const Board& board) {
  const Settled stage = settle(board);
  const Settled other = settle(mirrored(board));
  for (std::size_t k = 0; k < board.circuit.nodes.size(); ++k) {
    const circuit::NodeId node{k};
    CAPTURE(board.circuit.nodes[k].name);
    CHECK_THAT(other.point.voltage_v(node), WithinAbs(-stage.point.voltage_v(node), 1e-12));
  }
  for (std::size_t k = 0; k < board.circuit.parts.size(); ++k) {
    const circuit::PartId part{k};
    CAPTURE(board.circuit.parts[k].name);
    const double power_w = stage.point.part(part).power_w;
    CHECK_THAT(other.point.part(part).power_w, WithinAbs(power_w, 1e-12 * (1.0 + power_w)));
    CHECK(other.point.part(part).conduction == stage.point.part(part).conduction);
  }
  CHECK_THAT(other.point.total_power_w(), WithinRel(stage.point.total_power_w(), 1e-12));
}

/// Sources' power less everything that heat, light and stand-ins take.
double unaccounted_w(const Settled& stage) {
  double sum = stage.point.total_power_w();
  for (std::size_t k = 0; k < stage.circuit.rails.size(); ++k) {
    const double amps = stage.delivered_a(k);
    sum -= amps * amps * stage.circuit.rails[k].resistance_ohm;
  }
  for (std::size_t k = 0; k < stage.circuit.parts.size(); ++k) {
    sum -= stage.point.part(circuit::PartId{k}).power_w;
  }
  for (std::size_t k = 0; k < stage.circuit.nodes.size(); ++k) {
    const double v = stage.point.voltage_v(circuit::NodeId{k});
    sum -= 0.5e-12 * v * v;
  }
  return sum;
}

}  // namespace

TEST_CASE("A stage turned about has every voltage turned about", "[solve][identity]") {
  const auto which = GENERATE(range(std::size_t{0}, std::size_t{5}));
  CAPTURE(which);
  check_mirror(sample_boards()[which]);
}

TEST_CASE("Random circuits mirror", "[solve][identity]") {
  const auto seed = GENERATE(range(0U, 40U));
  CAPTURE(seed);
  check_mirror(random_board(seed));
}

TEST_CASE("The rails give what parts and rail resistances take", "[solve][identity]") {
  const auto which = GENERATE(range(std::size_t{0}, std::size_t{5}));
  const Settled stage = settle(sample_boards()[which]);
  CAPTURE(which);
  CHECK(std::abs(unaccounted_w(stage)) <= 1e-10 * stage.point.total_power_w());
}

TEST_CASE("Energy balances in random circuits with feeds and holds", "[solve][identity]") {
  const auto seed = GENERATE(range(0U, 60U));
  const Settled stage = settle(random_board(seed));
  CAPTURE(seed);
  CHECK(std::abs(unaccounted_w(stage)) <= 1e-10 * (1.0 + stage.point.total_power_w()));
}

TEST_CASE("No passive part of a random circuit gives power", "[solve][identity]") {
  const auto seed = GENERATE(range(0U, 60U));
  const Settled stage = settle(random_board(seed));
  for (std::size_t k = 0; k < stage.circuit.parts.size(); ++k) {
    const PartKind kind = stage.circuit.parts[k].kind;
    if (kind == PartKind::hold || kind == PartKind::feed) continue;
    CAPTURE(seed, stage.circuit.parts[k].name);
    CHECK(stage.point.part(circuit::PartId{k}).power_w >= -1e-12);
  }
}

TEST_CASE("Resistors and diodes of a stage heat by I R and by I V", "[solve][identity]") {
  const Settled stage = settle(output_stage());
  const double amps = stage.amps("R11");
  CHECK_THAT(stage.watts("R11"), WithinRel(amps * amps * 0.22, 1e-9));
  CHECK_THAT(stage.watts("D1"),
             WithinRel((stage.volts("vn") - stage.volts("out")) * stage.amps("D1"), 1e-9));
  CHECK_THAT(stage.watts("I1"),
             WithinRel((stage.volts("vp") - stage.volts("hi")) * stage.amps("I1"), 1e-9));
}

}  // namespace idlepoint::solve
