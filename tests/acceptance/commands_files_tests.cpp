// Oracle: the bytes on the disk, and the exit statuses of docs/commands.md; the character
// references of the HTML Living Standard.
#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "acceptance/commands_program.hpp"
#include "report/says.hpp"

namespace idlepoint::tests {
namespace {

namespace fs = std::filesystem;

class OwnFolder {
 public:
  OwnFolder() {
    std::string name = (fs::temp_directory_path() / "idlepoint-files-XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    path_ = name;
  }
  ~OwnFolder() { fs::remove_all(path_); }
  OwnFolder(const OwnFolder&) = delete;
  OwnFolder& operator=(const OwnFolder&) = delete;

  [[nodiscard]] std::string at(const std::string& name) const { return (path_ / name).string(); }
  [[nodiscard]] std::string quoted(const std::string& name) const { return "'" + at(name) + "'"; }
  [[nodiscard]] std::string text(const std::string& name) const {
    std::ostringstream text;
    text << std::ifstream(at(name), std::ios::binary).rdbuf();
    return text.str();
  }
  void write(const std::string& name, const std::string& text) const {
    std::ofstream(at(name), std::ios::binary) << text;
  }

 private:
  fs::path path_;
};

// A divider of two channels, with markup wherever a job may hold text.
const std::string divider =
    "stage \"<b>Divider</b>\"\nrail vcc 10V resistance=0R\nresistor R1 vcc mid 10k\n"
    "resistor R2 mid gnd 10k\ncapacitor C1 mid gnd 100u voltage=25V\n"
    "reading joint volts mid gnd\nlimit joint 4V to 6V\n";

std::string job_with(const std::string& after) {
  return "job \"<script>alert(1)</script>\"\nowner_asked \"<img src=x onerror=alert(2)>\"\n"
         "scope repair\nnote \"</style><svg/onload=alert(3)>\"\nchannel left\n"
         "stage_file \"divider.stage\"\nmeasured joint 5V\nchannel right\n"
         "stage_file \"divider.stage\"\nmeasured joint 9V\n"
         "replaced R2 value=10k why=\"it was <open> & \\\"burnt\\\"\"\n"
         "measured joint " +
         after +
         " when=after\n"
         "capacitor_test C1 capacitance=60u esr=0R1 frequency=120Hz\n"
         "note \"a <marquee>note</marquee>\"\n";
}

}  // namespace

TEST_CASE("A draft is written to a file, and over another only where that is asked for",
          "[acceptance][identity]") {
  const OwnFolder folder;
  const Ran printed = run_program("draft quasi");
  CHECK(printed.status == 0);
  CHECK(run_program("draft quasi -o " + folder.quoted("left.stage")).status == 0);
  CHECK(folder.text("left.stage") == printed.out);
  CHECK(folder.text("left.stage") == project_file("netlists/drafts/quasi.stage"));
  const Ran refused = run_program("draft stack --output=" + folder.quoted("left.stage"));
  CHECK(refused.status == 2);
  CHECK(says(refused.err, "--force"));
  CHECK(folder.text("left.stage") == printed.out);
  CHECK(run_program("draft stack --force -o " + folder.quoted("left.stage")).status == 0);
  CHECK(folder.text("left.stage") == run_program("draft stack").out);
}

TEST_CASE("check lists the blanks of a draft with their lines and ends with 1",
          "[acceptance][identity]") {
  const Ran check = run_program("check netlists/drafts/quasi.stage --json");
  CHECK(check.status == 1);
  const auto object = nlohmann::json::parse(check.out);
  CHECK(object["blanks"].size() == 21);
  CHECK(says(run_program("check netlists/drafts/quasi.stage").out, "line 15: the value of vpos"));
  CHECK(run_program("readings netlists/drafts/quasi.stage").status == 2);
}

TEST_CASE("A file in a place where none can be is refused and nothing is left there",
          "[acceptance][identity]") {
  const OwnFolder folder;
  const std::string inside = folder.quoted("");
  for (const std::string& place : {inside, std::string("/dev/full"), folder.quoted("no/page")}) {
    CAPTURE(place);
    const Ran ran = run_program("draft quasi --force -o " + place);
    CHECK(ran.status == 2);
    CHECK(ran.out.empty());
    CHECK(says(ran.err, "Do "));
  }
  CHECK(fs::is_empty(folder.at("")));
}

TEST_CASE("The owner's page shows markup in a job as text and asks for nothing from outside",
          "[acceptance][published]") {
  const OwnFolder folder;
  folder.write("divider.stage", divider);
  folder.write("bench.job", job_with("5.1V"));
  const std::string command = "writeup " + folder.quoted("bench.job") + " -o ";
  const Ran ran = run_program(command + folder.quoted("page.html") + " --json");
  CAPTURE(ran.err);
  CHECK(ran.status == 1);  // C1 is to be replaced
  const std::string page = folder.text("page.html");
  for (const char* markup : {"<script", "<img", "<svg", "<marquee", "<b>", "<open>"}) {
    CAPTURE(markup);
    CHECK(page.find(markup) == std::string::npos);
  }
  CHECK(says(page, "&lt;script&gt;alert(1)&lt;/script&gt;"));
  CHECK(says(page, "&quot;burnt&quot;"));
  for (const char* outside : {"http:", "https:", "url(", "@import", "href="}) {
    CAPTURE(outside);
    CHECK(page.find(outside) == std::string::npos);
  }
  const auto object = nlohmann::json::parse(ran.out);
  CHECK(object["channels"][0]["readings"][0]["outside_before"] == false);
  CHECK(object["channels"][1]["readings"][0]["outside_before"] == true);
  CHECK(object["channels"][1]["readings"][0]["outside_after"] == false);
  CHECK(object["channels"][1]["capacitors"][0]["fate"] == "to be replaced");
  CHECK(object["diagnose"].empty());
}

TEST_CASE("A channel that reads outside as it was left ends with 1 and offers the diagnosis",
          "[acceptance][identity]") {
  const OwnFolder folder;
  folder.write("divider.stage", divider);
  folder.write("bench.job", job_with("7V"));
  const Ran ran =
      run_program("writeup " + folder.quoted("bench.job") + " -o " + folder.quoted("page.html"));
  CHECK(ran.status == 1);
  CHECK(says(ran.out, "--channel right --after"));
  CHECK(says(folder.text("page.html"), "7.00&nbsp;V (outside)"));
}

TEST_CASE("The job and its stage files are never written over", "[acceptance][identity]") {
  const OwnFolder folder;
  folder.write("divider.stage", divider);
  folder.write("bench.job", job_with("5V"));
  for (const char* name : {"bench.job", "divider.stage"}) {
    CAPTURE(name);
    const Ran ran =
        run_program("writeup " + folder.quoted("bench.job") + " --force -o " + folder.quoted(name));
    CHECK(ran.status == 2);
    CHECK(says(ran.err, "never written over"));
  }
  CHECK(folder.text("divider.stage") == divider);
}

TEST_CASE("capacitor ends with 0 to keep, 1 to replace, 2 where it is not told enough",
          "[acceptance][identity]") {
  const std::string printed = " value=100u voltage=50V";
  CHECK(run_program("capacitor capacitance=92u" + printed).status == 0);
  CHECK(run_program("capacitor esr=1R33 frequency=120Hz" + printed).status == 1);
  const Ran json = run_program("capacitor --json esr=1R33 frequency=120Hz" + printed);
  const auto object = nlohmann::json::parse(json.out);
  CHECK(object["verdict"] == "replace");
  CHECK(object["limits"][0]["limit"].get<double>() == Approx(1.3263).epsilon(4e-5));
  for (const char* words : {"",
                            "capacitance=92u",
                            "esr=1R value=100u voltage=50V",
                            "esr=1R frequency=1kHz value=100u",
                            "leakage=1u value=100u voltage=50V",
                            "capacitance=92u value=100u capacitance=92u",
                            "capacity=92u value=100u",
                            "capacitance=minus value=100u",
                            "netlists/quarry-30w.stage C699",
                            "netlists/quarry-30w.stage capacitance=92u",
                            "capacitance=92u value=100u --cold"}) {
    CAPTURE(words);
    const Ran ran = run_program(std::string("capacitor ") + words);
    CHECK(ran.status == 2);
    CHECK(ran.out.empty());
    CHECK_FALSE(ran.err.empty());
  }
}

}  // namespace idlepoint::tests
