// `idlepoint preset FILE`: where each trimmer belongs before the amplifier is switched on.

#include "answers/preset.hpp"

#include "ask.hpp"
#include "command.hpp"
#include "report/json_preset.hpp"
#include "report/text_preset.hpp"

namespace idlepoint::cli {
namespace {

ExitStatus run_preset(const Command& command, const Given& given) {
  const auto setup = stage_for(command.name, given);
  if (!setup) return ExitStatus::not_understood;
  const auto outcome = answers::ask_preset(*setup);
  if (const auto* story = std::get_if<solve::NotSettled>(&outcome)) return tell(*setup, *story);
  if (const auto* trouble = std::get_if<answers::ThermalStory>(&outcome)) {
    return tell(command.name, given, *trouble);
  }
  const auto& answer = std::get<answers::Preset>(outcome);
  say(given.has("--json") ? report::json_of(answer) : report::text_of(answer, page_of_terminal()));
  return status_of(answers::is_good(answer));
}

}  // namespace

Command preset_command() {
  Command command;
  command.name = "preset";
  command.usage = "FILE [options]";
  command.question =
      "Where do I set each trimmer before I switch on, which end is the safe one, how fast does it "
      "move, and what if the wiper lifts?";
  command.more =
      "Exit status 1 where a target is out of reach or a limit of the file is broken, and with the "
      "rails below 95 %, where no preset is given; 4 where the stage so set runs away or gets too "
      "hot as it warms up.";
  command.options = options_of_a_solve();
  command.example = "idlepoint preset netlists/quarry-30w.stage";
  command.run = run_preset;
  return command;
}

}  // namespace idlepoint::cli
