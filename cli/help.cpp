#include "help.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/page.hpp"

namespace idlepoint::cli {
namespace {

std::string option_in_words(const Option& option) {
  return option.value.empty() ? option.name : option.name + " " + option.value;
}

std::string options_list(const Command& command) {
  std::size_t widest = 0;
  for (const auto& option : command.options) {
    widest = std::max(widest, option_in_words(option).size());
  }
  std::string text;
  for (const auto& option : command.options) {
    text += fmt::format("  {:<{}}   {}{}\n",
                        option_in_words(option),
                        widest,
                        option.words,
                        option.repeatable ? " (may be repeated)" : "");
  }
  return text;
}

}  // namespace

std::string help_of_all() {
  const report::Page page;
  std::string text =
      "idlepoint works out, on paper, where an output stage's trimmers belong and what the meter\n"
      "should show, before the amplifier is switched on.\n\n"
      "  idlepoint COMMAND FILE [options]\n\n";
  for (const auto& command : all_commands()) {
    text += fmt::format(
        "  {:<9} {}", command.name, report::fold(command.question, page, 12, 12).substr(12));
  }
  text +=
      "\n  idlepoint COMMAND --help   the options of one command\n"
      "  idlepoint --version        which program this is\n\n"
      "FILE is a stage file; - reads one from standard input. For example:\n\n  " +
      preset_command().example + "\n";
  return text;
}

std::string help_of(const Command& command) {
  const report::Page page;
  std::string text = report::fold(command.question, page);
  text += fmt::format("\n  idlepoint {} {}\n\n", command.name, command.usage);
  text += options_list(command);
  if (!command.more.empty()) text += "\n" + report::fold(command.more, page);
  return text + "\nFor example:\n\n  " + command.example + "\n";
}

}  // namespace idlepoint::cli
