// Oracle: an emitter resistor and a junction differentiated by hand; central differences of whole
// solves; what solves of the edited stage read; the pattern of substitutions that is common
// practice (base volts matter, gain hardly), asserted as a pattern and not by digits.
#include <cmath>
#include <string>
#include <vector>

#include "answers/answering.hpp"
#include "answers/asked.hpp"
#include "circuit/uncertainty.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::tests {
namespace {

using answers::Answering;
using circuit::PartId;

std::vector<Answering> answering_of(const answers::Setup& setup,
                                    const std::vector<std::string>& names) {
  std::vector<PartId> parts;
  for (const auto& name : names) parts.push_back(part_named(setup, name));
  return answers::how_it_answers(setup.stage, setup.conditions, parts);
}

double read(const circuit::CheckedCircuit& stage,
            const solve::Conditions& conditions,
            circuit::ReadingId reading) {
  const auto outcome = solve::solve_stage(stage, conditions);
  const auto* state = std::get_if<solve::OperatingPoint>(&outcome);
  REQUIRE(state != nullptr);
  return state->read(*stage, stage->at(reading).probe);
}

/// The stage with one field of each of these parts' types multiplied.
circuit::CheckedCircuit with_field(const answers::Setup& setup,
                                   const std::vector<std::string>& names,
                                   const std::string& field,
                                   double times) {
  std::vector<circuit::Parameter> parameters;
  std::vector<double> values;
  for (const auto& name : names) {
    parameters.push_back({part_named(setup, name), field});
    values.push_back(times * circuit::nominal(*setup.stage, parameters.back()));
  }
  return circuit::with_parameters(setup.stage, parameters, values);
}

/// A held base, a junction, a resistor: VE + U ln(VE / (R Is)) = VB.
const std::string held_emitter = R"(
ambient 25C
rail vp 20V resistance=0R
hold V1 b gnd 1V
npn Q1 c=vp b=b e=e type=t
trimmer VR1 e gnd 100R at=50% spare=tied
reading idle volts e gnd
adjust VR1 until idle reads 0.4V
type npn t saturation_current=1pA gain=1e12
)";

struct Exchanged {
  double by_lower_volts;  ///< Ratio of the reading to what it was, both outputs 28 mV lower.
  double by_third_gain;   ///< Both outputs with a third of their gain.
};

Exchanged exchanged(const std::string& file, const std::vector<std::string>& outputs) {
  const auto setup = demo(file);
  const auto reading = answers::standing_current_readings(*setup.stage).front();
  const double before = read(setup.stage, {}, reading);
  const double u_v = 298.15 * 1.380649e-23 / 1.602176634e-19;
  const auto lower = with_field(setup, outputs, "saturation_current", std::exp(0.028 / u_v));
  const auto third = with_field(setup, outputs, "gain", 1.0 / 3.0);
  return {read(lower, {}, reading) / before, read(third, {}, reading) / before};
}

}  // namespace

TEST_CASE("Ten millivolts less from base to emitter raise a resistor's volts by VE/(VE + U) of it",
          "[answers][analytic]") {
  const auto setup = drawn(held_emitter);
  const auto answers = answering_of(setup, {"Q1"});
  REQUIRE(answers.size() == 1);
  const double u_v = 298.15 * 1.380649e-23 / 1.602176634e-19;
  CHECK_THAT(*answers[0].by_lower_volts,
             WithinRel(0.010 * answers[0].value / (answers[0].value + u_v), 1e-6));
  CHECK_THAT(*answers[0].by_half_gain, WithinAbs(0.0, 1e-9));
  CHECK_FALSE(answers::gain_matters(answers[0]));
}

TEST_CASE("The answer to base volts is the central difference of two whole solves",
          "[answers][identity]") {
  const auto heat = GENERATE(solve::HeatState::cold, solve::HeatState::warm);
  const auto setup = demo("spinney-45w.stage", {.heat = heat});
  const auto answers = answering_of(setup, {"Q607", "Q604"});
  REQUIRE(answers.size() == 2);
  for (const Answering& one : answers) {
    const std::string name = setup.stage->at(one.part).name;
    CAPTURE(name);
    const auto state = settled(solve::solve_stage(setup.stage, setup.conditions));
    const double u_v = state.part(one.part).junction_k * 1.380649e-23 / 1.602176634e-19;
    const double small_v = 1e-5;
    const auto at = [&](double lower_v) {
      return read(with_field(setup, {name}, "saturation_current", std::exp(lower_v / u_v)),
                  setup.conditions,
                  one.reading);
    };
    CHECK_THAT(*one.by_lower_volts,
               WithinRel((at(small_v) - at(-small_v)) / (2.0 * small_v) * 0.010, 1e-4));
  }
}

TEST_CASE("The answer to gain is what the stage reads with half and twice of it",
          "[answers][identity]") {
  const auto setup = demo("quarry-30w.stage");
  const auto answers = answering_of(setup, {"Q607"});
  REQUIRE(answers.size() == 1);
  CHECK_THAT(
      answers[0].value + *answers[0].by_half_gain,
      WithinRel(read(with_field(setup, {"Q607"}, "gain", 0.5), {}, answers[0].reading), 1e-7));
  CHECK_THAT(
      answers[0].value + *answers[0].by_double_gain,
      WithinRel(read(with_field(setup, {"Q607"}, "gain", 2.0), {}, answers[0].reading), 1e-7));
}

TEST_CASE("A MOSFET answers to its threshold and has no gain, a resistor does not answer",
          "[answers][identity]") {
  const auto setup = demo("tarn-70w.stage");
  const auto answers = answering_of(setup, {"Q807", "R811"});
  REQUIRE(answers.size() == 1);
  CHECK(*answers[0].by_lower_volts > 0.0);
  CHECK_FALSE(answers[0].by_half_gain.has_value());
}

TEST_CASE("A midpoint or an offset is no standing current", "[answers][analytic]") {
  const auto names = [](const std::string& file) {
    const auto setup = demo(file);
    std::string all;
    for (const auto id : answers::standing_current_readings(*setup.stage)) {
      all += setup.stage->at(id).name + " ";
    }
    return all;
  };
  CHECK(names("quarry-30w.stage") == "upper ");
  CHECK(names("wherry-25w.stage") == "upper ");
  CHECK(names("bramble-8w.stage") == "upper ");
  CHECK(names("cairnfell-120w.stage") == "pair_1 ");
  CHECK(names("tarn-70w.stage") == "idle ");
}

// Common practice: a larger die has lower base volts, and that is what upsets the idle; gain is for
// drive and sharing. The exception is the quasi-complementary stage with a resistor under its lower
// driver: what the lower output's base draws drops volts there, inside the string's loop.
TEST_CASE("Outputs of lower base volts raise the idle, a third of the gain hardly lowers it",
          "[answers][identity]") {
  struct Stage {
    const char* file;
    std::vector<std::string> outputs;
    bool is_the_exception;
  };
  const auto stage =
      GENERATE(Stage{"spinney-45w.stage", {"Q607", "Q608"}, false},
               Stage{"quarry-30w.stage", {"Q606", "Q607"}, true},
               Stage{"wherry-25w.stage", {"Q605", "Q606"}, false},
               Stage{"drystone-40w.stage", {"Q207", "Q208"}, false},
               Stage{"corrie-70w.stage", {"Q410", "Q411"}, false},
               Stage{"sedge-28w.stage", {"Q907", "Q908"}, false},
               Stage{"cairnfell-120w.stage", {"Q507", "Q517", "Q508", "Q518"}, false});
  CAPTURE(stage.file);
  const Exchanged ratio = exchanged(stage.file, stage.outputs);
  CAPTURE(ratio.by_lower_volts, ratio.by_third_gain);
  CHECK(ratio.by_lower_volts > 1.2);
  CHECK(ratio.by_third_gain < 1.0);
  CHECK(ratio.by_lower_volts - 1.0 > 2.0 * (1.0 - ratio.by_third_gain));
  CHECK((ratio.by_third_gain < 0.85) == stage.is_the_exception);
}

// Its drivers' junctions set the idle of a compound stage, not its outputs'.
TEST_CASE("In a compound stage the drivers' base volts matter and the outputs' do not",
          "[answers][identity]") {
  const auto answers = answering_of(demo("drystone-40w.stage"), {"Q205", "Q207"});
  CHECK(*answers[0].by_lower_volts > 5.0 * *answers[1].by_lower_volts);
}

// The string's volts are (R8 + R9)/R9 of its own, and its base current flows in R8.
TEST_CASE("A spreader's base volts and gain turn the idle the other way", "[answers][identity]") {
  const auto answers = answering_of(demo("spinney-45w.stage"), {"Q604", "Q607"});
  CHECK(*answers[0].by_lower_volts < 0.0);
  CHECK(*answers[0].by_half_gain > 0.0);
  CHECK(answers::gain_matters(answers[0]));
  CHECK(*answers[1].by_lower_volts > 0.0);
  CHECK_FALSE(answers::gain_matters(answers[1]));
}

}  // namespace idlepoint::tests
