// Oracle: the exit statuses and the two streams of docs/commands.md.
#include <catch2/catch.hpp>

#include "acceptance/commands_program.hpp"
#include "report/says.hpp"

namespace idlepoint::tests {
namespace {

const std::string demo = "netlists/quarry-30w.stage";

// Nothing on standard output, something on standard error.
void check_refused(const Ran& ran, int status = 2) {
  CAPTURE(ran.out, ran.err);
  CHECK(ran.status == status);
  CHECK(ran.out.empty());
  CHECK_FALSE(ran.err.empty());
}

const std::string plain =
    "stage \"Plain\"\nrail vcc 10V resistance=0R\nresistor R1 vcc mid 10k\n"
    "resistor R2 mid gnd 10k\nreading joint volts mid gnd\n";

}  // namespace

TEST_CASE("An answer ends with 0 and complains of nothing", "[acceptance][identity]") {
  for (const char* command : {"check", "readings", "preset"}) {
    const Ran ran = run_program(std::string(command) + " " + demo);
    CAPTURE(command, ran.err);
    CHECK(ran.status == 0);
    CHECK_FALSE(ran.out.empty());
    CHECK(ran.err.empty());
  }
}

TEST_CASE("spread answers with 0, and refuses a number of samples that is none",
          "[acceptance][identity]") {
  const std::string tarn = "spread netlists/tarn-70w.stage --samples ";
  const Ran ran = run_program(tarn + "300");
  CHECK(ran.status == 0);
  CHECK_FALSE(ran.out.empty());
  CHECK(run_program(tarn + "300 --seed 2").out != ran.out);
  for (const char* samples : {"0", "many", "1.5", "2000000"}) {
    CAPTURE(samples);
    check_refused(run_program(tarn + samples));
  }
}

TEST_CASE("sheet asks where its page goes, and never writes over a file it reads",
          "[acceptance][identity]") {
  struct Refused {
    std::string words;
    const char* says;
  };
  for (const Refused& one : {Refused{"", "wants a stage file"},
                             Refused{demo, "no file is named"},
                             Refused{demo + " " + demo + " " + demo + " -o x.html", "one more"},
                             Refused{demo + " -o " + demo + " --force", demo.c_str()},
                             Refused{demo + " -o x.html --substitute Q6=power-npn", "Q6"}}) {
    CAPTURE(one.words);
    const Ran ran = run_program("sheet " + one.words);
    check_refused(ran);
    CHECK(says(ran.err, one.says));
  }
}

TEST_CASE("swap refuses what cannot take a part's place, and asks for what is missing",
          "[acceptance][identity]") {
  const std::string quarry = "swap netlists/quarry-30w.stage ";
  struct Refused {
    const char* words;
    const char* says;
  };
  for (const Refused& one : {Refused{"", "what takes which part's place"},
                             Refused{"Q606", "does not say"},
                             Refused{"Q606=power-pnp", "is the type of a pnp"},
                             Refused{"Q606=bias-diode", "is the type of a diode"},
                             Refused{"Q606=power-npm", "power-npn"},
                             Refused{"Q66=power-npn", "Q606"},
                             Refused{"R601=power-npn", "has no type"},
                             Refused{"Q606=large-npn Q606=large-npn", "replaced twice"},
                             Refused{"Q606=power-npn", "already"},
                             Refused{"Q606=2n3055", "no part type is called"},
                             Refused{"Q606=large-npn --rails 50%", "working rails"}}) {
    CAPTURE(one.words);
    const Ran ran = run_program(quarry + one.words);
    check_refused(ran);
    CHECK(says(ran.err, one.says));
  }
}

TEST_CASE("swap ends with 1 for an unsuitable part and with 4 where no place is safe",
          "[acceptance][identity]") {
  CHECK(run_program("swap netlists/cairnfell-120w.stage Q507=power-npn --cold").status == 1);
  // 20 V and 100 mA are 2 W: 4 K above the sink with one type, 400 K with the other.
  const std::string heater =
      "stage \"Heater\"\nrail vcc 20V\nheatsink HS resistance=1K/W\n"
      "trimmer VR1 vcc b gnd 10k\nnpn Q1 c=vcc b=b e=e type=cool on=HS\nresistor R1 e gnd 1R\n"
      "reading idle volts e gnd\nadjust VR1 until idle reads 100mV\n"
      "type npn cool saturation_current=1pA gain=200 junction_to_case=2K/W\n"
      "type npn fair saturation_current=1pA gain=200 junction_to_case=3K/W\n"
      "type npn hot saturation_current=1pA gain=200 junction_to_case=200K/W\n";
  CHECK(run_program("swap - Q1=fair", heater).status == 0);
  CHECK(run_program("swap - Q1=hot", heater).status == 4);
}

TEST_CASE("A dash reads the stage from standard input", "[acceptance][analytic]") {
  const Ran ran = run_program("readings -", plain);
  CHECK(ran.status == 0);
  CHECK(says(ran.out, "5.00 V"));
}

TEST_CASE("A broken limit ends with 1 and the whole answer", "[acceptance][identity]") {
  const Ran ran = run_program("readings -", plain + "limit joint 1V to 2V\n");
  CHECK(ran.status == 1);
  CHECK(says(ran.out, "outside your 1 V to 2 V"));
  const Ran json = run_program("readings - --json", plain + "limit joint 1V to 2V\n");
  CHECK(json.status == 1);
  CHECK(says(json.out, "\"within_limit\": false"));
}

TEST_CASE("A preset out of reach, on low rails, or of nothing ends with 1",
          "[acceptance][identity]") {
  CHECK(run_program("preset " + demo + " --rails 94%").status == 1);
  CHECK(run_program("preset " + demo + " --rails 95%").status == 0);
  CHECK(run_program("preset -", plain).status == 1);
  const std::string track = plain +
                            "trimmer VR1 vcc w gnd 10k\nresistor R3 w gnd 1M\n"
                            "reading wiper volts w gnd\n";
  CHECK(run_program("preset -", track + "adjust VR1 until wiper reads 20V\n").status == 1);
  CHECK(run_program("preset -", track + "adjust VR1 until wiper reads 2V\n").status == 0);
}

TEST_CASE("A check ends with 1 for an error of the drawing, a blank, a disagreeing voltage",
          "[acceptance][identity]") {
  const Ran loose = run_program("check -", plain + "resistor R3 mid loose 1k\n");
  CHECK(loose.status == 1);
  CHECK(says(loose.err, "loose"));
  CHECK_FALSE(loose.out.empty());
  const Ran blank = run_program("check -", plain + "resistor R3 mid gnd ?\n");
  CHECK(blank.status == 1);
  CHECK(says(blank.out, "R3"));
  CHECK(run_program("check -", plain + "printed volts mid gnd 7V\n").status == 1);
  CHECK(run_program("check -", plain + "printed volts mid gnd 5.1V\n").status == 0);
}

TEST_CASE("The other commands end with 2 for an error of the drawing and for a blank",
          "[acceptance][identity]") {
  for (const char* command : {"readings -", "preset -", "readings - --json"}) {
    check_refused(run_program(command, plain + "resistor R3 mid loose 1k\n"));
    check_refused(run_program(command, plain + "resistor R3 mid gnd ?\n"));
  }
}

TEST_CASE("Text that cannot be read ends with 2 for every command", "[acceptance][identity]") {
  for (const char* command : {"check", "readings", "preset"}) {
    check_refused(run_program(std::string(command) + " -", plain + "resistor R3 mid gnd 4,7k\n"));
    check_refused(
        run_program(std::string(command) + " - --json", plain + "resistr R3 mid gnd 1k\n"));
    check_refused(run_program(std::string(command) + " no-such-file.stage"));
    check_refused(run_program(std::string(command) + " netlists"));
    check_refused(run_program(command));
    check_refused(run_program(std::string(command) + " -", ""));
  }
}

TEST_CASE("A stage without a DC state ends with 3 and its story on standard error",
          "[acceptance][identity]") {
  const std::string driven =
      "stage \"Driven\"\nrail vcc 10V resistance=0R\nresistor R1 vcc gnd 1k\n"
      "feed I1 1A from=vcc into=a compliance=none\nresistor R2 a gnd 1k\n";
  for (const char* command : {"readings - --fault \"R2 open\"",
                              "readings - --json --fault \"R2 open\"",
                              "check - --fault \"R2 open\""}) {
    check_refused(run_program(command, driven), 3);
  }
}

TEST_CASE("A warm-up ends with 4 where it runs away, also only after loud music",
          "[acceptance][identity]") {
  CHECK(run_program("warmup " + demo).status == 0);
  CHECK(run_program("warmup netlists/wherry-25w.stage --at VR602=80%").status == 4);
  const Ran loud = run_program("warmup netlists/bramble-8w.stage --soak 20W:10min --json");
  CHECK(loud.status == 4);
  CHECK(says(loud.out, "\"during\": \"soak\""));
  CHECK_FALSE(says(loud.out, "\"readings\""));
  // Nothing there can heat: the soak has nowhere to go.
  CHECK(run_program("warmup -", plain).status == 0);
  CHECK(run_program("warmup - --soak 20W:10min", plain).status == 1);
}

TEST_CASE("A soak or another room without its time, or out of all proportion, is refused",
          "[acceptance][identity]") {
  for (const char* options : {"--soak 20W",
                              "--soak 20W:",
                              "--soak 20W:10",
                              "--soak 20W:0min",
                              "--soak 20W:25h",
                              "--soak 0W:10min",
                              "--soak -5W:10min",
                              "--soak 20V:10min",
                              "--ambient-step 0K:10min",
                              "--ambient-step 90K:10min"}) {
    CAPTURE(options);
    check_refused(run_program("warmup " + demo + " " + options));
  }
  CHECK(run_program("warmup " + demo + " --ambient-step -10C:0.5h").status == 0);
}

TEST_CASE("Steps that do not rise and a lamp that is none are refused with what to write",
          "[acceptance][identity]") {
  struct Refused {
    const char* options;
    const char* says;
  };
  for (const Refused& one : {Refused{"--steps 50%,25%", "does not rise"},
                             Refused{"--steps 50%,,75%", "--steps"},
                             Refused{"--steps 50", "--steps 25%,50%"},
                             Refused{"--steps 0%,50%", "out of range"},
                             Refused{"--lamp 60V", "--lamp 60V"},
                             Refused{"--lamp 1W", "5 W to 2000 W"},
                             Refused{"--lamp 60W --mains 12V", "80 V to 300 V"},
                             Refused{"--mains 230V", "without --lamp"}}) {
    const Ran ran = run_program("powerup " + demo + " " + one.options);
    CAPTURE(one.options, ran.err);
    check_refused(ran);
    CHECK(says(ran.err, one.says));
  }
}

TEST_CASE(
    "A power-up plan without a preset ends with 1 on low rails and with 0 where nothing is set",
    "[acceptance][identity]") {
  const Ran low = run_program("powerup netlists/tarn-70w.stage --rails 70% --steps 100% --json");
  CHECK(low.status == 1);
  CHECK(says(low.out, "\"no_preset\""));
  const Ran nothing = run_program("powerup - --lamp 60W", plain);
  CHECK(nothing.status == 0);
  CHECK(says(nothing.out, "230 V assumed"));
}

TEST_CASE("An unknown command names the nearest and lists the known ones",
          "[acceptance][identity]") {
  const Ran ran = run_program("reading " + demo);
  check_refused(ran);
  CHECK(says(ran.err, "`reading` is no command"));
  CHECK(says(ran.err, "Nearest is `readings`"));
  CHECK(says(ran.err, "check, readings, preset"));
  check_refused(run_program(""));
  check_refused(run_program("--cold readings " + demo));
}

TEST_CASE("An unknown option names the nearest and lists the known ones",
          "[acceptance][identity]") {
  const Ran ran = run_program("readings " + demo + " --rail 50%");
  check_refused(ran);
  CHECK(says(ran.err, "has no option `--rail`"));
  CHECK(says(ran.err, "Nearest is `--rails`"));
  check_refused(run_program("preset " + demo + " --reading \"volts out gnd\""));
  check_refused(run_program("readings " + demo + " -x"));
  check_refused(run_program("readings " + demo + " another.stage"));
}

TEST_CASE("An option without its value, twice, or with one that does not fit is refused",
          "[acceptance][identity]") {
  for (const char* options : {"--rails",
                              "--rails --json",
                              "--rails 50",
                              "--rails 0.5%",
                              "--rails 151%",
                              "--rails 50% --rails 60%",
                              "--rails []",
                              "--rails ''",
                              "--ambient 35V",
                              "--ambient -300C",
                              "--at VR602",
                              "--at VR602=140%",
                              "--at VR999=40%",
                              "--fault nonsense",
                              "--fault 'R611 gain 30'",
                              "--with Q606=nothing-known",
                              "--without Q999",
                              "--reading 'volts out'",
                              "--reading 'volts out nowhere'",
                              "--json=yes",
                              "--warm --cold"}) {
    CAPTURE(options);
    check_refused(run_program("readings " + demo + " " + options));
  }
}

TEST_CASE("Options act, and may be written with an equals sign", "[acceptance][analytic]") {
  const Ran half = run_program("readings - --rails=50%", plain);
  CHECK(half.status == 0);
  CHECK(says(half.out, "2.50 V"));
  CHECK(says(run_program("readings - --fault \"R2 is 30k\"", plain).out, "7.50 V"));
  CHECK(says(run_program("readings - --without R2", plain).out, "10.0 V"));
  CHECK(says(run_program("readings - --reading \"volts vcc mid\"", plain).out, "vcc to mid"));
  CHECK(says(run_program("readings - --ambient 35C", plain).out, "room 35 C"));
  CHECK(says(run_program("readings - --ambient -20C", plain).out, "room -20 C"));
}

TEST_CASE("Each command explains itself with an example that works", "[acceptance][identity]") {
  CHECK(run_program("--help").status == 0);
  CHECK(run_program("--version").out.starts_with("idlepoint "));
  for (const char* command : {"check", "readings", "preset"}) {
    const Ran help = run_program(std::string(command) + " --help");
    CHECK(help.status == 0);
    const auto example = help.out.rfind("  idlepoint ");
    REQUIRE(example != std::string::npos);
    const Ran ran =
        run_line(help.out.substr(example + 2, help.out.find('\n', example) - example - 2));
    CAPTURE(command, ran.err);
    CHECK(ran.status <= 1);
    CHECK(ran.err.empty());
  }
}

TEST_CASE("What fit prints is a types file that a stage can be solved with",
          "[acceptance][identity]") {
  const Ran fit = run_program("fit netlists/points/tester-npn.points");
  CHECK(fit.status == 0);
  CHECK(fit.err.empty());
  const std::string stage = fit.out +
                            "rail vc 5V resistance=0R\nrail vb 0.583V resistance=0R\n"
                            "npn Q1 c=vc b=vb e=gnd type=drawer-npn\nreading c amps Q1\n";
  const Ran ran = run_program("readings - --cold", stage);
  CHECK(ran.status == 0);
  CHECK(says(ran.out, "50 mA"));
}

TEST_CASE("fit answers contradictory points with 1, unreadable ones with 2",
          "[acceptance][identity]") {
  const std::string type = "type diode D\npoint vf 0.6V at if=1mA\n";
  CHECK(run_program("fit -", type).status == 0);
  const Ran torn = run_program("fit - --json", type + "point vf 0.7V at if=1mA\n");
  CHECK(torn.status == 1);
  CHECK(says(torn.out, "\"points-disagree\""));
  CHECK(says(torn.out, "\"determined\": true"));
  check_refused(run_program("fit -", type + "point vff 0.7V at if=1mA\n"));
  check_refused(run_program("fit no-such-file.points"));
  check_refused(run_program("fit"));
}

}  // namespace idlepoint::tests
