#include "options.hpp"

#include <fmt/format.h>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <algorithm>
#include <deque>
#include <string_view>

namespace idlepoint::cli {
namespace {

// What the parser fills in, one an option; a deque keeps the addresses it was given.
struct Written {
  const Option* option;
  std::vector<std::string> values;
  std::size_t times = 0;
};

bool looks_like_an_option(const std::string& word) {
  return word.size() > 1 && word.front() == '-';
}

void declare(CLI::App& app, Written& written) {
  const Option& option = *written.option;
  if (option.value.empty()) {
    app.add_flag_callback(option.name, [&written] { ++written.times; });
    return;
  }
  // One value a time, as often as the option stands there; how often is judged by us.
  app.add_option_function<std::vector<std::string>>(
         option.name,
         [&written](const std::vector<std::string>& values) {
           written.values = values;
           written.times = values.size();
         })
      ->expected(1)
      ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll)
      ->allow_extra_args(false);
}

Trouble unknown_option(const std::string& command,
                       const std::string& word,
                       const std::vector<Option>& known) {
  const std::string written = word.substr(0, word.find('='));
  std::vector<std::string> names;
  for (const auto& option : known) names.push_back(option.name);
  return unknown_word(
      fmt::format("`{}` has no option `{}`", command, written), written, "The options are", names);
}

Trouble without_value(const Option& option) {
  return {fmt::format("`{}` stands without its value", option.name),
          fmt::format("Write it as in `{} {}`.", option.name, option.value)};
}

// "-20C" is a value, "-x" and "--json" are not.
bool looks_like_a_value(const std::string& word) {
  if (word.empty()) return false;
  return !looks_like_an_option(word) ||
         std::string_view("0123456789.").find(word[1]) != std::string_view::npos;
}

// "-o" and its value, joined as the parser wants a short name's.
std::string join(const std::string& name, const std::string& value) {
  return name + (name.starts_with("--") ? "=" : "") + value;
}

// Every value joined to its option, under the option's first name, so that a value below zero is
// not taken for an option; or what is wrong: a switch with a value, an option without one.
Tried<std::vector<std::string>> with_joined_values(const std::vector<std::string>& words,
                                                   const std::vector<Option>& known) {
  std::vector<std::string> joined;
  for (std::size_t index = 0; index < words.size(); ++index) {
    joined.push_back(words[index]);
    const std::string name = words[index].substr(0, words[index].find('='));
    const auto option = std::find_if(known.begin(), known.end(), [&](const Option& one) {
      return one.name == name || (!one.other_name.empty() && one.other_name == name);
    });
    if (option == known.end()) continue;
    const bool has_equals = name.size() < words[index].size();
    if (option->value.empty()) {
      if (has_equals) return Trouble{fmt::format("`{}` takes no value", name), "Write it alone."};
    } else if (has_equals) {
      if (words[index].size() == name.size() + 1) return without_value(*option);
      joined.back() = join(option->name, words[index].substr(name.size() + 1));
    } else {
      ++index;
      if (index == words.size() || !looks_like_a_value(words[index])) return without_value(*option);
      joined.back() = join(option->name, words[index]);
    }
  }
  return joined;
}

std::optional<Trouble> written_twice(const Written& written) {
  if (written.option->repeatable || written.option->value.empty() || written.times < 2) {
    return std::nullopt;
  }
  return Trouble{fmt::format("`{}` is written {} times", written.option->name, written.times),
                 "Write it once."};
}

}  // namespace

std::vector<std::string> Given::all(const std::string& option) const {
  const auto found = values.find(option);
  return found == values.end() ? std::vector<std::string>{} : found->second;
}

const std::vector<Option>& options_of_a_solve() {
  static const std::vector<Option> options = {
      {"--at", "VR2=40%", "a trimmer's travel from its first-named end", true},
      {"--rails", "50%", "the rails at this part of their volts, 1 % to 150 %"},
      {"--ambient", "35C", "the room"},
      {"--fault", "\"Q5 short c-e\"", "something broken on purpose", true},
      {"--with", "Q6=TYPE", "another type in a part's place", true},
      {"--without", "Q6", "a part taken out", true},
      {"--load", "", "the loudspeaker connected"},
      {"--cold", "", "the first moment after switch-on"},
      {"--warm", "", "warmed through: what is given anyway where any part can heat"},
      {"--json", "", "one JSON object instead of text"},
      {"--help", "", "this page"},
  };
  return options;
}

Tried<Given> read_options(const std::string& command,
                          const std::vector<std::string>& words,
                          const std::vector<Option>& known) {
  auto joined = with_joined_values(words, known);
  if (const auto* trouble = std::get_if<Trouble>(&joined)) return *trouble;
  CLI::App app;
  app.set_help_flag();
  app.allow_extras();
  std::deque<Written> all_written;
  for (const auto& option : known) {
    all_written.push_back({&option, {}, 0});
    declare(app, all_written.back());
  }
  try {
    auto& ordered = std::get<std::vector<std::string>>(joined);
    std::reverse(ordered.begin(), ordered.end());  // it takes them from the back
    app.parse(ordered);
  } catch (const CLI::ParseError&) {
    return Trouble{fmt::format("the options of `{}` cannot be read", command),
                   fmt::format("`idlepoint {} --help` lists them.", command)};
  }
  Given given;
  for (const auto& word : app.remaining()) {
    if (looks_like_an_option(word)) return unknown_option(command, word, known);
    given.words.push_back(word);
  }
  for (const auto& written : all_written) {
    if (auto trouble = written_twice(written)) return *trouble;
    if (written.times == 0) continue;
    given.values[written.option->name] =
        written.option->value.empty() ? std::vector<std::string>{""} : written.values;
  }
  return given;
}

}  // namespace idlepoint::cli
