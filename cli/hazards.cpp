// `idlepoint hazards FILE`: which single fault turns the stage hard on, or puts its output at a
// rail?

#include "answers/hazards.hpp"

#include <algorithm>

#include "ask.hpp"
#include "command.hpp"
#include "progress.hpp"
#include "report/json_hazards.hpp"
#include "report/text_hazards.hpp"

namespace idlepoint::cli {
namespace {

ExitStatus run_hazards(const Command& command, const Given& given) {
  const auto setup = stage_for(command.name, given);
  if (!setup) return ExitStatus::not_understood;
  Progress progress;
  const auto outcome =
      answers::ask_hazards(*setup, [&](double share_done) { return progress.go_on(share_done); });
  progress.clear();
  if (const auto* story = std::get_if<solve::NotSettled>(&outcome)) return tell(*setup, *story);
  const auto& answer = std::get<answers::Hazards>(outcome);
  say(given.has("--json") ? report::json_of(answer) : report::text_of(answer, page_of_terminal()));
  return ExitStatus::answered;
}

// Always the first cold moment.
bool is_of_a_state(const Option& option) {
  return option.name == "--cold" || option.name == "--warm";
}

}  // namespace

Command hazards_command() {
  Command command;
  command.name = "hazards";
  command.usage = "FILE [options]";
  command.question =
      "Which single open, short or lifted wiper turns this stage hard on, or puts the output at a "
      "rail? What do I test out of circuit before I switch on?";
  command.more =
      "Tries every open, short, lifted leg and lifted wiper, and every resistor at half and at "
      "twice "
      "its value, one at a time, at the first cold moment. Ctrl-C answers with what has been "
      "tried.";
  command.options = options_of_a_solve();
  std::erase_if(command.options, is_of_a_state);
  command.example = "idlepoint hazards netlists/quarry-30w.stage";
  command.run = run_hazards;
  return command;
}

}  // namespace idlepoint::cli
