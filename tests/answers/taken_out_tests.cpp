// Oracle: what benches find when an amplifier is brought up without its output transistors (common
// practice, without a source): nothing across the emitter resistors, the output near 0 V, the
// spread as with them, the drivers' current that of their own base resistors; and Ohm's law.
#include "answers/asked.hpp"
#include "answers/hazards.hpp"
#include "answers/spread.hpp"
#include "answers/swap.hpp"
#include "answers/taken_out.hpp"
#include "answers/warmup.hpp"
#include "language/replacement_text.hpp"

namespace idlepoint::tests {
namespace {

using answers::WithPartsOut;

/// A demonstration stage with every part as its value says, so that no band is looked for.
answers::Setup exact(const std::string& file) {
  auto setup = demo(file);
  setup.stage = setup.stage.edited([](circuit::Circuit& circuit) {
    for (auto& part : circuit.parts) part.tolerance = 0.0;
    for (auto& rail : circuit.rails) rail.tolerance = 0.0;
    for (auto& type : circuit.types) type.spreads.clear();
    circuit.matched.clear();
  });
  return setup;
}

answers::Setup without(answers::Setup setup, const std::vector<std::string>& parts) {
  for (const auto& part : parts) {
    const auto edit = required(language::read_removal(part, *setup.stage));
    setup.stage = std::get<circuit::CheckedCircuit>(circuit::apply(setup.stage, edit));
  }
  return setup;
}

answers::Setup quarry() { return without(exact("quarry-30w.stage"), {"Q606", "Q607"}); }
answers::Setup spinney() { return without(exact("spinney-45w.stage"), {"Q607", "Q608"}); }
answers::Setup drystone() { return without(exact("drystone-40w.stage"), {"Q207", "Q208"}); }
answers::Setup wherry() { return without(exact("wherry-25w.stage"), {"Q605", "Q606"}); }

const answers::ReadingValue& reading(const std::vector<answers::ReadingValue>& readings,
                                     const std::string& name) {
  for (const auto& one : readings) {
    if (one.name == name) return one;
  }
  FAIL("no reading " << name);
  return readings.front();
}

double volts(const answers::Readings& answer, const std::string& node) {
  return answer.state.voltage_v(*circuit::find_node(*answer.stage, node));
}

double amps(const answers::Readings& answer, const std::string& part) {
  return answer.state.read(*answer.stage,
                           circuit::AmpsThrough{*circuit::find_part(*answer.stage, part)});
}

}  // namespace

TEST_CASE("Without its outputs a stage whose drivers feed the output holds it near 0 V",
          "[answers][trade]") {
  const auto answer = readings_of(quarry());
  const auto sound = readings_of(exact("quarry-30w.stage"));
  CHECK(reading(answer.readings, "upper").with_parts_out == WithPartsOut::reads_nothing);
  CHECK_THAT(reading(answer.readings, "upper").value, WithinAbs(0.0, 1e-9));
  CHECK(std::abs(reading(answer.readings, "offset").value) < 0.1);
  CHECK_THAT(reading(answer.readings, "spread").value,
             WithinAbs(reading(sound.readings, "spread").value, 50e-3));
  // The driver's emitter current is all that its base resistor drops; the lower half's comes down
  // the lower emitter resistor.
  CHECK_THAT(volts(answer, "d4") - volts(answer, "out"),
             WithinRel(150.0 * amps(answer, "Q604"), 0.02));
  CHECK_THAT(reading(answer.readings, "lower").value, WithinRel(0.47 * amps(answer, "Q605"), 0.02));
  CHECK(reading(answer.readings, "lower").with_parts_out == WithPartsOut::reads_others);
  CHECK_FALSE(answers::any_limit_broken(answer.readings));
}

TEST_CASE("A capacitor-coupled stage keeps its joint without the outputs", "[answers][trade]") {
  const auto answer = readings_of(wherry());
  const auto sound = readings_of(exact("wherry-25w.stage"));
  CHECK_THAT(reading(answer.readings, "joint").value,
             WithinAbs(reading(sound.readings, "joint").value, 0.1));
  CHECK_THAT(reading(answer.readings, "upper").value, WithinAbs(0.0, 1e-9));
  CHECK_FALSE(answers::any_limit_broken(answer.readings));
}

TEST_CASE("Compound halves go on as followers of their drivers alone", "[answers][trade]") {
  const auto setup = drystone();
  const auto answer = readings_of(setup);
  CHECK(std::abs(reading(answer.readings, "offset").value) < 0.1);
  CHECK(reading(answer.readings, "both").with_parts_out == WithPartsOut::reads_others);
  CHECK_THAT(reading(answer.readings, "both").value, WithinRel(0.44 * amps(answer, "Q205"), 0.05));
  CHECK_FALSE(answers::find_loose_output(setup.stage, setup.conditions));
}

TEST_CASE("With one resistor between both drivers nothing holds the output, until it is linked",
          "[answers][trade]") {
  const auto setup = spinney();
  const auto loose = answers::find_loose_output(setup.stage, setup.conditions);
  REQUIRE(loose);
  REQUIRE(loose->hangs_on.size() == 1);
  CHECK(setup.stage->at(loose->hangs_on.front()).name == "R604");
  REQUIRE(loose->link);
  CHECK_FALSE(answers::any_limit_broken(readings_of(setup).readings));

  const std::string to = setup.stage->at(loose->link->to).name;
  const auto linked = with_fault(setup, "bridge " + to + " out");
  const auto answer = readings_of(linked);
  const auto sound = readings_of(exact("spinney-45w.stage"));
  CHECK_FALSE(answers::find_loose_output(linked.stage, linked.conditions));
  CHECK(std::abs(reading(answer.readings, "offset").value) < 0.1);
  CHECK_THAT(reading(answer.readings, "spread").value,
             WithinAbs(reading(sound.readings, "spread").value, 50e-3));
  // What the drivers carry is what R610 passes between their emitters.
  CHECK_THAT(volts(answer, "d5") - volts(answer, "d6"),
             WithinRel(220.0 * amps(answer, "Q606"), 0.02));
}

TEST_CASE("A trimmer that sets the outputs' current has its place in the whole stage",
          "[answers][trade]") {
  for (const auto& [setup, file] : {std::pair{quarry(), "quarry-30w.stage"},
                                    std::pair{spinney(), "spinney-45w.stage"},
                                    std::pair{drystone(), "drystone-40w.stage"}}) {
    CAPTURE(file);
    const auto preset = preset_of(setup);
    const auto whole = preset_of(exact(file));
    const auto& idle = preset.adjustments.back();
    CHECK(idle.is_of_whole);
    CHECK_THAT(idle.travel, WithinAbs(whole.adjustments.back().travel, 1e-6));
    CHECK(idle.states.safe_end == whole.adjustments.back().states.safe_end);
    CHECK(answers::is_good(preset));
    REQUIRE(idle.meanwhile);
    REQUIRE(idle.meanwhile->v);
    CHECK_THAT(*idle.meanwhile->v, WithinAbs(idle.meanwhile->whole_v, 60e-3));
    REQUIRE(idle.meanwhile->safe_v);
    CHECK(*idle.meanwhile->safe_v < *idle.meanwhile->v);
  }
}

TEST_CASE("An offset trimmer can be set without the outputs where the drivers hold the output",
          "[answers][trade]") {
  const auto preset = preset_of(quarry());
  CHECK_FALSE(preset.adjustments.front().is_of_whole);
  CHECK(preset.adjustments.front().reached);
  CHECK(std::abs(reading(preset.readings, "offset").value) < 3e-3);
}

TEST_CASE("A broken limit counts without the outputs where it is broken with them",
          "[answers][identity]") {
  const auto answer = readings_of(with_fault(quarry(), "R605 open"));
  CHECK(reading(answer.readings, "offset").within_limit == false);
  CHECK_FALSE(reading(answer.readings, "upper").within_limit.has_value());
}

TEST_CASE("A part opened by a fault is not taken out: its limit is broken", "[answers][identity]") {
  const auto answer = readings_of(with_fault(exact("quarry-30w.stage"), "Q606 open"));
  CHECK(reading(answer.readings, "upper").within_limit == false);
}

TEST_CASE("The sheet's volts and the drawing's complaints are those of the whole stage",
          "[answers][trade]") {
  const auto check = check_of(spinney());
  CHECK(check.complaints.empty());
  CHECK(answers::is_good(check));
  bool any_forgiven = false;
  for (const auto& one : check.printed) any_forgiven |= one.agrees_with_all_parts;
  CHECK(any_forgiven);
}

TEST_CASE("Hazards leave alone what is out", "[answers][identity]") {
  const auto setup = quarry();
  const auto hazards = settled(answers::ask_hazards(setup, [](double) { return true; }));
  for (const auto& hazard : hazards.critical) {
    CAPTURE(hazard.fault);
    CHECK(hazard.fault.find("Q606") == std::string::npos);
    CHECK(hazard.fault.find("Q607") == std::string::npos);
  }
}

TEST_CASE("A substitute is judged in the whole stage, and none for a part that is out",
          "[answers][identity]") {
  const auto setup = quarry();
  const auto out = answers::ask_swap(
      setup, {required(language::read_replacement("Q606=large-npn", *setup.stage))});
  CHECK(std::holds_alternative<std::string>(out));
  const auto replacement =
      required(language::read_replacement("Q604=tall-driver-npn", *setup.stage));
  const auto without_them = std::get<answers::Swap>(answers::ask_swap(setup, {replacement}));
  const auto with_them =
      std::get<answers::Swap>(answers::ask_swap(exact("quarry-30w.stage"), {replacement}));
  CHECK(without_them.verdict == with_them.verdict);
  CHECK(without_them.ratings.size() == with_them.ratings.size());
  CHECK_THAT(reading(answers::readings_of(without_them.after)->readings, "upper").value,
             WithinAbs(0.0, 1e-9));
}

TEST_CASE("Spread and warm-up set nothing by a reading of what is out", "[answers][identity]") {
  const auto setup = without(demo("quarry-30w.stage"), {"Q606", "Q607"});
  answers::SpreadAsked asked;
  asked.samples = 50;
  const auto spread = settled(answers::ask_spread(setup, asked));
  CHECK(spread.why_not_set.has_value());
  CHECK_FALSE(spread.readings.front().as_it_stands.outside_limit.has_value());
  CHECK(spread.readings.front().shares.parts.empty());
  auto warm = setup;
  warm.conditions.heat = solve::HeatState::warm;
  const auto warmup = settled(answers::ask_warmup(warm, {}));
  CHECK(warmup.set_with_all_parts == std::vector<bool>{false, true});
}

TEST_CASE("Stages of every kind answer without their outputs", "[answers][identity]") {
  const std::vector<std::pair<std::string, std::vector<std::string>>> stages = {
      {"tarn-70w.stage", {"Q807", "Q808"}},
      {"teasel-8w.stage", {"Q303", "Q304"}},
      {"bramble-8w.stage", {"Q702", "Q703"}},
      {"sedge-28w.stage", {"Q907", "Q908"}},
      {"corrie-70w.stage", {"Q410", "Q411"}}};
  for (const auto& [file, parts] : stages) {
    CAPTURE(file);
    const auto setup = without(exact(file), parts);
    const auto preset = preset_of(setup);
    CHECK(answers::is_good(preset));
    const auto of_whole = answers::set_with_all_parts(setup.stage, setup.conditions);
    CHECK(std::find(of_whole.begin(), of_whole.end(), true) != of_whole.end());
  }
}

}  // namespace idlepoint::tests
