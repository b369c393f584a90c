// `idlepoint powerup FILE`: the rails brought up in steps, what to see at each, and when to switch
// off.

#include "answers/powerup.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "ask.hpp"
#include "command.hpp"
#include "report/json_powerup.hpp"
#include "report/text_powerup.hpp"
#include "value_option.hpp"
#include "values/quantity.hpp"

namespace idlepoint::cli {
namespace {

constexpr double lowest_step = 0.01;
constexpr double highest_step = 1.5;
constexpr std::size_t most_steps = 12;
const char* const steps_shown = "Write them as in `--steps 25%,50%,75%,100%`, rising.";

Tried<std::vector<double>> read_steps(const std::string& written) {
  std::vector<double> steps;
  std::size_t begin = 0;
  while (begin <= written.size()) {
    const std::size_t end = std::min(written.find(',', begin), written.size());
    const std::string one = written.substr(begin, end - begin);
    const auto read = values::read_value(one, values::Unit::percent);
    if (const auto* problem = std::get_if<values::ValueProblem>(&read)) {
      return Trouble{fmt::format("--steps {}: {}", written, problem->headline), steps_shown};
    }
    const double step = std::get<double>(read);
    if (step < lowest_step || step > highest_step) {
      return Trouble{fmt::format("--steps {}: {} is out of range", written, one),
                     "A step is 1 % to 150 % of the rails."};
    }
    if (!steps.empty() && step <= steps.back()) {
      return Trouble{fmt::format("--steps {}: {} does not rise", written, one), steps_shown};
    }
    steps.push_back(step);
    begin = end + 1;
  }
  if (steps.size() > most_steps) {
    return Trouble{fmt::format("--steps has {} steps", steps.size()), "It takes at most 12."};
  }
  return steps;
}

Tried<std::optional<answers::SeriesLamp>> read_lamp(const Given& given) {
  if (!given.has("--lamp")) {
    if (!given.has("--mains")) return std::optional<answers::SeriesLamp>{};
    return Trouble{"--mains says nothing without --lamp",
                   "Add the lamp, as in `--lamp 60W --mains 230V`, or leave --mains out."};
  }
  answers::SeriesLamp lamp;
  const auto rated = value_of(
      given, "--lamp", values::Unit::watt, 5.0, 2000.0, "5 W to 2000 W, as in `--lamp 60W`");
  if (const auto* trouble = std::get_if<Trouble>(&rated)) return *trouble;
  lamp.rated_w = std::get<double>(rated);
  lamp.mains_assumed = !given.has("--mains");
  if (!lamp.mains_assumed) {
    const auto mains = value_of(
        given, "--mains", values::Unit::volt, 80.0, 300.0, "80 V to 300 V, as in `--mains 230V`");
    if (const auto* trouble = std::get_if<Trouble>(&mains)) return *trouble;
    lamp.mains_v = std::get<double>(mains);
  }
  return std::optional{lamp};
}

Tried<answers::PowerupAsked> read_powerup_asked(const Given& given) {
  answers::PowerupAsked asked;
  if (given.has("--steps")) {
    auto steps = read_steps(given.all("--steps").back());
    if (const auto* trouble = std::get_if<Trouble>(&steps)) return *trouble;
    asked.steps = std::get<std::vector<double>>(std::move(steps));
  }
  const auto lamp = read_lamp(given);
  if (const auto* trouble = std::get_if<Trouble>(&lamp)) return *trouble;
  asked.lamp = std::get<std::optional<answers::SeriesLamp>>(lamp);
  return asked;
}

ExitStatus run_powerup(const Command& command, const Given& given) {
  const auto asked = read_powerup_asked(given);
  if (const auto* trouble = std::get_if<Trouble>(&asked)) {
    complain(render(*trouble));
    return ExitStatus::not_understood;
  }
  const auto setup = stage_for(command.name, given);
  if (!setup) return ExitStatus::not_understood;
  const auto outcome = answers::ask_powerup(*setup, std::get<answers::PowerupAsked>(asked));
  if (const auto* story = std::get_if<solve::NotSettled>(&outcome)) return tell(*setup, *story);
  if (const auto* trouble = std::get_if<answers::ThermalStory>(&outcome)) {
    return tell(command.name, given, *trouble);
  }
  const auto& answer = std::get<answers::Powerup>(outcome);
  say(given.has("--json") ? report::json_of(answer) : report::text_of(answer, page_of_terminal()));
  return status_of(answers::is_good(answer));
}

std::vector<Option> options_of_a_powerup() {
  std::vector<Option> options = options_of_a_solve();
  options.insert(
      options.begin(),
      {{"--steps", "25%,50%,75%,100%", "the rails in these steps, each a part of their volts"},
       {"--lamp", "60W", "a filament lamp in the mains lead: what it shows"},
       {"--mains", "230V", "the mains that lamp is made for; 230 V if not given"}});
  return options;
}

}  // namespace

Command powerup_command() {
  Command command;
  command.name = "powerup";
  command.usage = "FILE [options]";
  command.question =
      "With the rails at 25, 50, 75 and 100 % (series lamp or variable transformer), what should I "
      "see at each step, and at which reading do I switch off?";
  command.more =
      "Every figure is a first cold moment, with the trimmers at their safe end and at their "
      "preset; --cold and --warm choose which preset. Exit status 1 where a target is out of reach "
      "and with the rails below 95 %, where no preset is given; 4 where the stage finds no rest as "
      "it warms up.";
  command.options = options_of_a_powerup();
  command.example = "idlepoint powerup netlists/teasel-8w.stage --lamp 60W";
  command.run = run_powerup;
  return command;
}

}  // namespace idlepoint::cli
