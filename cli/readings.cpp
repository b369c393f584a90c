// `idlepoint readings FILE`: the whole spine, from stage text to report.

#include "answers/readings.hpp"

#include "ask.hpp"
#include "command.hpp"
#include "report/json_readings.hpp"
#include "report/text_readings.hpp"

namespace idlepoint::cli {
namespace {

ExitStatus run_readings(const Command& command, const Given& given) {
  const auto setup = stage_for(command.name, given);  // text, circuit, checked circuit
  if (!setup) return ExitStatus::not_understood;
  const auto outcome = answers::ask_readings(*setup);  // equations, operating point, answer
  if (const auto* story = std::get_if<solve::NotSettled>(&outcome)) return tell(*setup, *story);
  if (const auto* trouble = std::get_if<answers::ThermalStory>(&outcome)) {
    return tell(command.name, given, *trouble);
  }
  const auto& answer = std::get<answers::Readings>(outcome);
  say(given.has("--json") ? report::json_of(answer)
                          : report::text_of(answer, page_of_terminal()));  // report
  return status_of(!answers::any_limit_broken(answer.readings));
}

}  // namespace

Command readings_command() {
  Command command;
  command.name = "readings";
  command.usage = "FILE [options]";
  command.question =
      "What should my meter show at every point, just switched on and warmed through?";
  command.more =
      "Exit status 1 where a limit of the file is broken; 4 where the stage runs away or gets too "
      "hot as it warms up.";
  command.options = options_of_a_solve();
  command.options.insert(
      command.options.begin(),
      Option{"--reading", "\"volts A B\"", "a point that the file does not name", true});
  command.example =
      "idlepoint readings netlists/quarry-30w.stage --rails 50% --reading \"volts x2 lo\"";
  command.run = run_readings;
  return command;
}

}  // namespace idlepoint::cli
