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
    {"draft-help", "draft --help"},
    {"draft-list", "draft --list"},
    {"draft-near-miss", "draft quasy"},
    {"draft-check", "check netlists/drafts/one-diode.stage"},
    {"capacitor-help", "capacitor --help"},
    {"capacitor-alone",
     "capacitor capacitance=92u esr=0R31 frequency=1kHz leakage=4uA at=16V value=100u voltage=25V"},
    {"capacitor-replace",
     "capacitor capacitance=70u esr=2R frequency=120Hz value=100u voltage=25V"},
    {"quarry-capacitors", "capacitor netlists/quarry-30w.stage"},
    {"quarry-capacitor-one", "capacitor netlists/quarry-30w.stage C604 leakage=4uA at=16V"},
    {"quarry-capacitor-job", "capacitor netlists/quarry-bench.job"},
    {"writeup-help", "writeup --help"},
    {"check-help", "check --help"},
    {"readings-help", "readings --help"},
    {"preset-help", "preset --help"},
    {"spread-help", "spread --help"},
    {"warmup-help", "warmup --help"},
    {"crossover-help", "crossover --help"},
    {"sedge-crossover", "crossover netlists/sedge-28w.stage"},
    {"bramble-crossover", "crossover netlists/bramble-8w.stage"},
    {"poweroff-help", "poweroff --help"},
    {"quarry-poweroff", "poweroff netlists/quarry-30w.stage"},
    {"tarn-poweroff", "poweroff netlists/tarn-70w.stage"},
    {"bramble-poweroff", "poweroff netlists/bramble-8w.stage"},
    {"spinney-poweroff-shorted",
     "poweroff netlists/spinney-45w.stage --fault \"Q607 short c-e\" --reading \"ohms vpos e_hi\" "
     "--reading \"volts d5 e_hi\""},
    {"quarry-poweroff-one-point", "poweroff netlists/quarry-30w.stage --reading \"diode out out\""},
    {"hazards-help", "hazards --help"},
    {"quarry-hazards", "hazards netlists/quarry-30w.stage"},
    {"spinney-hazards", "hazards netlists/spinney-45w.stage"},
    {"swap-help", "swap --help"},
    {"shelf-help", "shelf --help"},
    {"fault-help", "fault --help"},
    {"diagnose-help", "diagnose --help"},
    {"quarry-diagnose-job", "diagnose netlists/quarry-bench.job --channel right"},
    {"bramble-diagnose-nothing-fits",
     "diagnose netlists/bramble-8w.stage upper=120mV lower=0.1mV mid=-22V rail=0.2mA"},
    {"fit-help", "fit --help"},
    {"sheet-help", "sheet --help"},
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
    {"powerup-help", "powerup --help"},
    {"bramble-powerup-lamp", "powerup netlists/bramble-8w.stage --lamp 60W"},
    {"teasel-powerup", "powerup netlists/teasel-8w.stage"},
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
    {"cairnfell-swap-one", "swap netlists/cairnfell-120w.stage Q507=power-npn --cold"},
    {"sedge-swap-spreader", "swap netlists/sedge-28w.stage \"D901=spreader driver-npn 2k2 1k2\""},
    {"sedge-swap-hot", "swap netlists/sedge-28w.stage \"D901=4 small-diode + 10R\""},
    {"spinney-preset-outputs-out",
     "preset netlists/spinney-45w.stage --without Q607 --without Q608"},
    {"quarry-readings-outputs-out",
     "readings netlists/quarry-30w.stage --without Q606 --without Q607"},
    {"tarn-preset-outputs-out", "preset netlists/tarn-70w.stage --without Q807 --without Q808"},
    {"quarry-swap-of-what-is-out",
     "swap netlists/quarry-30w.stage Q606=large-npn --without Q606 --without Q607"},
    {"quarry-swap-refused",
     "swap netlists/quarry-30w.stage Q606=power-pnp Q999=power-npn \"Q607=3 small-diode\""},
};

// Each read by hand beside the numbers of both states.
const Approved approved_faults[] = {
    {"fault-quarry-d601-open", "fault netlists/quarry-30w.stage \"D601 open\""},
    {"fault-quarry-vr602-wiper-open", "fault netlists/quarry-30w.stage \"VR602 wiper open\""},
    {"fault-quarry-q605-open", "fault netlists/quarry-30w.stage \"Q605 open\""},
    {"fault-quarry-r611-open", "fault netlists/quarry-30w.stage \"R611 open\""},
    {"fault-quarry-q605-leaks-c-e-10k", "fault netlists/quarry-30w.stage \"Q605 leaks c-e 10k\""},
    {"fault-quarry-c604-leaks-10k", "fault netlists/quarry-30w.stage \"C604 leaks 10k\""},
    {"fault-quarry-q603-open", "fault netlists/quarry-30w.stage \"Q603 open\""},
    {"fault-quarry-q606-short-c-e", "fault netlists/quarry-30w.stage \"Q606 short c-e\""},
    {"fault-spinney-q604-open", "fault netlists/spinney-45w.stage \"Q604 open\""},
    {"fault-spinney-r608-open", "fault netlists/spinney-45w.stage \"R608 open\""},
    {"fault-spinney-q607-short-c-e", "fault netlists/spinney-45w.stage \"Q607 short c-e\""},
    {"fault-spinney-q603-short-c-e", "fault netlists/spinney-45w.stage \"Q603 short c-e\""},
    {"fault-spinney-r604-open", "fault netlists/spinney-45w.stage \"R604 open\""},
    {"fault-spinney-q608-open", "fault netlists/spinney-45w.stage \"Q608 open\""},
    {"fault-spinney-r611-is-1r", "fault netlists/spinney-45w.stage \"R611 is 1R\""},
    {"fault-spinney-bridge-out-gnd", "fault netlists/spinney-45w.stage \"bridge out gnd\""},
    {"fault-spinney-q604-loose", "fault netlists/spinney-45w.stage \"Q604 loose\""},
    {"fault-spinney-rail-psu_p-lost", "fault netlists/spinney-45w.stage \"rail psu_p lost\""},
    {"fault-spinney-q606-short-b-e", "fault netlists/spinney-45w.stage \"Q606 short b-e\""},
    {"fault-corrie-q405-open", "fault netlists/corrie-70w.stage \"Q405 open\""},
    {"fault-corrie-vr401-wiper-open", "fault netlists/corrie-70w.stage \"VR401 wiper open\""},
    {"fault-drystone-r213-open", "fault netlists/drystone-40w.stage \"R213 open\""},
    {"fault-drystone-q208-open", "fault netlists/drystone-40w.stage \"Q208 open\""},
    {"fault-wherry-r603-open", "fault netlists/wherry-25w.stage \"R603 open\""},
    {"fault-wherry-c607-leaks-100r", "fault netlists/wherry-25w.stage \"C607 leaks 100R\""},
    {"fault-wherry-c601-leaks-47k", "fault netlists/wherry-25w.stage \"C601 leaks 47k\""},
    {"fault-wherry-d601-short", "fault netlists/wherry-25w.stage \"D601 short\""},
    {"fault-teasel-vr301-wiper-open", "fault netlists/teasel-8w.stage \"VR301 wiper open\""},
    {"fault-tarn-vr801-open-a", "fault netlists/tarn-70w.stage \"VR801 open a\""},
    {"fault-tarn-q807-short-d-s", "fault netlists/tarn-70w.stage \"Q807 short d-s\""},
    {"fault-bramble-th701-open", "fault netlists/bramble-8w.stage \"TH701 open\""},
    {"fault-bramble-q702-leaks-c-e-220r",
     "fault netlists/bramble-8w.stage \"Q702 leaks c-e 220R\""},
    {"fault-cairnfell-r511-open", "fault netlists/cairnfell-120w.stage \"R511 open\""},
    {"fault-cairnfell-q507-short-c-e", "fault netlists/cairnfell-120w.stage \"Q507 short c-e\""},
    {"fault-sedge-d901-open", "fault netlists/sedge-28w.stage \"D901 open\""},
    {"fault-two-faults", "fault netlists/quarry-30w.stage \"R605 open\" \"Q604 gain 20\" --warm"},
    {"fault-no-fault", "fault netlists/quarry-30w.stage"},
    {"fault-unknown-part", "fault netlists/quarry-30w.stage \"Q999 open\""},
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

void check_approved(const Approved& approved) {
  const std::string path = std::string("tests/approved/") + approved.name + ".txt";
  const std::string expected = has_approved(path) ? project_file(path) : "";
  const std::string received = whole_output(approved);
  if (received == expected) return;
  const auto beside = std::filesystem::current_path() / (std::string(approved.name) + ".received");
  std::ofstream(beside, std::ios::binary) << received;
  FAIL_CHECK("differs from " << path << "\n  read      diff " << path << " " << beside.string()
                             << "\n  approve   cp " << beside.string() << " " << path);
}

}  // namespace

TEST_CASE("Every command prints what was approved", "[acceptance][approval][heavy]") {
  for (const auto& approved : approved_outputs) {
    DYNAMIC_SECTION(approved.name) { check_approved(approved); }
  }
}

TEST_CASE("Every fault is explained as was approved", "[acceptance][approval]") {
  for (const auto& approved : approved_faults) {
    DYNAMIC_SECTION(approved.name) { check_approved(approved); }
  }
}

}  // namespace idlepoint::tests
