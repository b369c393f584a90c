// `idlepoint check FILE`: was the drawing copied right?
//
// Unlike the other commands it answers about a drawing that cannot be solved, too.

#include "answers/check.hpp"

#include "ask.hpp"
#include "command.hpp"
#include "report/json_check.hpp"
#include "report/text_check.hpp"

namespace idlepoint::cli {
namespace {

ExitStatus print_check(const answers::Check& check, const Given& given) {
  if (given.has("--json")) {
    say(report::json_of(check));
  } else {
    complain(complaints::render(report::complaints_beside(check)));
    say(report::text_of(check, page_of_terminal()));
  }
  if (check.trouble) return ExitStatus::thermal_trouble;
  return status_of(answers::is_good(check));
}

ExitStatus run_check(const Command& command, const Given& given) {
  const auto opened = open_stage(command.name, given);
  if (const auto* trouble = std::get_if<NotOpened>(&opened)) {
    complain(trouble->text);
    return ExitStatus::not_understood;
  }
  const auto& stage = std::get<OpenedStage>(opened);
  const auto setup = set_up(stage);
  if (const auto* trouble = std::get_if<NotOpened>(&setup)) {
    complain(trouble->text);
    return ExitStatus::not_understood;
  }
  if (const auto* refused = std::get_if<Refused>(&setup)) {
    return print_check(answers::refuse_drawing(stage.circuit, refused->complaints), given);
  }
  const auto& ready = std::get<answers::Setup>(setup);
  const auto outcome = answers::ask_check(ready);
  if (const auto* story = std::get_if<solve::NotSettled>(&outcome)) return tell(ready, *story);
  return print_check(std::get<answers::Check>(outcome), given);
}

}  // namespace

Command check_command() {
  Command command;
  command.name = "check";
  command.usage = "FILE [options]";
  command.question =
      "Did I copy the drawing right? Every complaint at once, and the calculated volts against "
      "those "
      "that the service sheet prints.";
  command.more =
      "Complaints go to standard error. Exit status 1 where the drawing has an error or a blank, "
      "where "
      "a printed voltage disagrees, or where a target is out of reach; 2 only where the text "
      "cannot be "
      "read; 4 where the stage runs away or gets too hot as it warms up.";
  command.options = options_of_a_solve();
  command.example = "idlepoint check netlists/quarry-30w.stage";
  command.run = run_check;
  return command;
}

}  // namespace idlepoint::cli
