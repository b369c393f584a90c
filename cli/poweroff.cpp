// `idlepoint poweroff FILE`: what an ohm-meter and a diode range read in circuit, nothing lifted.

#include "answers/poweroff.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

#include "ask.hpp"
#include "command.hpp"
#include "progress.hpp"
#include "report/json_poweroff.hpp"
#include "report/text_poweroff.hpp"

namespace idlepoint::cli {
namespace {

// `ohms A B` and `diode A B` ask for the same two points as `volts A B`: both ranges are answered.
Given with_points_alone(Given given) {
  for (const char* range : {"ohms ", "diode "}) {
    const auto readings = given.values.find("--reading");
    if (readings == given.values.end()) break;
    for (std::string& text : readings->second) {
      if (text.starts_with(range)) text.replace(0, std::string_view(range).size(), "volts ");
    }
  }
  return given;
}

// The points of `--reading`, which stand last among the readings of the stage.
Tried<std::vector<circuit::VoltsBetween>> asked_points(const circuit::Circuit& circuit,
                                                       const Given& given) {
  const std::size_t asked = given.all("--reading").size();
  std::vector<circuit::VoltsBetween> list;
  for (std::size_t index = circuit.readings.size() - asked; index < circuit.readings.size();
       ++index) {
    const auto& reading = circuit.readings[index];
    const auto* points = std::get_if<circuit::VoltsBetween>(&reading.probe);
    if (points == nullptr) {
      return Trouble{fmt::format("`{}` cannot be measured with the power off", reading.name),
                     "Name two points, as in --reading \"ohms hi lo\"."};
    }
    if (points->a == points->b) {
      return Trouble{fmt::format("both leads of the meter on `{}`", circuit.at(points->a).name),
                     "Name two points, as in --reading \"ohms hi lo\"."};
    }
    list.push_back(*points);
  }
  return list;
}

ExitStatus run(const Command& command, const Given& asked_for) {
  const Given given = with_points_alone(asked_for);
  const auto setup = stage_for(command.name, given);
  if (!setup) return ExitStatus::not_understood;
  const auto asked = asked_points(*setup->stage, given);
  if (const auto* trouble = std::get_if<Trouble>(&asked)) {
    complain(render(*trouble));
    return ExitStatus::not_understood;
  }
  Progress progress;
  const auto outcome = answers::ask_poweroff(
      *setup, std::get<std::vector<circuit::VoltsBetween>>(asked), [&](double share_done) {
        return progress.go_on(share_done);
      });
  progress.clear();
  if (const auto* story = std::get_if<solve::NotSettled>(&outcome)) return tell(*setup, *story);
  const auto& answer = std::get<answers::PowerOff>(outcome);
  say(given.has("--json") ? report::json_of(answer) : report::text_of(answer, page_of_terminal()));
  return ExitStatus::answered;
}

// Of a stage with its power on.
bool is_of_power(const Option& option) { return option.name == "--rails"; }

}  // namespace

Command poweroff_command() {
  Command command;
  command.name = "poweroff";
  command.usage = "FILE [options]";
  command.question =
      "Power off, nothing lifted: what should my ohm-meter and my diode range read in circuit "
      "between these points, both ways round, and what would each suspect read instead?";
  command.more =
      "Without --reading: the readings of the file in volts, every junction of every transistor "
      "and diode, every resistor, and the ohms at which each trimmer's preset is found in circuit "
      "(--cold and --warm say which preset). Ctrl-C answers with the points done.";
  command.options = options_of_a_solve();
  std::erase_if(command.options, is_of_power);
  command.options.insert(command.options.begin(),
                         Option{"--reading", "\"ohms A B\"", "these two points alone", true});
  command.example = "idlepoint poweroff netlists/quarry-30w.stage --reading \"ohms x2 lo\"";
  command.run = run;
  return command;
}

}  // namespace idlepoint::cli
