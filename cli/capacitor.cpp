// `idlepoint capacitor [FILE [NAME]] capacitance=... esr=...`: keep or replace, and what its
// leakage does to the readings.

#include <fmt/format.h>

#include "answers/tested_capacitors.hpp"
#include "ask.hpp"
#include "capacitor_figures.hpp"
#include "command.hpp"
#include "language/read_job.hpp"
#include "report/json_capacitor.hpp"
#include "report/text_capacitor.hpp"

namespace idlepoint::cli {
namespace {

using answers::CapacitorLeaks;
using answers::TestedCapacitor;

ExitStatus not_understood(const Trouble& trouble) {
  complain(render(trouble));
  return ExitStatus::not_understood;
}

// What is printed on it must be known before anything can be judged.
std::optional<Trouble> lacking(const answers::CapacitorFigures& figures) {
  if (figures.value_f <= 0.0) {
    return Trouble{"nothing says what the capacitor ought to be",
                   "Write what is printed on it, such as `value=100u voltage=25V`."};
  }
  if (!figures.rated_v && (figures.esr_ohm || figures.leakage_a)) {
    return Trouble{"the limits of ESR and leakage need the rated voltage",
                   "Write what is printed on it, such as `voltage=25V`."};
  }
  return std::nullopt;
}

ExitStatus alone(const CapacitorWords& asked, const Given& given) {
  if (!asked.has_figures) {
    return not_understood({"`capacitor` wants what a tester showed, or a stage file",
                           "Write `idlepoint capacitor capacitance=92u esr=0R31 frequency=1kHz "
                           "value=100u voltage=25V`, or `idlepoint capacitor FILE`."});
  }
  if (const auto trouble = lacking(asked.figures)) return not_understood(*trouble);
  for (const auto& [option, values] : given.values) {
    if (option == "--json") continue;
    return not_understood({fmt::format("{} asks about a stage, and no file is named", option),
                           "Write `idlepoint capacitor FILE NAME ...`, or leave it out."});
  }
  const TestedCapacitor tested{"", answers::judge(asked.figures)};
  say(given.has("--json") ? report::json_of(tested, nullptr)
                          : report::verdict_text("", *tested.verdict, {}, page_of_terminal()));
  return status_of(tested.verdict->keep);
}

Trouble no_such_capacitor(const CapacitorLeaks& leaks, const std::string& name) {
  std::vector<std::string> names;
  for (const auto& one : leaks.capacitors) names.push_back(leaks.stage->at(one.part).name);
  return unknown_word(
      fmt::format("no capacitor is called `{}`", name), name, "The drawing's are", names);
}

// The drawing's value and rated voltage, where the command line gives none.
answers::CapacitorFigures figures_in(const CapacitorLeaks& leaks,
                                     std::size_t place,
                                     answers::CapacitorFigures figures) {
  const circuit::Part& part = leaks.stage->at(leaks.capacitors[place].part);
  if (figures.value_f <= 0.0) figures.value_f = part.value;
  if (!figures.rated_v) {
    figures.rated_v = std::get<circuit::CapacitorDetails>(part.details).rated_v;
  }
  return figures;
}

ExitStatus in_stage(const CapacitorWords& asked, const CapacitorLeaks& leaks, const Given& given) {
  if (asked.names.size() < 2) {
    if (asked.has_figures) {
      return not_understood({"nothing says which capacitor of the stage was measured",
                             "Write its name behind the file: `idlepoint capacitor FILE C604 "
                             "capacitance=92u`."});
    }
    say(given.has("--json") ? report::json_of(leaks) : report::text_of(leaks, page_of_terminal()));
    return ExitStatus::answered;
  }
  TestedCapacitor tested{asked.names[1], {}};
  tested.place = answers::place_of_capacitor(leaks, tested.name);
  if (!tested.place) return not_understood(no_such_capacitor(leaks, tested.name));
  if (asked.has_figures) {
    const auto figures = figures_in(leaks, *tested.place, asked.figures);
    if (const auto trouble = lacking(figures)) return not_understood(*trouble);
    tested.verdict = answers::judge(figures);
  }
  say(given.has("--json") ? report::json_of(tested, &leaks)
                          : report::text_of(leaks, tested, page_of_terminal()));
  return status_of(answers::all_keep({tested}));
}

// The leaks of a job's channel; none where its stage cannot be solved: the limits are judged all
// the same.
std::optional<CapacitorLeaks> leaks_of(const circuit::Channel& channel, const Given& given) {
  const auto opened = open_drawing({channel.circuit, channel.warnings}, given);
  const auto* stage = std::get_if<OpenedStage>(&opened);
  if (stage == nullptr) return std::nullopt;
  const auto setup = set_up(*stage);
  const auto* ready = std::get_if<answers::Setup>(&setup);
  if (ready == nullptr) return std::nullopt;
  auto outcome = answers::ask_leaks(*ready);
  auto* leaks = std::get_if<CapacitorLeaks>(&outcome);
  if (leaks == nullptr) return std::nullopt;
  return std::move(*leaks);
}

ExitStatus of_job(const CapacitorWords& asked, const Given& given) {
  if (asked.names.size() > 1 || asked.has_figures) {
    return not_understood({"a job says itself which capacitors were tested",
                           "Write `idlepoint capacitor JOB` alone."});
  }
  const auto job = language::read_job_file(asked.names.front(), read_options_for(given));
  if (!job) {
    complain(complaints::render(job.complaints()));
    return ExitStatus::not_understood;
  }
  std::vector<std::optional<CapacitorLeaks>> leaks(job->channels.size());
  std::vector<report::ChannelTests> channels;
  std::string text;
  bool keep = true;
  for (std::size_t k = 0; k < job->channels.size(); ++k) {
    const circuit::Channel& channel = job->channels[k];
    if (channel.capacitor_tests.empty()) continue;
    leaks[k] = leaks_of(channel, given);
    const CapacitorLeaks* solved = leaks[k] ? &*leaks[k] : nullptr;
    channels.push_back({&channel, solved, answers::judge_tests(channel, solved)});
    const auto& tested = channels.back().tested;
    keep = keep && answers::all_keep(tested);
    if (!text.empty()) text += "\n";
    text += report::channel_text(channel, solved, tested, job->scope, page_of_terminal());
  }
  if (channels.empty()) text = "No capacitor was tested in this job.\n";
  say(given.has("--json") ? report::json_of(*job, channels) : text);
  return status_of(keep);
}

ExitStatus run_capacitor(const Command& command, const Given& given) {
  const auto read = read_capacitor_words(given.words);
  if (const auto* trouble = std::get_if<Trouble>(&read)) return not_understood(*trouble);
  const auto& asked = std::get<CapacitorWords>(read);
  if (asked.names.size() > 2) {
    return not_understood(
        {fmt::format("`{}` is one word more than `capacitor` takes", asked.names[2]),
         "It takes a file and the name of one capacitor."});
  }
  if (asked.names.empty()) return alone(asked, given);
  if (asked.names.front().ends_with(".job")) return of_job(asked, given);
  Given of_the_stage = given;
  of_the_stage.words = {asked.names.front()};
  const auto setup = stage_for(command.name, of_the_stage);
  if (!setup) return ExitStatus::not_understood;
  const auto outcome = answers::ask_leaks(*setup);
  if (const auto* story = std::get_if<solve::NotSettled>(&outcome)) return tell(*setup, *story);
  if (const auto* story = std::get_if<answers::ThermalStory>(&outcome)) {
    return tell(command.name, given, *story);
  }
  return in_stage(asked, std::get<CapacitorLeaks>(outcome), given);
}

}  // namespace

Command capacitor_command() {
  Command command;
  command.name = "capacitor";
  command.usage = "[FILE [NAME]] [FIGURE=VALUE ...] [options]";
  command.question =
      "A measured capacitance, ESR and leakage: keep or replace, and what the leakage does to the "
      "readings.";
  command.more =
      "The figures are `capacitance=92u`, `esr=0R31` with `frequency=1kHz`, `leakage=4uA` with "
      "`at=16V`; `value=100u` and `voltage=25V` are what is printed on the part, which with FILE "
      "and NAME the drawing says. FILE alone tells how much leakage of each capacitor would "
      "matter; a job file (`*.job`) judges every capacitor that was tested. Exit status 1 where "
      "one is to be replaced.";
  command.options = options_of_a_solve();
  command.example =
      "idlepoint capacitor netlists/quarry-30w.stage C604 capacitance=92u esr=0R31 frequency=1kHz";
  command.run = run_capacitor;
  return command;
}

}  // namespace idlepoint::cli
