#include "language/generated_stage.hpp"

#include <array>
#include <charconv>
#include <random>
#include <vector>

namespace idlepoint::language {
namespace {

struct Maker {
  std::mt19937 generator;
  std::vector<std::string> parts;        // Names, in order.
  std::vector<std::string> transistors;  // npn only: what may be matched.
  std::vector<std::string> mounted;
  std::vector<std::string> trimmers;
  std::string text;

  std::uint32_t below(std::uint32_t count) {
    return static_cast<std::uint32_t>(generator() % count);
  }
  bool toss() { return below(2) == 1; }

  // A positive number with as many digits as chance gives.
  std::string number() {
    const double value = static_cast<double>(1 + generator()) * (toss() ? 1e-6 : 3.7e-13);
    std::array<char, 40> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value).ptr;
    return {buffer.data(), end};
  }
  std::string percent() {
    return std::to_string(below(100)) + "." + std::to_string(below(9)) + "%";
  }

  // A named node, gnd, a lead of any part there is or will be, or nothing.
  std::string node() {
    const std::uint32_t choice = below(12);
    if (choice == 0) return "gnd";
    if (choice == 1) return "R" + std::to_string(below(8)) + "." + std::to_string(1 + below(2));
    if (choice == 2) return "Q" + std::to_string(below(4)) + "." + "cbe"[below(3)];
    return "n" + std::to_string(below(12));
  }
  std::string key(const std::string& name, const std::string& value) {
    return toss() ? " " + name + "=" + value : std::string();
  }
  void line(const std::string& statement) { text += statement + "\n"; }
};

void make_two_leads(Maker& make, std::uint32_t index) {
  const std::string at = std::to_string(index) + " " + make.node() + " " + make.node();
  make.line("resistor R" + at + " " + make.number() + make.key("tolerance", make.percent()) +
            make.key("power", make.number()) + make.key("tempco", "-" + make.number()));
  make.line("capacitor C" + at + " " + make.number() + make.key("leakage", make.number()) +
            make.key("voltage", make.number()));
  if (make.toss()) make.line("inductor L" + at + " 1u" + make.key("resistance", make.number()));
  if (make.toss()) make.line("fuse F" + at + " 2A" + make.key("resistance", make.number()));
  if (make.toss()) make.line("link LK" + at);
  if (make.toss()) make.line("lamp LA" + at + " voltage=" + make.number() + " power=60W");
  if (make.toss()) {
    make.line("thermistor TH" + at + " 470R" + make.key("beta", make.number()) +
              make.key("on", "HS1"));
  }
  if (make.toss()) make.line("hold V" + at + " -" + make.number());
  if (make.toss()) make.line("load LS" + at + " 8R");
  make.parts.push_back("R" + std::to_string(index));
}

void make_devices(Maker& make, std::uint32_t index) {
  const std::string name = std::to_string(index);
  make.line("npn Q" + name + " c=" + make.node() + " b=" + make.node() + " e=" + make.node() +
            " type=t.npn" + make.key("washer", make.number()) +
            make.key("coupling", make.percent()));
  make.transistors.push_back("Q" + name);
  make.line("pnp P" + name + " e=- b=" + make.node() + " c=" + make.node() + " type=t.pnp on=HS2");
  if (make.toss()) {
    make.line("diode D" + name + " anode=" + make.node() + " cathode=" + make.node() + " type=t.d" +
              make.key("junctions", std::to_string(1 + make.below(5))));
  }
  if (make.toss()) {
    make.line("n-jfet J" + name + " d=" + make.node() + " g=" + make.node() + " s=" + make.node() +
              " type=t.j");
    make.line("p-mosfet M" + name + " d=" + make.node() + " g=" + make.node() +
              " s=" + make.node() + " type=t.m");
  }
  if (make.toss()) {
    make.line("feed I" + name + " " + make.number() + " from=" + make.node() +
              " into=" + make.node() + make.key("compliance", make.toss() ? "none" : "0.7V"));
  }
}

void make_trimmer(Maker& make, std::uint32_t index) {
  const std::string name = "VR" + std::to_string(index);
  const char* const spares[] = {"tied", "free", "unknown"};
  std::string legs = " a w";
  std::string spare;
  if (make.toss()) {
    legs = " " + make.node() + " " + make.node();
    if (make.toss()) spare = std::string(" spare=") + spares[make.below(3)];
  } else {
    legs = " b " + make.node() + " a";  // Nodes that bear the names of the other ends.
  }
  make.line("trimmer " + name + legs + " " + make.number() + spare +
            make.key("at", make.percent()) + make.key("end_resistance", make.number()) +
            make.key("wiper_resistance", make.number()) +
            make.key("clockwise", make.toss() ? "A" : "B") + make.key("turns", make.number()) +
            make.key("tolerance", "K"));
  make.trimmers.push_back(name);
}

void make_types(Maker& make) {
  make.line("type npn t.npn gain=" + make.number() + " saturation_current=" + make.number() +
            make.key("early_voltage", make.number()) + make.key("knee_current", make.number()) +
            make.key("band_gap", make.number()) + make.key("measured_at", "31C") +
            make.key("max_power", make.number()) +
            make.key("safe_area", "10V:3A,20.5V:" + make.number()) +
            make.key("source", "\"a \\\"sheet\\\" of 1975, p. \\\\7 # 3\""));
  make.line(
      "type pnp t.pnp gain=80 gain.min=40.5 gain.max=" + std::to_string(100 + make.below(99)) +
      " vbe=0.61V vbe_at=50mA vbe.min=0.59V vbe.max=0.64V");
  make.line("type diode t.d vf=0.7V vf_at=10mA" +
            make.key("zener_voltage", "12V zener_test_current=5mA zener_tempco=-3"));
  make.line("type n-jfet t.j threshold_voltage=-2.1V idss=8mA idss.min=6mA idss.max=10mA");
  make.line("type p-mosfet t.m vgs=3.6V vgs_at=100mA current_factor=" + make.number() +
            make.key("body_diode", "1.7pA") + make.key("slope_factor", "1.31"));
}

void make_remarks(Maker& make) {
  make.line("reading a volts n0 " + std::string(make.toss() ? "R0.1" : "gnd"));
  make.line("reading b amps R0");
  make.line("reading c watts vpos");
  make.line("reading d celsius HS1");
  if (make.toss()) make.line("limit a -" + make.number() + " to " + make.number());
  if (make.toss()) make.line("limit d 20C to 61.7C");
  make.line("adjust " + make.trimmers[0] + " until a reads 22.4mV" +
            (make.toss() ? " within " + make.number() : std::string()));
  if (make.toss()) make.line("adjust " + make.trimmers[1] + " until d reads 41.3C within 1.7K");
  if (make.toss()) make.line("matched Q0 Q1 within=3.3mV");
  if (make.toss()) make.line("matched Q2 Q3");
  if (make.toss()) make.line("mounted D9 on=HS1 coupling=85%");
  if (make.toss()) make.line("printed volts n0 vpos -27.9V");
  if (make.toss()) make.line("printed D9 cathode=0.6V anode=1.2V");
  if (make.toss()) make.line("signal output=n0" + make.key("drive", "R0.1"));
  if (make.toss()) make.line("socket n0");
  if (make.toss()) make.line("meter" + make.key("error", make.percent()) + make.key("input", "1M"));
  if (make.toss()) make.line("ambient 3" + std::to_string(make.below(9)) + ".7C");
}

}  // namespace

std::string generated_stage(std::uint32_t seed) {
  Maker make{std::mt19937(seed), {}, {}, {}, {}, {}};
  make.line("stage \"Made by chance, number " + std::to_string(seed) + "\"");
  const bool rails_first = make.toss();
  const std::string rails = "rail vpos " + make.number() + make.key("resistance", make.number()) +
                            "\nrail n5 -" + make.number() + make.key("tolerance", "8%");
  if (rails_first) make.line(rails);
  make.line("heatsink HS1 resistance=" + make.number() + make.key("capacity", make.number()));
  make.line("heatsink HS2 resistance=2K/W");
  // Every lead left off by chance could be the one another part hangs on: those of P are never
  // used.
  make.line("resistor RA n0 n1 1k");
  for (std::uint32_t index = 0; index < 8; ++index) make_two_leads(make, index);
  if (!rails_first) make.line(rails);
  for (std::uint32_t index = 0; index < 4; ++index) make_devices(make, index);
  make.line("diode D9 anode=n2 cathode=n0 type=t.d");
  for (std::uint32_t index = 0; index < 3; ++index) make_trimmer(make, index);
  make_types(make);
  make_remarks(make);
  return make.text;
}

}  // namespace idlepoint::language
