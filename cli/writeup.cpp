// `idlepoint writeup JOB -o OUT.html`: what was found, changed and left, for the owner.

#include "answers/writeup.hpp"

#include <fmt/format.h>

#include "ask.hpp"
#include "command.hpp"
#include "language/read_job.hpp"
#include "output_file.hpp"
#include "report/html_writeup.hpp"
#include "report/json_writeup.hpp"
#include "report/text_writeup.hpp"

namespace idlepoint::cli {
namespace {

std::optional<Trouble> writeup_trouble(const Given& given) {
  if (given.words.empty()) {
    return Trouble{"`writeup` wants a job file", "Write `idlepoint writeup JOB -o OUT.html`."};
  }
  if (given.words.size() > 1) {
    return Trouble{fmt::format("`writeup` takes one job, and `{}` is one more", given.words[1]),
                   "Write `idlepoint writeup JOB -o OUT.html`."};
  }
  if (!given.has("-o")) {
    return Trouble{"`writeup` writes a page, and nothing says where to",
                   "Add `-o OUT.html`, any name that ends so."};
  }
  return std::nullopt;
}

std::vector<std::string> files_of_job(const circuit::Job& job) {
  std::vector<std::string> files = {job.file};
  for (const circuit::Channel& channel : job.channels) {
    for (auto& file : files_of(channel.circuit)) files.push_back(std::move(file));
  }
  return files;
}

ExitStatus run_writeup(const Command&, const Given& given) {
  const auto refuse_it = [](const Trouble& trouble) {
    complain(render(trouble));
    return ExitStatus::not_understood;
  };
  if (const auto trouble = writeup_trouble(given)) return refuse_it(*trouble);
  const auto job = language::read_job_file(given.words.front(), read_options_for(given));
  if (!job) {
    complain(complaints::render(job.complaints()));
    return ExitStatus::not_understood;
  }
  const auto output = output_asked_for(given, files_of_job(*job));
  if (const auto trouble = refuse(*output)) return refuse_it(*trouble);
  const answers::Writeup writeup = answers::ask_writeup(*job);
  if (const auto trouble = write_whole(*output, report::html_of(writeup))) {
    return refuse_it(*trouble);
  }
  say(given.has("--json") ? report::json_of(writeup, output->path)
                          : report::writeup_written(writeup, output->path, page_of_terminal()));
  return status_of(answers::is_good(writeup));
}

}  // namespace

Command writeup_command() {
  Command command;
  command.name = "writeup";
  command.usage = "JOB -o OUT.html [options]";
  command.question = "What was found, changed and left, both channels, for the owner.";
  command.more =
      "One page without script or network, for a phone and for A4: what was found, done and left "
      "and why, readings before and after beside what a sound channel shows, the capacitors that "
      "were tested, advice, cautions. Exit status 1 where something reads outside as it was left, "
      "or a capacitor is still to be replaced.";
  command.options = {output_option(),
                     force_option(),
                     {"--json", "", "one JSON object instead of text"},
                     {"--help", "", "this page"}};
  command.example = "idlepoint writeup netlists/quarry-bench.job -o quarry.html";
  command.run = run_writeup;
  return command;
}

}  // namespace idlepoint::cli
