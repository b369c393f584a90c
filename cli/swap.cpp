// `idlepoint swap FILE PART=TYPE ...`: will this substitute do?

#include "answers/swap.hpp"

#include <fmt/format.h>

#include "ask.hpp"
#include "command.hpp"
#include "replacements.hpp"
#include "report/json_swap.hpp"
#include "report/text_swap.hpp"

namespace idlepoint::cli {
namespace {

const char* form = "idlepoint swap FILE PART=TYPE ...";

std::optional<Trouble> words_trouble(const std::vector<std::string>& words) {
  if (words.size() >= 2) return std::nullopt;
  if (words.empty())
    return Trouble{"`swap` wants a stage file and what takes which part's place",
                   std::string("Write `") + form + "`."};
  return Trouble{"`swap` wants to know what takes which part's place",
                 "Write PART=TYPE behind the file, once for each part: Q606=MJ15003."};
}

ExitStatus status_of_swap(const answers::Swap& swap) {
  const bool is_hot = std::holds_alternative<answers::ThermalStory>(swap.after.preset);
  if (is_hot) return ExitStatus::thermal_trouble;
  if (std::holds_alternative<solve::NotSettled>(swap.after.preset)) return ExitStatus::not_settled;
  return status_of(swap.verdict != answers::Verdict::unsuitable);
}

ExitStatus run_swap(const Command& command, const Given& given) {
  if (const auto trouble = words_trouble(given.words)) {
    complain(render(*trouble));
    return ExitStatus::not_understood;
  }
  Given of_the_stage = given;
  of_the_stage.words.resize(1);
  const std::vector<std::string> texts(given.words.begin() + 1, given.words.end());
  const auto setup = stage_for(command.name, of_the_stage, types_named_in(texts));
  if (!setup) return ExitStatus::not_understood;
  if (const auto trouble = low_rails(command.name, *setup)) {
    complain(render(*trouble));
    return ExitStatus::not_understood;
  }
  const auto replacements = read_replacements(texts, *setup->stage);
  if (!replacements) return ExitStatus::not_understood;
  const auto outcome = answers::ask_swap(*setup, *replacements);
  if (const auto* why = std::get_if<std::string>(&outcome)) {
    complain(render(Trouble{*why, "Name each part once, and what takes its place."}));
    return ExitStatus::not_understood;
  }
  if (const auto* story = std::get_if<solve::NotSettled>(&outcome)) return tell(*setup, *story);
  if (const auto* trouble = std::get_if<answers::ThermalStory>(&outcome)) {
    return tell(command.name, given, *trouble);
  }
  const auto& answer = std::get<answers::Swap>(outcome);
  say(given.has("--json") ? report::json_of(answer) : report::text_of(answer, page_of_terminal()));
  return status_of_swap(answer);
}

}  // namespace

Command swap_command() {
  Command command;
  command.name = "swap";
  command.usage = "FILE PART=TYPE ... [options]";
  command.question =
      "Will this substitute do: readings before and after, the new trimmer place, every rating "
      "against what the stage asks of it, heat, thermal stability?";
  command.more =
      "A type is looked for in the file, its types files, then on the shelf. A diode, a stack or a "
      "thermistor may have a stand-in: \"D1=3 TYPE + 22R\" (three diodes and a resistor in "
      "series), "
      "\"D1=47R\", or \"D1=spreader TYPE 1k2 560R\" (a transistor, the resistor from its collector "
      "to its base, that from base to emitter). Exit status 1 where the verdict is unsuitable; 4 "
      "where no place of the trimmers is safe with it.";
  command.options = options_of_a_solve();
  command.example = "idlepoint swap netlists/quarry-30w.stage Q606=large-npn Q607=large-npn";
  command.run = run_swap;
  return command;
}

}  // namespace idlepoint::cli
