// Oracle: reading is the inverse of writing: every field of the circuit comes back bit for bit.
#include "language/write_stage.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>

#include "complaints/render.hpp"
#include "language/generated_stage.hpp"
#include "language/reading.hpp"
#include "language/same_circuit.hpp"

namespace idlepoint::language {
namespace {

void check_round_trip(const circuit::Circuit& circuit) {
  const std::string text = write_stage(circuit);
  INFO(text);
  const auto again = read_stage(text, "again.stage");
  if (!again) FAIL(complaints::render(again.complaints()));
  CHECK(dump(again->circuit) == dump(circuit));
}

std::vector<std::string> stage_files(const std::string& folder) {
  std::vector<std::string> paths;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() == ".stage") paths.push_back(entry.path().string());
  }
  std::sort(paths.begin(), paths.end());
  return paths;
}

}  // namespace

TEST_CASE("Every stage file of the project comes back from its written form",
          "[language][identity]") {
  const std::string netlists = IDLEPOINT_SOURCE_DIR "/netlists";
  std::vector<std::string> paths = stage_files(netlists);
  for (const std::string& path : stage_files(netlists + "/published")) paths.push_back(path);
  CHECK(paths.size() > 10);
  for (const std::string& path : paths) {
    CAPTURE(path);
    ReadOptions options;
    options.shelf_folder = netlists;
    const auto read = read_stage_file(path, options);
    if (!read) FAIL(complaints::render(read.complaints()));
    if (read->circuit.blanks.empty()) check_round_trip(read->circuit);
  }
}

TEST_CASE("Stages made by chance come back from their written form", "[language][identity]") {
  for (std::uint32_t seed = 0; seed < 300; ++seed) {
    CAPTURE(seed);
    check_round_trip(sound(generated_stage(seed)));
  }
}

TEST_CASE("Wires without a name keep it", "[language][identity]") {
  check_round_trip(
      sound("rail R1.1 10V\nresistor R1 R1.1 Q1.b 1k\nresistor R0 R1.1 gnd 1k\n"
            "npn Q1 c=Q1.c b=R1.2 e=gnd type=t\nresistor R2 Q1.c R1.1 1k\n"
            "reading a volts Q1.c R2.1\ntype npn t saturation_current=1fA gain=9\n"));
}

}  // namespace idlepoint::language
