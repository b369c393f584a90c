// `idlepoint crossover FILE`: which standing current makes the gain flattest through the middle.

#include "answers/crossover.hpp"

#include "ask.hpp"
#include "command.hpp"
#include "report/json_crossover.hpp"
#include "report/text_crossover.hpp"

namespace idlepoint::cli {
namespace {

ExitStatus run_crossover(const Command& command, const Given& given) {
  const auto setup = stage_for(command.name, given);
  if (!setup) return ExitStatus::not_understood;
  const auto outcome = answers::ask_crossover(*setup);
  if (const auto* story = std::get_if<solve::NotSettled>(&outcome)) return tell(*setup, *story);
  const auto& answer = std::get<answers::Crossover>(outcome);
  say(given.has("--json") ? report::json_of(answer) : report::text_of(answer, page_of_terminal()));
  return status_of(answers::is_good(answer));
}

}  // namespace

Command crossover_command() {
  Command command;
  command.name = "crossover";
  command.usage = "FILE [options]";
  command.question =
      "How flat is the gain as the output swings through the middle, and which standing current "
      "makes it flattest?";
  command.more =
      "The file must say where the output half is driven: `signal drive=NODE`. Exit status 1 where "
      "it does not, where nothing can be swept, and where no standing current stays cool.";
  command.options = options_of_a_solve();
  command.example = "idlepoint crossover netlists/spinney-45w.stage";
  command.run = run_crossover;
  return command;
}

}  // namespace idlepoint::cli
