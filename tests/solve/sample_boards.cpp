#include "sample_boards.hpp"

#include <random>

namespace idlepoint::solve {

using circuit::PartKind;
using circuit::TypeId;

Board junction_behind_resistor() {
  Board board;
  const TypeId type = board.diode_type(small_diode());
  board.rail("vp", 10.0).resistor("R1", "vp", "a", 4.7e3).diode("D1", "a", "gnd", type);
  return board;
}

Board feedback_pair() {
  Board board;
  const TypeId npn = board.bipolar_type(PartKind::npn, small_transistor());
  board.rail("vp", 20.0, 0.1);
  board.resistor("R1", "vp", "c1", 33e3).resistor("R2", "vp", "c2", 4.7e3);
  board.resistor("R3", "e2", "gnd", 1e3).resistor("R4", "e2", "b1", 100e3);
  board.resistor("R5", "e1", "gnd", 220.0);
  board.transistor("Q1", "c1", "b1", "e1", npn).transistor("Q2", "c2", "c1", "e2", npn);
  return board;
}

Board output_stage() {
  Board board;
  const TypeId npn = board.bipolar_type(PartKind::npn, small_transistor());
  const TypeId pnp = board.bipolar_type(PartKind::pnp, small_transistor());
  devices::BipolarData power = small_transistor();
  power.saturation_current_a = 3e-12;
  power.gain = 60.0;
  power.knee_current_a = 4.0;
  power.base_resistance_ohm = 3.0;
  power.collector_resistance_ohm = 0.1;
  power.emitter_resistance_ohm = 0.02;
  const TypeId power_npn = board.bipolar_type(PartKind::npn, power);
  const TypeId power_pnp = board.bipolar_type(PartKind::pnp, power);
  const TypeId diode = board.diode_type(small_diode());
  board.rail("vp", 24.0, 0.15).rail("vn", -24.0, 0.15);
  board.feed("I1", "vp", "hi", 5e-3).hold("V1", "lo", "gnd", -1.21);
  board.transistor("Q3", "hi", "x", "lo", npn).resistor("R8", "hi", "t", 820.0);
  board.trimmer("VR1", "t", "x", "x", 1e3).resistor("R9", "x", "lo", 470.0);
  board.transistor("Q4", "vp", "hi", "d_hi", npn).transistor("Q5", "vn", "lo", "d_lo", pnp);
  board.resistor("R10", "d_hi", "d_lo", 150.0);
  board.transistor("Q6", "vp", "d_hi", "e_hi", power_npn);
  board.transistor("Q7", "vn", "d_lo", "e_lo", power_pnp);
  board.resistor("R11", "e_hi", "out", 0.22).resistor("R12", "out", "e_lo", 0.22);
  board.resistor("R13", "out", "gnd", 1e3).diode("D1", "vn", "out", diode);
  board.capacitor("C1", "out", "z").resistor("R14", "z", "gnd", 10.0).link("L1", "out", "o2");
  return board;
}

Board fet_stage() {
  Board board;
  const TypeId jfet = board.fet_type(PartKind::n_jfet, small_jfet());
  const TypeId nmos = board.fet_type(PartKind::n_mosfet, small_mosfet());
  const TypeId pmos = board.fet_type(PartKind::p_mosfet, small_mosfet());
  board.rail("vp", 18.0, 0.2).rail("vn", -18.0, 0.2);
  board.resistor("R1", "g1", "gnd", 1e6).resistor("R2", "g2", "gnd", 47e3);
  board.transistor("Q1", "d1", "g1", "s", jfet).transistor("Q2", "d2", "g2", "s", jfet);
  board.resistor("R3", "s", "vn", 8.2e3).resistor("R4", "vp", "d1", 3.3e3);
  board.resistor("R5", "vp", "d2", 3.3e3);
  board.transistor("Q3", "vp", "d2", "s3", nmos).resistor("R6", "s3", "out", 100.0);
  board.resistor("R7", "out", "gnd", 1e3).resistor("R8", "d1", "g4", 1e3);
  board.transistor("Q4", "d4", "g4", "vp", pmos).resistor("R9", "d4", "gnd", 470.0);
  return board;
}

Board regulator() {
  Board board;
  devices::DiodeData zener = small_diode();
  zener.zener_voltage_v = 9.1;
  zener.zener_test_current_a = 5e-3;
  const TypeId zener_type = board.diode_type(zener);
  const TypeId pnp = board.bipolar_type(PartKind::pnp, small_transistor());
  const TypeId npn = board.bipolar_type(PartKind::npn, small_transistor());
  board.rail("vp", 30.0, 0.3);
  board.lamp("LA1", "vp", "f", 24.0, 3.0).diode("D1", "gnd", "z", zener_type);
  board.resistor("R1", "f", "z", 2.2e3).resistor("R2", "f", "b", 1e3);
  board.transistor("Q1", "out", "b", "f", pnp).transistor("Q2", "b", "z", "e", npn);
  board.resistor("R3", "e", "d", 100.0).resistor("R4", "out", "d", 1.5e3);
  board.resistor("R5", "d", "gnd", 1.2e3).resistor("R6", "out", "gnd", 680.0);
  return board;
}

std::vector<Board> sample_boards() {
  return {junction_behind_resistor(), feedback_pair(), output_stage(), fet_stage(), regulator()};
}

namespace {

/// Draws parts between random nodes.
class Scatterer {
 public:
  explicit Scatterer(unsigned seed) : random_(seed) {
    for (const PartKind kind : {PartKind::npn, PartKind::pnp}) {
      types_.push_back(board_.bipolar_type(kind, small_transistor()));
    }
    for (const PartKind kind : {PartKind::n_mosfet, PartKind::p_mosfet}) {
      types_.push_back(board_.fet_type(kind, small_mosfet()));
    }
    for (const PartKind kind : {PartKind::n_jfet, PartKind::p_jfet}) {
      types_.push_back(board_.fet_type(kind, small_jfet()));
    }
  }

  [[nodiscard]] Board scatter() {
    const TypeId diode = board_.diode_type(small_diode());
    board_.rail("n0", 15.0, 0.3).rail("n1", -12.0, 0.0);
    for (int k = 2; k < nodes; ++k) {
      const auto rest = numbered("n", below(3));
      board_.resistor(numbered("RN", k), numbered("n", k), k % 2 == 0 ? "gnd" : rest, ohm());
    }
    for (int k = 0; k < 6; ++k) board_.resistor(numbered("R", k), any(), any(), ohm());
    for (int k = 0; k < 2; ++k) board_.diode(numbered("D", k), any(), any(), diode);
    for (int k = 0; k < 4; ++k) {
      const TypeId type = types_[static_cast<std::size_t>(below(6))];
      board_.transistor(numbered("Q", k), any(), any(), any(), type);
    }
    board_.feed("I1", "n0", any(), 2e-3).lamp("LA1", any(), any(), 12.0, 2.0);
    board_.trimmer("VR1", any(), any(), any(), 2e3);
    // Onto nodes of their own, so that no ideal loop contradicts itself.
    board_.hold("V1", "h1", any(), 1.3).resistor("RH", "h1", any(), ohm());
    board_.link("L1", "h2", any()).resistor("RL", "h2", any(), ohm());
    return board_;
  }

 private:
  static constexpr int nodes = 9;

  int below(int end) { return std::uniform_int_distribution<int>(0, end - 1)(random_); }
  std::string any() {
    const int k = below(nodes + 1);
    return k == nodes ? "gnd" : numbered("n", k);
  }
  double ohm() { return std::pow(10.0, std::uniform_real_distribution<double>(1.5, 5.0)(random_)); }

  Board board_;
  std::mt19937 random_;
  std::vector<TypeId> types_;
};

}  // namespace

Board random_board(unsigned seed) { return Scatterer(seed).scatter(); }

}  // namespace idlepoint::solve
