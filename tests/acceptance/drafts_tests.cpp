// Oracle: idle currents of invented stages of common proportions, worked out apart from this
// program with a simpler law (drafts_table.hpp).
#include <cmath>
#include <fstream>
#include <sstream>

#include "acceptance/drafts_table.hpp"
#include "acceptance/stages_demo.hpp"
#include "answers/check.hpp"
#include "answers/draft.hpp"

namespace idlepoint::tests {
namespace {

const std::string folder = IDLEPOINT_SOURCE_DIR "/netlists/drafts/";

language::ReadOptions with_shelf() {
  language::ReadOptions options;
  options.shelf_folder = IDLEPOINT_SOURCE_DIR "/netlists/shelf";
  return options;
}

std::string draft_text(const std::string& name) {
  std::ifstream file(folder + name + ".stage", std::ios::binary);
  INFO("draft " << name);
  REQUIRE(file);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

circuit::Circuit read_text(const std::string& text) {
  return required(language::read_stage(text, "draft", with_shelf())).circuit;
}

const std::string* value_named(const std::vector<std::pair<std::string, std::string>>& list,
                               const std::string& name) {
  for (const auto& [key, value] : list) {
    if (key == name) return &value;
  }
  return nullptr;
}

// A statement with its blank filled in and its trimmer turned; comments are left alone.
std::string filled_line(const std::string& line, const FilledDraft& draft) {
  std::string code = line.substr(0, line.find('#'));
  std::istringstream words(code);
  std::string keyword;
  std::string name;
  words >> keyword >> name;
  const std::size_t blank = code.find('?');
  if (blank != std::string::npos) {
    const std::string* value = value_named(draft.values, name);
    INFO("blank of " << name);
    REQUIRE(value != nullptr);
    code.replace(blank, 1, *value);
  }
  const std::size_t travel = code.find("at=");
  const std::string* turned = value_named(draft.travels, name);
  if (keyword == "trimmer" && turned != nullptr && travel != std::string::npos) {
    code.replace(travel + 3, code.find(' ', travel) - travel - 3, *turned);
  }
  return code;
}

std::string filled(const FilledDraft& draft) {
  std::istringstream lines(draft_text(draft.name));
  std::string text;
  for (std::string line; std::getline(lines, line);) text += filled_line(line, draft) + "\n";
  return text;
}

double read_v(const circuit::CheckedCircuit& stage,
              const solve::OperatingPoint& state,
              const std::string& name) {
  const auto reading = circuit::find_reading(*stage, name);
  INFO("reading " << name);
  REQUIRE(reading);
  const auto volts = std::get<circuit::VoltsBetween>(stage->at(*reading).probe);
  return state.voltage_v(volts.a) - state.voltage_v(volts.b);
}

}  // namespace

// A millivolt of junction drop is 2 % of the idle, so a law that leaves out the Early effect and
// the drivers' base currents may be a third away; 0R1 for 1R, or a diode short, is a factor of ten.
TEST_CASE("A draft filled with common values idles where such a stage does",
          "[acceptance][analytic]") {
  for (const FilledDraft& draft : filled_drafts()) {
    CAPTURE(draft.name);
    const auto stage = required(circuit::check_circuit(read_text(filled(draft))));
    CHECK(stage->blanks.empty());
    const auto state = settled(stage);
    const double upper_v = read_v(stage, state, "upper");
    CAPTURE(upper_v, draft.upper_v);
    CHECK(upper_v < 1.35 * draft.upper_v);
    CHECK(upper_v > draft.upper_v / 1.35);
    CHECK(std::abs(read_v(stage, state, draft.middle) - draft.middle_v) < draft.middle_within_v);
  }
}

TEST_CASE("A draft asks for some twenty values and has nothing else to complain of",
          "[acceptance][identity]") {
  for (const FilledDraft& draft : filled_drafts()) {
    CAPTURE(draft.name);
    const auto circuit = read_text(draft_text(draft.name));
    CHECK(circuit.blanks.size() >= 18);
    CHECK(circuit.blanks.size() <= 25);
    CHECK(circuit.blanks.size() == draft.values.size());
    const auto checked = circuit::check_circuit(circuit);
    REQUIRE_FALSE(checked);
    for (const auto& complaint : checked.complaints()) {
      const auto& facts = complaints::facts(complaint.kind);
      CAPTURE(complaint.headline);
      CHECK((facts.name == "blank" || facts.gravity == complaints::Gravity::warning));
    }
  }
}

TEST_CASE("A draft says what kind of stage it is and what to look for on the drawing",
          "[acceptance][identity]") {
  for (const FilledDraft& filled_draft : filled_drafts()) {
    const std::string text = draft_text(filled_draft.name);
    const auto draft = answers::make_draft(filled_draft.name, text, read_text(text));
    CAPTURE(draft.name);
    CHECK(draft.kind.size() > 30);
    CHECK(draft.kind.size() < 100);
    CHECK(draft.on_the_drawing.size() > 60);
    CHECK(draft.kind.ends_with("."));
  }
}

}  // namespace idlepoint::tests
