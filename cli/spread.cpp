// `idlepoint spread FILE`: how much of a reading is the parts' tolerance, and whose.

#include "answers/spread.hpp"

#include <fmt/format.h>

#include <charconv>

#include "ask.hpp"
#include "command.hpp"
#include "progress.hpp"
#include "report/json_spread.hpp"
#include "report/text_spread.hpp"

namespace idlepoint::cli {
namespace {

constexpr std::uint64_t most_samples = 1000000;

/// What a whole number's option says, `usual` where it was not written.
Tried<std::uint64_t> read_whole(const Given& given,
                                const std::string& option,
                                std::uint64_t usual,
                                std::uint64_t least,
                                std::uint64_t most) {
  if (!given.has(option)) return usual;
  const std::string written = given.all(option).back();
  const char* end = written.data() + written.size();
  std::uint64_t number = 0;
  const auto [stopped, error] = std::from_chars(written.data(), end, number);
  if (error == std::errc() && stopped == end && number >= least && number <= most) return number;
  return Trouble{fmt::format("{} {} does not fit", option, written),
                 fmt::format("{} takes a whole number from {} to {}, without a space or a comma.",
                             option,
                             least,
                             most)};
}

Tried<answers::SpreadAsked> read_spread_asked(const Given& given) {
  answers::SpreadAsked asked;
  const auto samples = read_whole(given, "--samples", asked.samples, 1, most_samples);
  if (const auto* trouble = std::get_if<Trouble>(&samples)) return *trouble;
  const auto seed = read_whole(given, "--seed", asked.seed, 0, UINT64_MAX);
  if (const auto* trouble = std::get_if<Trouble>(&seed)) return *trouble;
  asked.samples = std::get<std::uint64_t>(samples);
  asked.seed = std::get<std::uint64_t>(seed);
  return asked;
}

ExitStatus run_spread(const Command& command, const Given& given) {
  auto read = read_spread_asked(given);
  if (const auto* trouble = std::get_if<Trouble>(&read)) {
    complain(render(*trouble));
    return ExitStatus::not_understood;
  }
  const auto setup = stage_for(command.name, given);
  if (!setup) return ExitStatus::not_understood;
  auto& asked = std::get<answers::SpreadAsked>(read);
  Progress progress;
  asked.go_on = [&](double share_done) { return progress.go_on(share_done); };
  const auto outcome = answers::ask_spread(*setup, asked);
  progress.clear();
  if (const auto* story = std::get_if<solve::NotSettled>(&outcome)) return tell(*setup, *story);
  if (const auto* trouble = std::get_if<answers::ThermalStory>(&outcome)) {
    return tell(command.name, given, *trouble);
  }
  const auto& answer = std::get<answers::Spread>(outcome);
  say(given.has("--json") ? report::json_of(answer) : report::text_of(answer, page_of_terminal()));
  return status_of(answers::is_good(answer));
}

}  // namespace

Command spread_command() {
  Command command;
  command.name = "spread";
  command.usage = "FILE [options]";
  command.question = "How much of a reading is the parts' tolerance, and whose?";
  command.more =
      "Draws many stages like this one and solves each, with the trimmers as they stand, then with "
      "every trimmer set to its target. Ctrl-C answers with the stages done so far. Exit status 1 "
      "where the stage with nominal parts breaks a limit or misses a target, 4 where it runs away "
      "or gets too hot; what other stages do is told and does not count.";
  command.options = options_of_a_solve();
  command.options.insert(command.options.begin(),
                         {{"--samples", "10000", "how many stages are drawn, up to 1000000"},
                          {"--seed", "1", "which: the same number draws the same stages"}});
  command.example = "idlepoint spread netlists/quarry-30w.stage";
  command.run = run_spread;
  return command;
}

}  // namespace idlepoint::cli
