#include "run.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <exception>

#include "command.hpp"
#include "help.hpp"
#include "terminal.hpp"

namespace idlepoint::cli {
namespace {

constexpr const char* bug_message =
    "idlepoint: this is a fault in the program, not in your file.\n\n"
    "  Do    Please report it with the stage file and the command that was written.\n";

ExitStatus unknown_command(const std::string& written) {
  std::vector<std::string> names;
  for (const auto& command : all_commands()) names.push_back(command.name);
  const bool is_option = written.starts_with("-");
  complain(render(
      unknown_word(fmt::format("`{}` is no {}", written, is_option ? "option" : "command"),
                   written,
                   is_option ? "A command comes first. The commands are" : "The commands are",
                   names)));
  return ExitStatus::not_understood;
}

bool wants_help(const std::vector<std::string>& words) {
  return std::find(words.begin(), words.end(), "--help") != words.end();
}

ExitStatus run_command(const Command& command, const std::vector<std::string>& words) {
  if (wants_help(words)) {
    say(help_of(command));
    return ExitStatus::answered;
  }
  const auto given = read_options(command.name, words, command.options);
  if (const auto* trouble = std::get_if<Trouble>(&given)) {
    complain(render(*trouble));
    return ExitStatus::not_understood;
  }
  return command.run(command, std::get<Given>(given));
}

ExitStatus dispatch(const std::vector<std::string>& words) {
  if (words.empty()) {
    complain(help_of_all());
    return ExitStatus::not_understood;
  }
  if (words.front() == "--help") {
    say(help_of_all());
    return ExitStatus::answered;
  }
  if (words.front() == "--version") {
    say(fmt::format("idlepoint {}\n", IDLEPOINT_VERSION));
    return ExitStatus::answered;
  }
  const auto& commands = all_commands();
  const auto command = std::find_if(commands.begin(), commands.end(), [&](const Command& one) {
    return one.name == words.front();
  });
  if (command == commands.end()) return unknown_command(words.front());
  return run_command(*command, {words.begin() + 1, words.end()});
}

}  // namespace

int run(const std::vector<std::string>& words) noexcept {
  try {
    return static_cast<int>(dispatch(words));
  } catch (const std::exception&) {
    complain(bug_message);
    return static_cast<int>(ExitStatus::our_bug);
  }
}

}  // namespace idlepoint::cli
