// Oracle: resistances by hand and by a nodal solve of the resistors alone, written here; a diode's
// own law; Rayleigh's monotonicity law (Doyle and Snell, Random Walks and Electric Networks, 1984);
// a rectangular tolerance's expanded uncertainty [JCGM100].
#include <algorithm>
#include <cmath>

#include "answers/asked.hpp"
#include "answers/poweroff.hpp"
#include "circuit/power_off.hpp"
#include "values/constants.hpp"

namespace idlepoint::tests {
namespace {

using answers::OffPoint;
using answers::OffRange;
using answers::PowerOff;
using circuit::VoltsBetween;

constexpr std::size_t at(OffRange range) { return static_cast<std::size_t>(range); }

VoltsBetween points_of(const answers::Setup& setup, const std::string& a, const std::string& b) {
  return {circuit::find_node(*setup.stage, a).value(), circuit::find_node(*setup.stage, b).value()};
}

PowerOff poweroff_of(const answers::Setup& setup, const std::vector<VoltsBetween>& asked = {}) {
  return settled(answers::ask_poweroff(setup, asked, [](double) { return true; }));
}

OffPoint point_of(const answers::Setup& setup, const std::string& a, const std::string& b) {
  auto answer = poweroff_of(setup, {points_of(setup, a, b)});
  REQUIRE(answer.points.size() == 1);
  return std::move(answer.points.front());
}

double ohms_of(const OffPoint& point) {
  const auto& value = point.figures[at(OffRange::ohms)].value;
  REQUIRE(value);
  return *value;
}

const answers::OffSuspect* find(const OffPoint& point, const std::string& fault) {
  const auto found = std::find_if(point.suspects.begin(),
                                  point.suspects.end(),
                                  [&](const auto& suspect) { return suspect.fault == fault; });
  return found == point.suspects.end() ? nullptr : &*found;
}

double parallel(double one_ohm, double other_ohm) {
  return one_ohm * other_ohm / (one_ohm + other_ohm);
}

const char* const divider = R"(
rail vp +20V resistance=1R tolerance=6%
resistor R1 vp a 10k
resistor R2 a gnd 10k
resistor R3 a b 1k
resistor R4 b gnd 4k7
reading middle volts a gnd
)";

const char* const two_diodes = R"(
rail vp +20V
resistor R1 vp a 100k
diode D1 anode=a cathode=x type=plain
diode D2 anode=x cathode=gnd type=plain
type diode plain saturation_current=2nA ideality=1.8
)";

/// The resistance between two nodes of the parts that are resistances, every junction taken away:
/// node potentials for one ampere, by elimination.
class ResistorsAlone {
 public:
  explicit ResistorsAlone(const circuit::Circuit& circuit) : size_(circuit.nodes.size()) {
    conductance_s_.assign(size_, std::vector<double>(size_, 0.0));
    for (std::size_t node = 1; node < size_; ++node) conductance_s_[node][node] += 1e-12;
    for (const auto& part : circuit.parts) add(part);
    for (const auto& rail : circuit.rails) {
      join(rail.node.index, 0, 1e3 + rail.resistance_ohm);  // the supply, off
    }
  }

  [[nodiscard]] double between(circuit::NodeId a, circuit::NodeId b) const {
    auto matrix = conductance_s_;
    std::vector<double> amps(size_, 0.0);
    amps[a.index] += 1.0;
    amps[b.index] -= 1.0;
    for (std::size_t pivot = 1; pivot < size_; ++pivot) {
      for (std::size_t row = pivot + 1; row < size_; ++row) {
        const double factor = matrix[row][pivot] / matrix[pivot][pivot];
        for (std::size_t k = pivot; k < size_; ++k) matrix[row][k] -= factor * matrix[pivot][k];
        amps[row] -= factor * amps[pivot];
      }
    }
    std::vector<double> volts(size_, 0.0);
    for (std::size_t row = size_ - 1; row >= 1; --row) {
      double sum = amps[row];
      for (std::size_t k = row + 1; k < size_; ++k) sum -= matrix[row][k] * volts[k];
      volts[row] = sum / matrix[row][row];
    }
    return volts[a.index] - volts[b.index];
  }

 private:
  void join(std::size_t a, std::size_t b, double ohm) {
    conductance_s_[a][a] += 1.0 / ohm;
    conductance_s_[b][b] += 1.0 / ohm;
    conductance_s_[a][b] -= 1.0 / ohm;
    conductance_s_[b][a] -= 1.0 / ohm;
  }
  void add(const circuit::Part& part) {
    const auto node = [&](std::size_t lead) { return part.leads.at(lead).value().index; };
    if (part.kind == circuit::PartKind::resistor || part.kind == circuit::PartKind::thermistor) {
      join(node(0), node(1), part.value);
    } else if (const auto* series = std::get_if<circuit::SeriesDetails>(&part.details)) {
      join(node(0), node(1), series->resistance_ohm);
    } else if (const auto* track = std::get_if<circuit::TrimmerDetails>(&part.details)) {
      join(node(0), node(1), track->travel * part.value + track->end_resistance_ohm);
      if (!part.leads[2] || part.leads[2] == part.leads[1]) return;
      join(node(1), node(2), (1.0 - track->travel) * part.value + track->end_resistance_ohm);
    }
  }

  std::size_t size_;
  std::vector<std::vector<double>> conductance_s_;
};

}  // namespace

TEST_CASE("In circuit a resistor reads with its neighbours across it", "[answers][analytic]") {
  const auto setup = drawn(divider);
  const auto point = point_of(setup, "a", "gnd");
  const double others_ohm = parallel(10e3 + 1e3 + 1.0, 10e3);
  CHECK_THAT(ohms_of(point), WithinRel(parallel(others_ohm, 5.7e3), 1e-5));
  CHECK_THAT(*point.figures[at(OffRange::ohms_reversed)].value, WithinRel(ohms_of(point), 1e-6));
  const auto* open = find(point, "R4 open");
  REQUIRE(open != nullptr);
  CHECK_THAT(*open->reads[at(OffRange::ohms)], WithinRel(others_ohm, 1e-5));
  const auto* shorted = find(point, "R4 short");
  REQUIRE(shorted != nullptr);
  CHECK_THAT(*shorted->reads[at(OffRange::ohms)], WithinRel(parallel(others_ohm, 1e3), 1e-5));
}

TEST_CASE("A lone resistor's band is that of its rectangular tolerance", "[answers][analytic]") {
  const auto setup = drawn(
      "rail vp +9V\nresistor R1 vp a 1k tolerance=10%\n"
      "resistor R2 a gnd 1k tolerance=0%\n");
  const auto ohms = point_of(setup, "vp", "a").figures[at(OffRange::ohms)];
  // 1k beside R2 and the supply's 1k and 0R05; slopes as of a divider of currents.
  const double rest_ohm = 2000.05;
  const double slope = std::pow(rest_ohm / (1000.0 + rest_ohm), 2);
  const double half_ohm = 2.0 * slope * 100.0 / std::sqrt(3.0);
  CHECK_THAT(*ohms.value, WithinRel(parallel(1e3, rest_ohm), 1e-5));
  CHECK_THAT(*ohms.high - *ohms.low, WithinRel(2.0 * half_ohm, 1e-3));
}

TEST_CASE("Two junctions in series show twice their volts one way and nothing the other",
          "[answers][analytic]") {
  const auto setup = drawn(two_diodes);
  const double scale_v = 1.8 * 298.15 * values::boltzmann_j_per_k / values::elementary_charge_c;
  const double one_v = scale_v * std::log(1e-3 / 2e-9 + 1.0);
  const auto one = point_of(setup, "a", "x");
  CHECK_THAT(*one.figures[at(OffRange::diode)].value, WithinAbs(one_v, 2e-3));
  const auto both = point_of(setup, "a", "gnd");
  CHECK_THAT(*both.figures[at(OffRange::diode)].value, WithinAbs(2.0 * one_v, 2e-3));
  CHECK_FALSE(both.figures[at(OffRange::diode_reversed)].value);
  REQUIRE(find(both, "D1 short") != nullptr);
  CHECK_THAT(*find(both, "D1 short")->reads[at(OffRange::diode)], WithinAbs(one_v, 2e-3));
  REQUIRE(find(both, "D2 open") != nullptr);
  CHECK_FALSE(find(both, "D2 open")->reads[at(OffRange::diode)]);
}

TEST_CASE("Below 0.2 V a whole amplifier of silicon is its resistors alone",
          "[answers][analytic]") {
  const auto setup = demo("quarry-30w.stage");
  const auto& circuit = *setup.stage;
  const ResistorsAlone resistors(circuit);
  const auto off = circuit::power_off(setup.stage);
  std::size_t looked_at = 0;
  for (std::size_t a = 1; a < circuit.nodes.size(); ++a) {
    const VoltsBetween points{{a}, {(5 * a + 3) % circuit.nodes.size()}};
    if (points.a == points.b) continue;
    const double expected_ohm = resistors.between(points.a, points.b);
    if (!(expected_ohm < 50e3)) continue;
    CAPTURE(circuit.at(points.a).name, circuit.at(points.b).name);
    const auto figure = answers::off_figure(off, points, OffRange::ohms, {});
    REQUIRE(figure);
    CHECK_THAT(figure->value.value(), WithinRel(expected_ohm, 0.01));
    ++looked_at;
  }
  CHECK(looked_at > 5);
}

TEST_CASE("Opening a part never lowers the ohms between two points, shorting it never raises them",
          "[answers][identity]") {
  const auto setup = demo("spinney-45w.stage");
  for (const auto& [a, b] : {std::pair{"hi", "lo"}, {"d5", "d6"}}) {
    const auto point = point_of(setup, a, b);
    const double sound_ohm = point.figures[at(OffRange::ohms)].value.value_or(20e6);
    CHECK_FALSE(point.suspects.empty());
    for (const auto& suspect : point.suspects) {
      CAPTURE(a, b, suspect.fault);
      const double ohms = suspect.reads[at(OffRange::ohms)].value_or(20e6);
      const bool takes_away = suspect.fault.find("open") != std::string::npos;
      const bool adds = suspect.fault.find("short") != std::string::npos ||
                        suspect.fault.find("leaks") != std::string::npos;
      if (takes_away) CHECK(ohms >= sound_ohm * (1.0 - 1e-6));
      if (adds) CHECK(ohms <= sound_ohm * (1.0 + 1e-6));
    }
  }
}

TEST_CASE("A fault that is left out could not have been told", "[answers][identity]") {
  const auto setup = demo("wherry-25w.stage");
  const auto points = points_of(setup, "d3", "joint");
  const auto point = point_of(setup, "d3", "joint");
  const auto off = circuit::power_off(setup.stage);
  const answers::ByRange<bool> all{true, true, true, true};
  for (const auto& edit : answers::off_faults(*setup.stage)) {
    const std::string fault = circuit::write_fault(*setup.stage, edit);
    if (find(point, fault) != nullptr) continue;
    CAPTURE(fault);
    const auto applied = circuit::apply(off, edit);
    const auto* faulty = std::get_if<circuit::CheckedCircuit>(&applied);
    if (faulty == nullptr) continue;
    answers::ByRange<std::optional<double>> reads;
    REQUIRE(answers::find_off_values(*faulty, points, {}, all, {}, reads));
    for (std::size_t k = 0; k < reads.size(); ++k) {
      CHECK_FALSE(answers::can_tell(answers::every_off_range[k], point.figures[k], reads[k]));
    }
  }
}

// Common practice, no source: what the first minute with a meter on a dead amplifier is for.
TEST_CASE("A shorted output transistor shows no volts either way from collector to emitter",
          "[answers]") {
  const auto setup = demo("spinney-45w.stage");
  const auto point = point_of(setup, "vpos", "e_hi");
  CHECK(*point.figures[at(OffRange::diode_reversed)].value > 0.3);
  const auto* shorted = find(point, "Q607 short c-e");
  REQUIRE(shorted != nullptr);
  CHECK(&point.suspects.front() == shorted);
  CHECK(*shorted->reads[at(OffRange::diode)] < 1e-3);
  CHECK(*shorted->reads[at(OffRange::diode_reversed)] < 1e-3);
}

TEST_CASE("In circuit a trimmer's preset reads as its track beside what lies across it",
          "[answers][analytic]") {
  const auto setup = demo("quarry-30w.stage");
  const auto answer = preset_of(setup);
  const auto& trimmer = answer.adjustments.at(1);
  REQUIRE(trimmer.in_circuit.at_preset.size() == 1);
  const double track_ohm = trimmer.travel * 200.0 + 1.0;  // and its end resistance
  const double thermistor_ohm = 470.0;                    // at 25 C
  CHECK_THAT(*trimmer.in_circuit.at_preset[0].ohms.value,
             WithinRel(parallel(track_ohm, thermistor_ohm), 1e-3));
  REQUIRE(trimmer.in_circuit.at_safe_end.size() == 1);
  CHECK_THAT(*trimmer.in_circuit.at_safe_end[0].ohms.value,
             WithinRel(parallel(1.0, thermistor_ohm), 1e-3));
}

TEST_CASE("A stage without transistors is asked at its readings and its resistors", "[answers]") {
  const auto answer = poweroff_of(drawn(divider));
  REQUIRE(answer.points.size() == 4);
  CHECK(answer.points[0].name == "middle");
  CHECK(answer.points[0].group == OffPoint::Group::asked);
  CHECK(answer.points[1].group == OffPoint::Group::resistor);
  CHECK(answer.trimmers.empty());
  CHECK_FALSE(answer.no_preset);
}

TEST_CASE("Every junction of a stage is asked once, the way it conducts first", "[answers]") {
  const auto setup = drawn(R"(
rail vp +20V
npn Q1 c=vp b=b e=out type=n
pnp Q2 c=gnd b=b e=x type=p
resistor R3 x out 100R
diode D1 anode=gnd cathode=b type=d
resistor R1 vp b 10k
resistor R2 out gnd 1k
type npn n saturation_current=10fA gain=100
type pnp p saturation_current=10fA gain=100
type diode d saturation_current=2nA
)");
  const auto answer = poweroff_of(setup);
  std::size_t junctions = 0;
  for (const auto& point : answer.points) {
    CHECK(point.points.a != point.points.b);
    for (const auto& other : answer.points) {
      const bool is_other_way =
          other.points.a == point.points.b && other.points.b == point.points.a;
      CHECK_FALSE(is_other_way);
    }
    if (point.group == OffPoint::Group::junction) ++junctions;
  }
  // Three of each transistor; D1 lies between the base and the collector of Q2.
  CHECK(junctions == 6);
  for (const auto& point : answer.points) {
    const bool has_base =
        setup.stage->at(point.points.a).name == "b" || setup.stage->at(point.points.b).name == "b";
    if (point.group != OffPoint::Group::junction || !has_base) continue;
    CHECK(point.figures[at(OffRange::diode)].value.value() < 1.0);
  }
}

}  // namespace idlepoint::tests
