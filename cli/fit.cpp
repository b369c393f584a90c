// `idlepoint fit POINTS`: a part type from the points of a data sheet or a tester.

#include "answers/fit.hpp"

#include <fmt/format.h>

#include <iostream>
#include <iterator>

#include "ask.hpp"
#include "command.hpp"
#include "language/read_points.hpp"
#include "language/write_parts.hpp"
#include "report/json_fit.hpp"
#include "report/text_fit.hpp"

namespace idlepoint::cli {
namespace {

std::optional<Trouble> file_trouble(const Given& given) {
  if (given.words.empty()) {
    return Trouble{"`fit` wants a points file",
                   "Write `idlepoint fit FILE`, or - for standard input."};
  }
  if (given.words.size() > 1) {
    return Trouble{fmt::format("`fit` takes one file, and `{}` is one more", given.words[1]),
                   "Each type has a file of its own."};
  }
  return std::nullopt;
}

complaints::Result<circuit::TypePoints> read(const std::string& path) {
  if (path != "-") return language::read_points_file(path);
  const std::string text{std::istreambuf_iterator<char>(std::cin),
                         std::istreambuf_iterator<char>()};
  return language::read_points(text, path);
}

ExitStatus run_fit(const Command&, const Given& given) {
  if (const auto trouble = file_trouble(given)) {
    complain(render(*trouble));
    return ExitStatus::not_understood;
  }
  const auto points = read(given.words.front());
  if (!points) {
    complain(complaints::render(points.complaints()));
    return ExitStatus::not_understood;
  }
  const answers::TypeFit fit = answers::ask_fit(*points);
  const std::string statement = language::write_short_type(fit.type);
  if (given.has("--json")) {
    say(report::json_of(fit, statement));
  } else {
    complain(complaints::render(fit.contradictions));
    say(report::text_of(fit, statement, page_of_terminal()));
  }
  return status_of(answers::is_good(fit));
}

}  // namespace

Command fit_command() {
  Command command;
  command.name = "fit";
  command.usage = "POINTS [options]";
  command.question = "A part type from the points of a data sheet or a tester.";
  command.more =
      "POINTS is a points file: one `type` statement without the fields to be found, and one "
      "`point` statement a figure; - reads one from standard input. The output is a types file. "
      "Exit "
      "status 1 where the points contradict each other or the law; they are named on standard "
      "error.";
  command.options = {{"--json", "", "one JSON object instead of text"},
                     {"--help", "", "this page"}};
  command.example = "idlepoint fit netlists/points/tester-npn.points";
  command.run = run_fit;
  return command;
}

}  // namespace idlepoint::cli
