// `idlepoint sheet FILE [FILE2] -o OUT.html`: everything about a stage on one page, for the bench.

#include "answers/sheet.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "ask.hpp"
#include "command.hpp"
#include "output_file.hpp"
#include "progress.hpp"
#include "replacements.hpp"
#include "report/html_sheet.hpp"
#include "report/json_sheet.hpp"

namespace idlepoint::cli {
namespace {

using answers::SheetChannel;

std::optional<Trouble> sheet_words_trouble(const Given& given) {
  if (given.words.empty()) {
    return Trouble{"`sheet` wants a stage file", "Write `idlepoint sheet FILE -o OUT.html`."};
  }
  if (given.words.size() > 2) {
    return Trouble{fmt::format("`sheet` takes the files of two channels, and `{}` is one more",
                               given.words[2]),
                   "Write `idlepoint sheet LEFT RIGHT -o OUT.html`."};
  }
  if (!given.has("-o") && !given.has("--json")) {
    return Trouble{"`sheet` writes a page, and no file is named for it",
                   "Write -o OUT.html; open that file in a browser, or print it."};
  }
  return std::nullopt;
}

/// One channel opened, with what is to be compared with it.
struct Opened {
  answers::Setup setup;
  std::vector<answers::Replacement> replacements;
};

std::optional<Opened> open_channel(const Command& command,
                                   const Given& given,
                                   const std::string& file) {
  Given of_the_channel = given;
  of_the_channel.words = {file};
  const auto texts = given.all("--substitute");
  auto setup = stage_for(command.name, of_the_channel, types_named_in(texts));
  if (!setup) return std::nullopt;
  auto replacements = read_replacements(texts, *setup->stage);
  if (!replacements) return std::nullopt;
  return Opened{std::move(*setup), std::move(*replacements)};
}

ExitStatus status_of_channel(const SheetChannel& channel) {
  if (channel.runs_away || channel.no_preset) return ExitStatus::thermal_trouble;
  const bool is_set = channel.preset && !channel.preset->adjustments.empty();
  if (is_set) return status_of(answers::is_good(*channel.preset));
  return status_of(!answers::any_limit_broken(channel.readings.readings));
}

ExitStatus write_page(const OutputFile& output, const std::vector<SheetChannel>& channels) {
  if (const auto trouble = write_whole(output, report::html_of(channels))) {
    complain(render(*trouble));
    return ExitStatus::not_understood;
  }
  say(fmt::format("The bench sheet is in {}.\n", output.path));
  return ExitStatus::answered;
}

/// The channels asked, one after the other; a status where there is nothing to write.
std::variant<std::vector<SheetChannel>, ExitStatus> ask_all(const std::vector<Opened>& opened) {
  std::vector<SheetChannel> channels;
  Progress progress;
  const auto all = static_cast<double>(opened.size());
  for (const auto& one : opened) {
    const auto done = static_cast<double>(channels.size());
    answers::SheetAsked asked;
    asked.replacements = one.replacements;
    asked.go_on = [&](double share) { return progress.go_on((done + share) / all); };
    auto outcome = answers::ask_sheet(one.setup, asked);
    if (const auto* story = std::get_if<solve::NotSettled>(&outcome)) {
      progress.clear();
      return tell(one.setup, *story);
    }
    channels.push_back(std::get<SheetChannel>(std::move(outcome)));
  }
  progress.clear();
  return channels;
}

ExitStatus run_sheet(const Command& command, const Given& given) {
  if (const auto trouble = sheet_words_trouble(given)) {
    complain(render(*trouble));
    return ExitStatus::not_understood;
  }
  std::vector<Opened> opened;
  std::vector<std::string> inputs;
  for (const auto& file : given.words) {
    auto one = open_channel(command, given, file);
    if (!one) return ExitStatus::not_understood;
    for (auto& input : files_of(*one->setup.stage)) inputs.push_back(std::move(input));
    opened.push_back(std::move(*one));
  }
  const auto output = output_asked_for(given, inputs);
  if (const auto trouble = output ? refuse(*output) : std::nullopt) {
    complain(render(*trouble));
    return ExitStatus::not_understood;
  }
  const auto asked = ask_all(opened);
  if (const auto* status = std::get_if<ExitStatus>(&asked)) return *status;
  const auto& channels = std::get<std::vector<SheetChannel>>(asked);
  auto status = ExitStatus::answered;
  if (given.has("--json")) say(report::json_of(channels));
  if (output) status = write_page(*output, channels);
  for (const auto& channel : channels) status = std::max(status, status_of_channel(channel));
  return status;
}

}  // namespace

Command sheet_command() {
  Command command;
  command.name = "sheet";
  command.usage = "FILE [FILE2] -o OUT.html [options]";
  command.question =
      "The bench sheet: one page with the parts to tick off, the voltages as a picture, presets, "
      "readings, hazards and warm-up, to print or to open on a phone. A second file is the other "
      "channel, and stands beside the first.";
  command.more =
      "The page needs no network and no other file. Options hold for both channels. Exit status as "
      "of `preset`: 1 where a target is out of reach or a limit is broken, 4 where the stage runs "
      "away or gets too hot; the page is written all the same.";
  command.options = options_of_a_solve();
  command.options.insert(
      command.options.begin(),
      {output_option(),
       force_option(),
       Option{
           "--substitute", "Q606=TYPE", "a substitute to compare with the stage as it is", true}});
  command.example = "idlepoint sheet netlists/quarry-30w.stage -o quarry.html";
  command.run = run_sheet;
  return command;
}

}  // namespace idlepoint::cli
