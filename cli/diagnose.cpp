// `idlepoint diagnose FILE READING=VALUE ...` or `idlepoint diagnose JOB`: which fault explains
// these readings best, and what to measure next.

#include "answers/diagnose.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "ask.hpp"
#include "command.hpp"
#include "diagnose_ask.hpp"
#include "diagnose_job.hpp"
#include "language/bench_reading_text.hpp"
#include "language/fault_text.hpp"
#include "language/read_job.hpp"
#include "progress.hpp"
#include "report/diagnosis_words.hpp"
#include "report/json_diagnosis.hpp"
#include "report/text_diagnosis.hpp"

namespace idlepoint::cli {
namespace {

using circuit::BenchReading;

/// What is asked, and what was taken from a job for it.
struct Asked {
  answers::DiagnoseAsked asked;
  std::vector<std::string> taken;
};

/// Why there is nothing to ask, ready for standard error.
using AskedOrNot = std::variant<Asked, NotOpened>;

bool is_job(const std::string& path) { return path.ends_with(".job"); }

/// The same command line with its file alone; cold unless warm is asked for.
Given of_the_stage(const Given& given) {
  Given stage = given;
  stage.words.resize(1);
  if (!stage.has("--warm")) stage.values["--cold"] = {""};
  return stage;
}

std::vector<std::string> readings_given(const Given& given) {
  return {given.words.begin() + 1, given.words.end()};
}

void append_to(complaints::Complaints& all, const complaints::Complaints& some) {
  all.insert(all.end(), some.begin(), some.end());
}

// The readings of the command line behind those of the job; of one measurement in both, the one of
// the command line.
void add_readings(std::vector<BenchReading>& readings, const std::vector<BenchReading>& more) {
  for (const BenchReading& reading : more) {
    std::erase_if(readings, [&](const BenchReading& other) {
      return circuit::is_same_measurement(other.measurement, reading.measurement);
    });
  }
  readings.insert(readings.end(), more.begin(), more.end());
}

// A reading of the channel that works says something only beside the same one of this channel.
std::optional<Trouble> alone_on_the_other_channel(const answers::DiagnoseAsked& asked) {
  for (const BenchReading& sound : asked.sound_channel) {
    const bool here =
        std::any_of(asked.readings.begin(), asked.readings.end(), [&](const BenchReading& reading) {
          return circuit::is_same_measurement(reading.measurement, sound.measurement);
        });
    if (here) continue;
    return Trouble{
        fmt::format("--sound gives `{}`, and this channel has no such reading", sound.name),
        "Read the same points, red lead first, on both channels."};
  }
  return std::nullopt;
}

// The readings, the other channel's and the parts of the command line.
std::optional<NotOpened> read_words(const Given& given, answers::DiagnoseAsked& asked) {
  const circuit::Circuit& circuit = *asked.sound.stage;
  complaints::Complaints complaints;
  const auto readings = language::read_bench_readings(readings_given(given), circuit);
  if (readings) {
    add_readings(asked.readings, *readings);
  } else {
    append_to(complaints, readings.complaints());
  }
  const auto sound = language::read_bench_readings(given.all("--sound"), circuit);
  if (sound) {
    add_readings(asked.sound_channel, *sound);
  } else {
    append_to(complaints, sound.complaints());
  }
  for (const auto& text : given.all("--good")) {
    const auto part = language::read_part(text, circuit);
    if (!part) {
      append_to(complaints, part.complaints());
    } else if (std::find(asked.good.begin(), asked.good.end(), *part) == asked.good.end()) {
      asked.good.push_back(*part);
    }
  }
  if (!complaints.empty()) return NotOpened{complaints::render(complaints)};
  if (const auto trouble = alone_on_the_other_channel(asked)) return NotOpened{render(*trouble)};
  if (asked.readings.empty() && !given.has("--ask")) {
    return NotOpened{render(
        Trouble{"`diagnose` wants what was read",
                "Write each as in `upper=9.1mV` or \"volts A B=0.6V\"; with --ask it proposes the "
                "first measurement itself."})};
  }
  return std::nullopt;
}

std::variant<OpenedStage, NotOpened> open_channel(const Given& given,
                                                  const circuit::Job& job,
                                                  const TakenFromJob& taken) {
  const circuit::Channel& channel = job.channels[taken.channel];
  auto opened = open_drawing({channel.circuit, channel.warnings}, given);
  if (auto* stage = std::get_if<OpenedStage>(&opened)) {
    stage->edits.insert(stage->edits.begin(), taken.replaced.begin(), taken.replaced.end());
  }
  return opened;
}

AskedOrNot from_job(const Given& given) {
  const Given stage = of_the_stage(given);
  const auto job =
      language::read_job_file(given.words.front(), read_options_for(stage, {whole_shelf}));
  if (!job) return NotOpened{complaints::render(job.complaints())};
  auto tried = take_from_job(*job, stage);
  if (const auto* trouble = std::get_if<Trouble>(&tried)) return NotOpened{render(*trouble)};
  auto& taken = std::get<TakenFromJob>(tried);
  auto setup = setup_from(open_channel(stage, *job, taken));
  if (!setup) return NotOpened{};
  answers::DiagnoseAsked asked{std::move(*setup),
                               std::move(taken.readings),
                               std::move(taken.sound_channel),
                               std::move(taken.good)};
  return Asked{std::move(asked), std::move(taken.sentences)};
}

AskedOrNot from_stage(const Command& command, const Given& given) {
  for (const char* option : {"--channel", "--after"}) {
    if (given.has(option)) {
      return NotOpened{render(Trouble{fmt::format("`{}` is asked of a stage file", option),
                                      "Only a job file (`*.job`) has channels, and readings "
                                      "before and after the work."})};
    }
  }
  auto setup = stage_for(command.name, of_the_stage(given), {whole_shelf});
  if (!setup) return NotOpened{};
  return Asked{{std::move(*setup), {}, {}, {}}, {}};
}

std::optional<Trouble> diagnose_trouble(const Given& given) {
  if (given.words.empty()) {
    return Trouble{"`diagnose` wants a stage file or a job file",
                   "Write `idlepoint diagnose FILE READING=VALUE ...`."};
  }
  if (given.has("--ask") && given.words.front() == "-") {
    return Trouble{"--ask reads your answers from standard input, and so does -",
                   "Put the stage into a file."};
  }
  return std::nullopt;
}

ExitStatus run_diagnose(const Command& command, const Given& given) {
  if (const auto trouble = diagnose_trouble(given)) {
    complain(render(*trouble));
    return ExitStatus::not_understood;
  }
  auto made = is_job(given.words.front()) ? from_job(given) : from_stage(command, given);
  if (auto* asked = std::get_if<Asked>(&made)) {
    if (auto trouble = read_words(given, asked->asked)) made = std::move(*trouble);
  }
  if (const auto* trouble = std::get_if<NotOpened>(&made)) {
    complain(trouble->text);
    return ExitStatus::not_understood;
  }
  auto& asked = std::get<Asked>(made);
  const answers::Setup setup = asked.asked.sound;
  auto diagnosing = answers::Diagnosing::make(std::move(asked.asked));
  if (const auto* story = std::get_if<solve::NotSettled>(&diagnosing)) return tell(setup, *story);
  auto& asking = std::get<answers::Diagnosing>(diagnosing);
  Progress progress;
  auto answer = asking.answer([&](double share_done) { return progress.go_on(share_done); });
  progress.clear();
  const bool json = given.has("--json");
  if (!json) say(report::text_of(answer, setup.conditions, asked.taken, page_of_terminal()));
  if (given.has("--ask")) answer = ask_on(asking, std::move(answer), !json);
  if (json) say(report::json_of(answer, setup.conditions, asked.taken));
  return status_of(!report::fits_nothing(answer));
}

}  // namespace

Command diagnose_command() {
  Command command;
  command.name = "diagnose";
  command.usage = "FILE READING=VALUE ... [options], or diagnose JOB [options]";
  command.question =
      "These are my readings: which fault explains them best, and what do I measure next to "
      "decide?";
  command.more =
      "READING is a name of the file, or \"volts A B=0.6V\", \"amps R11=20mA\"; with the power off "
      "\"ohms A B=1k9\", \"diode A B=0.65V\". VALUE may be about 0.6V, jumps, drifts up, drifts "
      "down, and open of the ohms and the diode range. The red lead is on A. Just switched on, "
      "unless --warm. Exit status 1 where no cause in the list fits. Ctrl-C answers with what has "
      "been tried.";
  command.options = options_of_a_solve();
  const std::vector<Option> own = {
      {"--ask", "", "propose a measurement, take the answer, weigh again", false},
      {"--sound", "READING=VALUE", "the same point on the channel that works", true},
      {"--good", "Q5", "a part that was tested out of circuit and is good", true},
      {"--channel", "NAME", "of a job: the channel that is asked about", false},
      {"--after", "", "of a job: the readings after the work", false}};
  command.options.insert(command.options.begin(), own.begin(), own.end());
  command.example =
      "idlepoint diagnose netlists/quarry-30w.stage upper=0.0mV lower=0.0mV offset=3mV "
      "spread=2.15V";
  command.run = run_diagnose;
  return command;
}

}  // namespace idlepoint::cli
