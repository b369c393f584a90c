// Oracle: the table of statements in docs/language.md, its defaults and its ranges.
#include <catch2/catch.hpp>

#include "language/reading.hpp"

namespace idlepoint::language {

using circuit::Circuit;
using circuit::PartKind;

TEST_CASE("A resistor has 5 % and no tempco until it says otherwise", "[language][identity]") {
  const Circuit circuit =
      sound(around("resistor R8 x gnd 4k7\n"
                   "resistor R9 x gnd 0R33 tolerance=J power=3W tempco=100\n"));
  const circuit::Part& plain = part(circuit, "R8");
  CHECK(plain.kind == PartKind::resistor);
  CHECK(plain.value == 4700.0);
  CHECK(plain.tolerance == 0.05);
  CHECK_FALSE(std::get<circuit::ResistorDetails>(plain.details).power_w);
  CHECK(std::get<circuit::ResistorDetails>(plain.details).tempco_per_k == 0.0);
  const circuit::Part& full = part(circuit, "R9");
  CHECK(full.tolerance == 0.05);
  CHECK(std::get<circuit::ResistorDetails>(full.details).power_w == 3.0);
  CHECK(std::get<circuit::ResistorDetails>(full.details).tempco_per_k == 1e-4);
}

TEST_CASE("A trimmer of three legs stands half way by default", "[language][identity]") {
  const Circuit circuit =
      sound(around("trimmer VR1 x w gnd 1k\n"
                   "trimmer VR2 x w2 gnd 940R at=35% end_resistance=2R wiper_resistance=3R "
                   "clockwise=gnd turns=10 tolerance=1%\n"
                   "resistor R8 w w2 1k\n"));
  const auto plain = std::get<circuit::TrimmerDetails>(part(circuit, "VR1").details);
  CHECK(part(circuit, "VR1").tolerance == 0.20);
  CHECK(plain.travel == 0.5);
  CHECK(plain.end_resistance_ohm == 1.0);
  CHECK(plain.wiper_resistance_ohm == 0.0);
  CHECK_FALSE(plain.clockwise);
  CHECK(plain.turns == 1.0);
  CHECK(plain.spare == circuit::SpareLeg::none);
  const auto full = std::get<circuit::TrimmerDetails>(part(circuit, "VR2").details);
  CHECK(full.travel == 0.35);
  CHECK(full.end_resistance_ohm == 2.0);
  CHECK(full.wiper_resistance_ohm == 3.0);
  CHECK(full.clockwise == circuit::TrackEnd::b);
  CHECK(full.turns == 10.0);
  CHECK(node_at(circuit, "VR2", 0) == "x");
  CHECK(node_at(circuit, "VR2", 1) == "w2");
  CHECK(node_at(circuit, "VR2", 2) == "gnd");
}

TEST_CASE("A trimmer of two legs says what its third does", "[language][identity]") {
  const Circuit circuit =
      sound(around("trimmer VR1 x w 1k\n"
                   "trimmer VR2 x w 1k spare=tied clockwise=a\n"
                   "trimmer VR3 x w 1k spare=free\n"
                   "trimmer VR4 x w - 1k\n"));
  const auto spare = [&circuit](const char* name) {
    return std::get<circuit::TrimmerDetails>(part(circuit, name).details).spare;
  };
  CHECK(spare("VR1") == circuit::SpareLeg::unknown);
  CHECK(node_at(circuit, "VR1", 2) == "-");
  CHECK(spare("VR2") == circuit::SpareLeg::tied);
  CHECK(node_at(circuit, "VR2", 2) == "w");
  CHECK(spare("VR3") == circuit::SpareLeg::free);
  CHECK(node_at(circuit, "VR3", 2) == "-");
  CHECK(spare("VR4") == circuit::SpareLeg::free);
  CHECK(kinds_of(around("trimmer VR1 x w gnd 1k spare=tied\n")) == "spare-leg@4:30");
}

TEST_CASE("The other parts of two leads with their defaults", "[language][identity]") {
  const Circuit circuit =
      sound(around("capacitor C1 x gnd 2u2\n"
                   "capacitor C2 x gnd 100u leakage=1M voltage=50V\n"
                   "inductor L1 x gnd 10u\n"
                   "inductor L2 x gnd 10u resistance=0R05\n"
                   "fuse F1 vpos x 2A\n"
                   "link LK1 vpos x\n"
                   "lamp LA1 vpos x voltage=230V power=60W\n"
                   "thermistor TH1 x gnd 470R\n"
                   "thermistor TH2 x gnd 470R beta=4000K on=HS1\n"
                   "thermistor TH3 x gnd 470R at_50C=180R\n"
                   "hold V1 x gnd -1.21V\n"
                   "load LS1 x gnd 8R\n"
                   "heatsink HS1 resistance=2K/W\n"));
  CHECK(part(circuit, "C1").value == 2.2e-6);
  CHECK_FALSE(std::get<circuit::CapacitorDetails>(part(circuit, "C1").details).leakage_ohm);
  CHECK(std::get<circuit::CapacitorDetails>(part(circuit, "C2").details).leakage_ohm == 1e6);
  CHECK(std::get<circuit::CapacitorDetails>(part(circuit, "C2").details).rated_v == 50.0);
  CHECK(std::get<circuit::SeriesDetails>(part(circuit, "L1").details).resistance_ohm == 0.0);
  CHECK(std::get<circuit::SeriesDetails>(part(circuit, "L2").details).resistance_ohm == 0.05);
  CHECK(part(circuit, "F1").value == 2.0);
  CHECK(std::get<circuit::SeriesDetails>(part(circuit, "F1").details).resistance_ohm == 0.05);
  CHECK(part(circuit, "LK1").kind == PartKind::link);
  CHECK(std::get<circuit::LampDetails>(part(circuit, "LA1").details).rated_w == 60.0);
  CHECK(part(circuit, "V1").value == -1.21);
  CHECK(part(circuit, "LS1").value == 8.0);
  const auto beta = [&circuit](const char* name) {
    return std::get<circuit::ThermistorDetails>(part(circuit, name).details);
  };
  CHECK(beta("TH1").beta_k == 3500.0);
  CHECK(beta("TH1").beta_assumed);
  CHECK(beta("TH2").beta_k == 4000.0);
  CHECK(part(circuit, "TH2").mounting.heatsink);
  // beta = ln(R25/R50) / (1/298.15 - 1/323.15)
  CHECK(beta("TH3").beta_k == Approx(std::log(470.0 / 180.0) / (1 / 298.15 - 1 / 323.15)));
  CHECK_FALSE(beta("TH3").beta_assumed);
}

TEST_CASE("A feed has a compliance of 0.3 V unless it is ideal", "[language][identity]") {
  const Circuit circuit =
      sound(around("feed I1 5mA from=vpos into=x\n"
                   "feed I2 5mA from=vpos into=x compliance=1V\n"
                   "feed I3 -5mA from=vpos into=x compliance=none\n"));
  const auto compliance = [&circuit](const char* name) {
    return std::get<circuit::FeedDetails>(part(circuit, name).details).compliance_v;
  };
  CHECK(compliance("I1") == 0.3);
  CHECK(compliance("I2") == 1.0);
  CHECK_FALSE(compliance("I3"));
  CHECK(part(circuit, "I3").value == -0.005);
  CHECK(node_at(circuit, "I1", 0) == "vpos");
  CHECK(node_at(circuit, "I1", 1) == "x");
  CHECK(kinds_of(around("feed I1 -5mA from=vpos into=x\n")) == "out-of-range@4:9");
}

TEST_CASE("Devices have named leads, a type and a mounting", "[language][identity]") {
  const Circuit circuit =
      sound(around("heatsink HS1 resistance=1.6K/W capacity=380J/K\n"
                   "npn Q1 c=vpos b=x e=gnd type=t.npn on=HS1 washer=0.6K/W coupling=85%\n"
                   "diode D1 anode=x cathode=gnd type=stack junctions=3\n"
                   "n-mosfet Q2 d=vpos g=x s=gnd type=mos\n"
                   "npn Q3 c=- b=x e=gnd type=t.npn\n"
                   "type npn t.npn saturation_current=10fA gain=100\n"
                   "type diode stack saturation_current=1pA\n"
                   "type n-mosfet mos threshold_voltage=3V current_factor=2A/V2\n"));
  const circuit::Part& q1 = part(circuit, "Q1");
  CHECK(circuit.at(*q1.type).name == "t.npn");
  CHECK(circuit.at(*q1.mounting.heatsink).resistance_k_per_w == 1.6);
  CHECK(circuit.at(*q1.mounting.heatsink).capacity_j_per_k == 380.0);
  CHECK(q1.mounting.washer_k_per_w == 0.6);
  CHECK(q1.mounting.coupling == 0.85);
  CHECK(std::get<circuit::DiodeDetails>(part(circuit, "D1").details).junctions == 3);
  CHECK(node_at(circuit, "Q2", 0) == "vpos");
  CHECK(node_at(circuit, "Q2", 1) == "x");
  CHECK(node_at(circuit, "Q2", 2) == "gnd");
  CHECK(node_at(circuit, "Q3", 0) == "-");
  REQUIRE(q1.lead_places.size() == 3);
  CHECK(q1.lead_places[1].line == 5);
  CHECK(q1.lead_places[1].column == 17);
}

TEST_CASE("Ranges are checked where the value stands", "[language][identity]") {
  CHECK(kinds_of(around("resistor R8 x gnd -1R\n")) == "out-of-range@4:19");
  CHECK(kinds_of(around("resistor R8 x gnd 0R\n")).empty());
  CHECK(kinds_of(around("trimmer VR1 x w gnd 0R\n")) == "out-of-range@4:21");
  CHECK(kinds_of(around("trimmer VR1 x w gnd 1k at=101%\n")) == "out-of-range@4:27");
  CHECK(kinds_of(around("resistor R8 x gnd 1k tolerance=100%\n")) == "out-of-range@4:32");
  CHECK(kinds_of(around("fuse F1 vpos x 0A\n")) == "out-of-range@4:16");
  CHECK(kinds_of(around("load LS1 x gnd -8R\n")) == "out-of-range@4:16");
  CHECK(kinds_of(around("thermistor TH1 x gnd 470R at_50C=500R\n")) == "out-of-range@4:34");
  CHECK(kinds_of(around("thermistor TH1 x gnd 470R at_50C=200R beta=3000K\n")) ==
        "two-sources@4:34");
  CHECK(kinds_of(around("diode D1 anode=x cathode=gnd type=d junctions=1.5\n"
                        "type diode d saturation_current=1pA\n")) == "out-of-range@4:47");
  CHECK(kinds_of(around("diode D1 anode=x cathode=gnd type=d junctions=0\n"
                        "type diode d saturation_current=1pA\n")) == "out-of-range@4:47");
}

TEST_CASE("A word too few, a word too many, a key unknown or missing", "[language][identity]") {
  CHECK(kinds_of(around("resistor R8 x gnd\n")) == "missing-word@4:1");
  CHECK(kinds_of(around("resistor R8 x gnd 1k x\n")) == "extra-word@4:22");
  CHECK(kinds_of(around("resistor R8 x gnd 0.47 3W\n")) == "two-values@4:24");
  CHECK(kinds_of(around("capacitor C8 x gnd 47 uF\n")) == "space-in-value@4:23");
  CHECK(kinds_of(around("capacitor C8 x gnd 47u 50V\n")) == "two-values@4:24");
  CHECK(kinds_of(around("resistor R8 x gnd 1k tolerence=5%\n")) == "unknown-key@4:22");
  CHECK(kinds_of(around("lamp LA1 x gnd voltage=12V\n")) == "missing-key@4:1");
  CHECK(kinds_of(around("npn Q1 x b e type=t\n")) == "leads-by-name@4:8");
  CHECK(kinds_of(around("link L1 vpos x on=HS1\n")) == "unknown-key@4:16");
}

}  // namespace idlepoint::language
