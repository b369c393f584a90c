// Oracle: docs/language.md, "Job files": each statement of the table, and the rules below it.
#include <catch2/catch.hpp>

#include "complaints/render.hpp"
#include "language/read_job.hpp"
#include "language/reading.hpp"

namespace idlepoint::language {
namespace {

using circuit::Firmness;
using circuit::Job;
using circuit::When;

const char* const left_stage =
    "rail vpos +28V\nnpn Q1 c=vpos b=b e=out type=t\nresistor R1 vpos b 10k\n"
    "resistor R2 out gnd 1k\nresistor R3 b gnd 10k\ncapacitor C1 out spk 1000u\n"
    "reading upper volts b out\nreading idle amps Q1\n"
    "type npn t saturation_current=10fA gain=100\ntype npn u saturation_current=1fA gain=90\n";

Files files() {
  return {{"left.stage", left_stage},
          {"right.stage", "based_on \"left.stage\"\nchange R2 value=910R\n"},
          {"deep/left.stage", left_stage},
          {"broken.stage", "resistor R1 a b\n"}};
}

Job job(const std::string& text, const std::string& name = "test.job") {
  const auto read = read_job(text, name, in_memory(files()));
  if (!read) FAIL(complaints::render(read.complaints()));
  return *read;
}

/// "kind@line:column", parted by blanks.
std::string job_refused(const std::string& text) {
  const auto read = read_job(text, "test.job", in_memory(files()));
  if (read) return "";
  std::string kinds;
  for (const auto& complaint : read.complaints()) {
    const auto& place = complaint.places.front();
    kinds += (kinds.empty() ? "" : " ") + std::string(complaints::facts(complaint.kind).name) +
             "@" + std::to_string(place.line) + ":" + std::to_string(place.column);
  }
  return kinds;
}

std::string refused_of_one(const std::string& statement) {
  return job_refused("stage_file \"left.stage\"\n" + statement + "\n");
}

}  // namespace

TEST_CASE("A job says what was agreed", "[language][identity]") {
  const Job read = job(
      "job \"One channel quiet\"\nowner_asked \"Make it play\"\nowner_asked \"Keep the knobs\"\n"
      "scope service\nstage_file \"left.stage\"\nnote \"smells of flux\"\n");
  CHECK(read.file == "test.job");
  CHECK(read.title == "One channel quiet");
  CHECK(read.owner_asked == std::vector<std::string>{"Make it play", "Keep the knobs"});
  CHECK(read.scope == circuit::Scope::service);
  CHECK(read.notes == std::vector<std::string>{"smells of flux"});
  REQUIRE(read.channels.size() == 1);
  CHECK(read.channels[0].name.empty());
  CHECK(read.channels[0].circuit.parts.size() == 5);
}

TEST_CASE("The stage file before the first channel holds for all that name none",
          "[language][identity]") {
  const Job read =
      job("stage_file \"left.stage\"\nchannel left\nnote \"a\"\nchannel right\n"
          "stage_file \"right.stage\"\nchannel left\nnote \"b\"\n");
  REQUIRE(read.channels.size() == 2);
  CHECK(read.channels[0].name == "left");
  CHECK(read.channels[0].notes == std::vector<std::string>{"a", "b"});
  CHECK(part(read.channels[0].circuit, "R2").value == Approx(1000.0));
  CHECK(part(read.channels[1].circuit, "R2").value == Approx(910.0));
  CHECK(job("stage_file \"left.stage\"\n", "deep/x.job").channels[0].circuit.parts.size() == 5);
}

TEST_CASE("What was measured is told as found and as left", "[language][identity]") {
  const Job read =
      job("stage_file \"left.stage\"\nmeasured upper 9.1mV\nmeasured upper 9.4mV when=after\n"
          "measured volts out gnd \"about 0.6V\" when=before\nmeasured ohms b out open\n"
          "measured diode b out 0.65V\nmeasured idle jumps\nmeasured volts b gnd \"drifts up\"\n"
          "measured amps vpos 12mA drifts down\n");
  const auto& measured = read.channels[0].measured;
  REQUIRE(measured.size() == 8);
  CHECK(measured[0].reading.value == Approx(9.1e-3));
  CHECK(measured[0].when == When::before);
  CHECK(measured[1].when == When::after);
  CHECK(measured[2].reading.firmness == Firmness::about);
  CHECK(measured[3].reading.name == "ohms b out");
  CHECK(measured[3].reading.firmness == Firmness::beyond_range);
  CHECK(measured[4].reading.value == Approx(0.65));
  CHECK(measured[5].reading.firmness == Firmness::jumps);
  CHECK(measured[6].reading.firmness == Firmness::drifts_up);
  CHECK(measured[7].reading.firmness == Firmness::drifts_down);
  CHECK(measured[7].reading.value == Approx(0.012));
}

TEST_CASE("What was changed and tested is told part by part", "[language][identity]") {
  const Job read =
      job("stage_file \"left.stage\"\nreplaced Q1 type=u why=\"noisy\"\nreplaced R2 value=820R\n"
          "sound R3\ncapacitor_test C1 capacitance=920u esr=0R2 frequency=100Hz\n"
          "capacitor_test C901 capacitance=4700u esr=0R03 frequency=1kHz leakage=12uA at=25V\n");
  const auto& channel = read.channels[0];
  REQUIRE(channel.replaced.size() == 2);
  CHECK(circuit::write_fault(channel.circuit, channel.replaced[1].edit) == "R2 is 820R");
  const auto& type = std::get<circuit::SetType>(channel.replaced[0].edit);
  CHECK(channel.circuit.at(type.type).name == "u");
  CHECK(channel.replaced[0].why == "noisy");
  REQUIRE(channel.sound.size() == 1);
  CHECK(channel.circuit.at(channel.sound[0]).name == "R3");
  REQUIRE(channel.capacitor_tests.size() == 2);
  CHECK(channel.capacitor_tests[0].part.has_value());
  CHECK(channel.capacitor_tests[0].capacitance_f == Approx(920e-6));
  CHECK(channel.capacitor_tests[0].frequency_hz == Approx(100.0));
  CHECK_FALSE(channel.capacitor_tests[1].part.has_value());
  CHECK(channel.capacitor_tests[1].leakage_a == Approx(12e-6));
  CHECK(channel.capacitor_tests[1].leakage_at_v == Approx(25.0));
}

TEST_CASE("A statement in the wrong file, or no statement at all, is said", "[language]") {
  CHECK(refused_of_one("resistor R9 a b 1k") == "statement-not-here@2:1");
  CHECK(refused_of_one("mesured upper 9mV") == "unknown-statement@2:1");
  CHECK(job_refused("stage_file \"left.stage\"\nmeasured upper 9mV\nchannel left\n") ==
        "statement-not-here@2:1");
  CHECK(kinds_of("measured upper 9mV\n").starts_with("statement-not-here@1:1"));
}

TEST_CASE("A job without a drawing is refused, and reads nothing outside its folder",
          "[language]") {
  CHECK(job_refused("job \"x\"\n") == "no-stage-file@0:0");
  CHECK(job_refused("channel left\nmeasured upper 9mV\n") == "no-stage-file@1:9");
  CHECK(job_refused("stage_file \"../left.stage\"\n") == "path-refused@1:12");
  CHECK(job_refused("stage_file \"/left.stage\"\n") == "path-refused@1:12");
  CHECK(job_refused("stage_file \"gone.stage\"\n") == "file-unreadable@1:12");
  std::string many = "stage_file \"left.stage\"\n";
  for (std::size_t channel = 0; channel <= most_channels; ++channel) {
    many += "channel c" + std::to_string(channel) + "\n";
  }
  CHECK(job_refused(many) == "out-of-range@18:9");
}

TEST_CASE("Complaints about a job and about its stage file come in one run", "[language]") {
  CHECK(
      job_refused("stage_file \"broken.stage\"\nmeasured upper\nmeasured nothing 9mV\nscop repair\n"
                  "replaced Q7 type=v\nmeasured upper soon\n") ==
      "missing-word@2:1 unknown-statement@4:1 reading-unreadable@6:16 missing-word@1:1");
}

TEST_CASE("Each slip of a statement has its complaint", "[language]") {
  CHECK(refused_of_one("measured upper") == "missing-word@2:1");
  CHECK(refused_of_one("measured volts out 9mV") == "missing-word@2:20");
  CHECK(refused_of_one("measured uper 9mV") == "unknown-reading@2:10");
  CHECK(refused_of_one("measured upper 9mV when=later") == "choice-expected@2:25");
  CHECK(refused_of_one("measured upper \"about 9mA\"") == "wrong-unit@2:23");
  CHECK(refused_of_one("measured upper 9mV\nmeasured volts out b 8mV") == "reading-twice@3:10");
  CHECK(refused_of_one("scope repaire") == "choice-expected@2:7");
  CHECK(refused_of_one("scope repair\nscope repair") == "statement-twice@3:1");
  CHECK(refused_of_one("sound R3\nsound R3") == "statement-twice@3:7");
  CHECK(refused_of_one("sound R33") == "unknown-part@2:7");
  CHECK(refused_of_one("replaced R2") == "missing-key@2:10");
  CHECK(refused_of_one("replaced R2 value=1k type=u") == "two-sources@2:19");
  CHECK(refused_of_one("replaced R2 type=u") == "fault-does-not-fit@2:10");
  CHECK(refused_of_one("replaced Q1 type=v") == "unknown-type@2:18");
  CHECK(refused_of_one("replaced Q1 value=3") == "fault-does-not-fit@2:13");
  CHECK(refused_of_one("replaced R2 value=?") == "value-unreadable@2:19");
  CHECK(refused_of_one("capacitor_test C1 capacitance=1u esr=1R") == "missing-key@2:1");
  CHECK(refused_of_one("capacitor_test R1 capacitance=1u esr=1R frequency=1kHz") ==
        "not-for-this-part@2:16");
  CHECK(refused_of_one("capacitor_test C1 capacitance=1u esr=1R frequency=1kHz at=9V") ==
        "missing-key@2:16");
  CHECK(refused_of_one("capacitor_test C1 capacitance=1u esr=? frequency=1kHz") ==
        "value-unreadable@2:38");
}

}  // namespace idlepoint::language
