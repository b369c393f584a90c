// Oracle: whole outputs that a person has read and approved, in tests/approved.
//
// Where a text differs, the new one is written beside the test program, and the failure says how to
// compare and how to approve it.
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "acceptance/commands_program.hpp"

namespace idlepoint::tests {
namespace {

struct Approved {
  const char* name;   // tests/approved/NAME.txt
  const char* words;  // idlepoint WORDS
};

const Approved approved_outputs[] = {
    {"help", "--help"},
    {"check-help", "check --help"},
    {"readings-help", "readings --help"},
    {"preset-help", "preset --help"},
    {"spread-help", "spread --help"},
    {"warmup-help", "warmup --help"},
    {"swap-help", "swap --help"},
    {"shelf-help", "shelf --help"},
    {"fit-help", "fit --help"},
    {"fit-tester-npn", "fit netlists/points/tester-npn.points"},
    {"fit-crag-npn", "fit netlists/points/crag-npn.points"},
    {"fit-bead-diode", "fit netlists/points/bead-diode.points"},
    {"fit-points-disagree", "fit netlists/broken/points-disagree.points"},
    {"unknown-command", "presets netlists/quarry-30w.stage"},
    {"unknown-option", "preset netlists/quarry-30w.stage --ambiant 30C"},
    {"quarry-check", "check netlists/quarry-30w.stage"},
    {"quarry-readings", "readings netlists/quarry-30w.stage"},
    {"quarry-readings-half-rails", "readings netlists/quarry-30w.stage --rails 50%"},
    {"quarry-readings-fault", "readings netlists/quarry-30w.stage --fault \"VR602 wiper open\""},
    {"quarry-readings-too-hot", "readings netlists/quarry-30w.stage --fault \"D601 open\""},
    {"quarry-preset", "preset netlists/quarry-30w.stage"},
    {"quarry-preset-low-rails", "preset netlists/quarry-30w.stage --rails 70%"},
    {"bramble-readings", "readings netlists/bramble-8w.stage"},
    {"bramble-preset", "preset netlists/bramble-8w.stage"},
    {"tarn-readings", "readings netlists/tarn-70w.stage"},
    {"tarn-preset", "preset netlists/tarn-70w.stage"},
    {"spinney-readings-runaway", "readings netlists/spinney-45w.stage --fault \"Q604 loose\""},
    {"spinney-check-runaway", "check netlists/spinney-45w.stage --fault \"Q604 loose\""},
    {"tarn-readings-cold", "readings netlists/tarn-70w.stage --cold"},
    {"corrie-preset", "preset netlists/corrie-70w.stage"},
    {"wherry-preset", "preset netlists/wherry-25w.stage"},
    {"quarry-spread", "spread netlists/quarry-30w.stage"},
    {"corrie-spread", "spread netlists/corrie-70w.stage --samples 1000"},
    {"cairnfell-spread-cold", "spread netlists/cairnfell-120w.stage --cold --seed 2"},
    {"quarry-warmup", "warmup netlists/quarry-30w.stage --soak 20W:10min"},
    {"drystone-warmup", "warmup netlists/drystone-40w.stage --ambient-step 10K:30min"},
    {"bramble-warmup", "warmup netlists/bramble-8w.stage --soak 20W:10min"},
    {"wherry-warmup", "warmup netlists/wherry-25w.stage --at VR602=80%"},
    {"cairnfell-readings", "readings netlists/cairnfell-120w.stage"},
    {"quarry-swap", "swap netlists/quarry-30w.stage Q606=large-npn Q607=large-npn"},
    {"cairnfell-swap-one", "swap netlists/cairnfell-120w.stage Q507=power-npn"},
    {"sedge-swap-spreader", "swap netlists/sedge-28w.stage \"D901=spreader driver-npn 2k2 1k2\""},
    {"sedge-swap-hot", "swap netlists/sedge-28w.stage \"D901=4 small-diode + 10R\""},
    {"quarry-swap-refused",
     "swap netlists/quarry-30w.stage Q606=power-pnp Q999=power-npn \"Q607=3 small-diode\""},
};

std::string whole_output(const Approved& approved) {
  const Ran ran = run_program(approved.words);
  std::string text = std::string("idlepoint ") + approved.words + "\n";
  text += "exit status " + std::to_string(ran.status) + "\n";
  if (!ran.out.empty()) text += "\n" + ran.out;
  if (!ran.err.empty()) text += "\nstandard error:\n\n" + ran.err;
  return text;
}

bool has_approved(const std::string& path) {
  return std::filesystem::exists(std::string(IDLEPOINT_SOURCE_DIR "/") + path);
}

}  // namespace

TEST_CASE("Every command prints what was approved", "[acceptance][approval]") {
  for (const auto& approved : approved_outputs) {
    DYNAMIC_SECTION(approved.name) {
      const std::string path = std::string("tests/approved/") + approved.name + ".txt";
      const std::string expected = has_approved(path) ? project_file(path) : "";
      const std::string received = whole_output(approved);
      if (received == expected) continue;
      const auto beside =
          std::filesystem::current_path() / (std::string(approved.name) + ".received");
      std::ofstream(beside, std::ios::binary) << received;
      FAIL_CHECK("differs from " << path << "\n  read      diff " << path << " " << beside.string()
                                 << "\n  approve   cp " << beside.string() << " " << path);
    }
  }
}

}  // namespace idlepoint::tests
