// Oracle: docs/language.md on `types`, `based_on` and `change`.
#include <catch2/catch.hpp>

#include "language/paths.hpp"
#include "language/reading.hpp"

namespace idlepoint::language {
namespace {

const char* const npn = "type npn t saturation_current=10fA gain=100\n";
const char* const one_npn = "npn Q1 c=vpos b=x e=gnd type=t\n";

const Files left = {{"left.stage",
                     "stage \"Left\"\nambient 30C\nrail vpos +28V\nresistor R1 vpos x 1k power=3W\n"
                     "resistor R2 x gnd 1k\ntrimmer VR1 x w gnd 1k\nresistor R3 w gnd 9k\n"
                     "reading a volts x gnd\nlimit a 1V to 2V\nadjust VR1 until a reads 1V\n"
                     "meter error=1%\nprinted volts x gnd 14V\n"}};

}  // namespace

TEST_CASE("Types come from a file beside the stage, from its folders, never from above",
          "[language][identity]") {
  const Files files = {{"a.types", npn}, {"sub/b.types", npn}};
  CHECK(sound(around("types \"a.types\"\n") + one_npn, files).types.size() == 1);
  CHECK(sound(around("types \"sub/b.types\"\n") + one_npn, files).types.size() == 1);
  CHECK(sound(around("types \"./sub/../a.types\"\n") + one_npn, files).types.size() == 1);
  for (const char* path : {"../a.types",
                           "/etc/a.types",
                           "sub/../../a.types",
                           "C:/a.types",
                           "sub\\\\a.types",
                           "",
                           "."}) {
    CAPTURE(path);
    CHECK(kinds_of(around("types \"" + std::string(path) + "\"\n") + one_npn, files) ==
          "path-refused@4:7");
  }
  CHECK(kinds_of(around("types \"no.types\"\n") + one_npn, files) == "file-unreadable@4:7");
}

TEST_CASE("A path is taken from the file it stands in", "[language][identity]") {
  CHECK(std::get<std::string>(path_inside("sub/", "../a.types")) == "a.types");
  CHECK(std::get<std::string>(path_inside("sub/", "a.types")) == "sub/a.types");
  CHECK(std::holds_alternative<PathRefused>(path_inside("sub/", "../../a.types")));
  CHECK(folder_of("a/b/c.stage") == "a/b/");
  CHECK(folder_of("c.stage").empty());
  CHECK(folder_of("-").empty());
  const auto read = read_stage(
      around("types \"a.types\"\n") + one_npn, "work/x.stage", in_memory({{"work/a.types", npn}}));
  CHECK(read.has_value());
}

TEST_CASE("A types file holds types, and its slips are shown in it", "[language][identity]") {
  CHECK_THAT(said_of(around("types \"a.types\"\n") + one_npn,
                     {{"a.types", "# x\ntype npn t saturation_current=10fA gian=100\n"}}),
             Catch::Matchers::Contains("a.types: `type` knows no `gian=`") &&
                 Catch::Matchers::Contains("line 2, column 36"));
  CHECK_THAT(said_of(around("types \"a.types\"\n") + one_npn,
                     {{"a.types", std::string(npn) + "resistor R1 a b 1k\n"}}),
             Catch::Matchers::Contains("does not belong in a types file"));
}

TEST_CASE("The stage's own type wins over one of a types file, and two files may not differ",
          "[language][identity]") {
  const std::string own = "type npn t saturation_current=10fA gain=42\n";
  const auto circuit = sound(around("types \"a.types\"\n") + one_npn + own, {{"a.types", npn}});
  REQUIRE(circuit.types.size() == 1);
  CHECK(std::get<devices::BipolarData>(circuit.types[0].law).gain == 42.0);
  CHECK(kinds_of(around("types \"a.types\"\ntypes \"b.types\"\n") + one_npn,
                 {{"a.types", npn}, {"b.types", npn}}) == "type-twice@1:10");
  CHECK(kinds_of(around("types \"a.types\"\ntypes \"a.types\"\n") + one_npn, {{"a.types", npn}})
            .empty());
}

TEST_CASE("The right channel is the left one with its own values", "[language][identity]") {
  const auto circuit = sound(
      "stage \"Right\"\nbased_on \"left.stage\"\nchange R1 value=1k2 tolerance=1%\n"
      "change VR1 at=40%\nchange R3 absent\nresistor R4 w gnd 8k2\nambient 20C\nrail vpos +30V\n"
      "limit a 2V to 3V\nadjust VR1 until a reads 2V\nmeter error=2%\nprinted volts x gnd 15V\n",
      left);
  CHECK(circuit.title == "Right");
  CHECK(circuit.ambient_k == Approx(293.15));
  CHECK(part(circuit, "R1").value == 1200.0);
  CHECK(part(circuit, "R1").tolerance == 0.01);
  CHECK(std::get<circuit::ResistorDetails>(part(circuit, "R1").details).power_w == 3.0);
  CHECK(part(circuit, "R2").value == 1000.0);
  CHECK(std::get<circuit::TrimmerDetails>(part(circuit, "VR1").details).travel == 0.4);
  CHECK_FALSE(circuit::find_part(circuit, "R3"));
  CHECK(part(circuit, "R4").value == 8200.0);
  REQUIRE(circuit.rails.size() == 1);
  CHECK(circuit.rails[0].nominal_v == 30.0);
  CHECK(circuit.readings.at(0).limit->low == 2.0);
  REQUIRE(circuit.adjustments.size() == 1);
  CHECK(circuit.adjustments[0].target == 2.0);
  CHECK(circuit.meter.error == 0.02);
  REQUIRE(circuit.printed.size() == 1);
  CHECK(circuit.printed[0].volts == 15.0);
}

TEST_CASE("All of the first file holds where nothing is written again", "[language][identity]") {
  const auto circuit = sound("stage \"Right\"\nbased_on \"left.stage\"\n", left);
  CHECK(circuit.title == "Right");
  CHECK(circuit.ambient_k == Approx(303.15));
  CHECK(circuit.adjustments.size() == 1);
  CHECK(circuit.parts.size() == 4);
}

TEST_CASE("What a change cannot mean is answered", "[language][identity]") {
  const std::string base = "based_on \"left.stage\"\n";
  CHECK(kinds_of(base + "change R9 value=1k\n", left) == "unknown-part@2:8");
  CHECK(kinds_of(base + "change R1\n", left) == "missing-key@2:1");
  CHECK(kinds_of(base + "change R1 gone\n", left) == "choice-expected@2:11");
  CHECK(kinds_of(base + "change R1 valeu=1k\n", left) == "unknown-key@2:11");
  CHECK(kinds_of(base + "change R1 value=1,2\n", left) == "decimal-comma@2:17");
  CHECK(kinds_of(base + "resistor R1 x gnd 1k\n", left).find("name-twice") == 0);
  CHECK_THAT(said_of(base + "change VR1 absent\n", left),
             Catch::Matchers::Contains("was taken out by `change VR1 absent`"));
  CHECK(kinds_of(around("change R1 value=1k\n")) == "change-without-base@4:1");
}

TEST_CASE("Circles and chains of more than eight files are refused", "[language][identity]") {
  CHECK(kinds_of("based_on \"test.stage\"\n") == "based-on-circle@1:10");
  CHECK(kinds_of("based_on \"b.stage\"\n", {{"b.stage", "based_on \"test.stage\"\n"}}) ==
        "based-on-circle@1:10");
  Files chain;
  for (int link = 2; link <= 8; ++link) {
    chain[std::to_string(link) + ".stage"] =
        link == 8 ? around("") : "based_on \"" + std::to_string(link + 1) + ".stage\"\n";
  }
  CHECK(kinds_of("based_on \"2.stage\"\n", chain).empty());
  chain["8.stage"] = "based_on \"9.stage\"\n";
  chain["9.stage"] = around("");
  CHECK(kinds_of("based_on \"2.stage\"\n", chain) == "based-on-too-deep@1:10");
}

TEST_CASE("A mounting changed in a later file wins over `mounted` in the first",
          "[language][identity]") {
  const Files base = {{"base.stage",
                       around("npn Q1 c=vpos b=x e=gnd type=t\nheatsink HS1 resistance=2K/W\n"
                              "heatsink HS2 resistance=1K/W\nmounted Q1 on=HS1\n") +
                           npn}};
  const auto circuit = sound("based_on \"base.stage\"\nchange Q1 on=HS2\n", base);
  CHECK(circuit.at(*part(circuit, "Q1").mounting.heatsink).name == "HS2");
}

TEST_CASE("Folders, devices and missing files are told apart", "[language][identity]") {
  const auto words = [](const std::string& path) {
    const auto read = read_stage_file(path);
    REQUIRE_FALSE(read.has_value());
    return read.complaints().at(0).headline;
  };
  CHECK(words(IDLEPOINT_SOURCE_DIR) == "the file is a directory");
  CHECK(words("/dev/null") == "the file is no ordinary file");
  CHECK(words(IDLEPOINT_SOURCE_DIR "/no such.stage") ==
        "the file cannot be opened: there is no such file");
}

}  // namespace idlepoint::language
