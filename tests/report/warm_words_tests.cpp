// Oracle: every figure that the words give as a cure is put into the stage, which must then rest;
// docs/commands.md for what stands beside what.
#include <regex>

#include "answers/asked.hpp"
#include "report/says.hpp"
#include "report/text_preset.hpp"
#include "report/text_readings.hpp"
#include "report/thermal_words.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::tests {
namespace {

const report::Page wide{.width = 1000};

// The number that stands for the first group of `pattern`.
double figure_in(const std::string& text, const std::string& pattern) {
  std::smatch found;
  CAPTURE(text, pattern);
  REQUIRE(std::regex_search(text, found, std::regex(pattern)));
  return std::stod(found[1]);
}

template <class Change>
bool rests(const answers::Setup& setup, Change&& change) {
  const auto outcome = solve::solve_stage(setup.stage.edited(change), when_warm);
  return std::holds_alternative<solve::OperatingPoint>(outcome);
}

}  // namespace

TEST_CASE("Every cure holds as it is printed", "[report][identity]") {
  const auto setup = with_fault(drawn(practice_stage(), when_warm), "VR2 at 60%");
  const auto cures = report::advice(troubled(answers::ask_readings(setup)));

  const double ohms = figure_in(cures, "VR2 at ([0-9]+)R");
  CHECK(rests(setup, [&](circuit::Circuit& circuit) {
    auto& trimmer = circuit.at(*circuit::find_part(circuit, "VR2"));
    std::get<circuit::TrimmerDetails>(trimmer.details).travel = ohms / trimmer.value;
  }));
  const double sink = figure_in(cures, "heat sink of ([0-9.]+) K/W");
  CHECK(rests(setup, [&](circuit::Circuit& circuit) {
    circuit.heatsinks.at(0).resistance_k_per_w = sink;
  }));
  const double washer = figure_in(cures, "washers of ([0-9.]+) K/W");
  CHECK(rests(setup, [&](circuit::Circuit& circuit) {
    for (const char* output : {"Q6", "Q7"}) {
      circuit.at(*circuit::find_part(circuit, output)).mounting.washer_k_per_w = washer;
    }
  }));
  const double room_c = figure_in(cures, "room of ([0-9.]+) C");
  CHECK(rests(setup, [&](circuit::Circuit& circuit) { circuit.ambient_k = room_c + 273.15; }));
}

TEST_CASE("A part off its heat sink is said to go back", "[report][identity]") {
  const auto setup =
      with_fault(with_fault(drawn(practice_stage(), when_warm), "Q6 loose"), "VR2 at 50%");
  CHECK(says(report::text_of(troubled(answers::ask_readings(setup)), wide),
             "Q6 back on its heat sink"));
}

TEST_CASE("Cold alone says nothing of the heat, warm says how much comes back",
          "[report][identity]") {
  const auto cold = report::text_of(readings_of(drawn(practice_stage())), wide);
  CHECK(says(cold, "Just switched on:"));
  CHECK_FALSE(says(cold, "comes back"));
  CHECK_FALSE(says(cold, "warmed through"));
  const auto warm = report::text_of(readings_of(drawn(practice_stage(), when_warm)), wide);
  CHECK(says(warm, "Each extra watt comes back as 0.2"));
  CHECK(says(warm, "Q6 and Q7 on HS1"));
}

TEST_CASE("A preset whose reading is much the same cold is not warned of chasing",
          "[report][identity]") {
  const std::string text = practice_stage();
  CHECK(says(report::text_of(preset_of(drawn(text, when_warm)), wide), "do not chase it"));
  std::string patient = text;
  patient.replace(patient.find("within 1mV"), 10, "within 15mV");
  CHECK_FALSE(says(report::text_of(preset_of(drawn(patient, when_warm)), wide), "do not chase it"));
}

}  // namespace idlepoint::tests
