// `idlepoint warmup FILE`: how the readings move from switch-on until all is warm.

#include "answers/warmup.hpp"

#include <cmath>

#include "ask.hpp"
#include "command.hpp"
#include "report/json_warmup.hpp"
#include "report/text_warmup.hpp"
#include "time_options.hpp"

namespace idlepoint::cli {
namespace {

constexpr double most_watts = 1000.0;
constexpr double largest_step_k = 60.0;

Tried<answers::WarmupAsked> read_warmup_asked(const Given& given) {
  answers::WarmupAsked asked;
  const auto soak = read_for_a_time(given, "--soak", values::Unit::watt, "20W:10min");
  if (const auto* trouble = std::get_if<Trouble>(&soak)) return *trouble;
  if (const auto& loud = std::get<std::optional<ForATime>>(soak)) {
    if (!(loud->amount > 0.0) || loud->amount > most_watts) {
      return Trouble{"--soak " + given.all("--soak").back() + " is out of range",
                     "--soak takes more than 0 W and at most 1000 W."};
    }
    asked.soak = answers::Soak{loud->amount, loud->lasts_s};
  }
  const auto step = read_for_a_time(given, "--ambient-step", values::Unit::kelvin, "10K:30min");
  if (const auto* trouble = std::get_if<Trouble>(&step)) return *trouble;
  if (const auto& room = std::get<std::optional<ForATime>>(step)) {
    if (room->amount == 0.0 || std::abs(room->amount) > largest_step_k) {
      return Trouble{"--ambient-step " + given.all("--ambient-step").back() + " is out of range",
                     "--ambient-step takes -60K to 60K, not 0."};
    }
    asked.room_step = answers::RoomStep{room->amount, room->lasts_s};
  }
  return asked;
}

ExitStatus run_warmup(const Command& command, const Given& given) {
  const auto asked = read_warmup_asked(given);
  if (const auto* trouble = std::get_if<Trouble>(&asked)) {
    complain(render(*trouble));
    return ExitStatus::not_understood;
  }
  const auto setup = stage_for(command.name, given);
  if (!setup) return ExitStatus::not_understood;
  const auto& wanted = std::get<answers::WarmupAsked>(asked);
  const auto outcome = answers::ask_warmup(*setup, wanted);
  if (const auto* story = std::get_if<solve::NotSettled>(&outcome)) return tell(*setup, *story);
  const auto& answer = std::get<answers::Warmup>(outcome);
  say(given.has("--json") ? report::json_of(answer) : report::text_of(answer, page_of_terminal()));
  if (answer.trouble) return ExitStatus::thermal_trouble;
  return status_of(answers::is_good(answer, wanted));
}

// The state is not to be chosen here: it goes from the cold one to the warm one.
std::vector<Option> options_of_a_warmup() {
  std::vector<Option> options = options_of_a_solve();
  std::erase_if(options, [](const Option& option) {
    return option.name == "--cold" || option.name == "--warm";
  });
  options.insert(
      options.begin(),
      {{"--soak", "20W:10min", "then loud music: so many watts more in the heat sinks, so long"},
       {"--ambient-step", "10K:30min", "then the room warmer, or colder, for a time"}});
  return options;
}

}  // namespace

Command warmup_command() {
  Command command;
  command.name = "warmup";
  command.usage = "FILE [options]";
  command.question =
      "How does the standing current move from switch-on until all is warm, when has it settled, "
      "and is it stable?";
  command.more =
      "--soak and --ambient-step begin at rest, each for itself, and the way back is shown too. "
      "Exit "
      "status 1 where it never comes to rest, 4 where it runs away or gets too hot.";
  command.options = options_of_a_warmup();
  command.example = "idlepoint warmup netlists/quarry-30w.stage --soak 20W:10min";
  command.run = run_warmup;
  return command;
}

}  // namespace idlepoint::cli
