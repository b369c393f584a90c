// `idlepoint draft TOPOLOGY`: a stage file of a common kind, complete but for its values.

#include "answers/draft.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "command.hpp"
#include "drafts.hpp"
#include "output_file.hpp"
#include "report/json_draft.hpp"
#include "report/text_draft.hpp"
#include "terminal.hpp"

namespace idlepoint::cli {
namespace {

ExitStatus refuse_command(const std::string& text) {
  complain(text);
  return ExitStatus::not_understood;
}

ExitStatus list_drafts(const Given& given) {
  std::vector<answers::Draft> drafts;
  for (const std::string& name : draft_names()) {
    auto draft = read_draft(name);
    if (const auto* trouble = std::get_if<std::string>(&draft)) return refuse_command(*trouble);
    drafts.push_back(std::get<answers::Draft>(std::move(draft)));
  }
  if (drafts.empty()) {
    return refuse_command(render(Trouble{"the folder of drafts is not there",
                                         "It is installed beside the program. Install it whole."}));
  }
  say(given.has("--json") ? report::json_of(drafts) : report::text_of(drafts, page_of_terminal()));
  return ExitStatus::answered;
}

std::optional<Trouble> draft_trouble(const Given& given) {
  if (given.words.size() > 1) {
    return Trouble{fmt::format("`draft` takes one name, and `{}` is one more", given.words[1]),
                   "-o FILE says where it is written to."};
  }
  if (given.has("--list") && !given.words.empty()) {
    return Trouble{"--list and a name ask for two things", "Write one of them."};
  }
  if (given.has("--list")) return std::nullopt;
  if (given.words.empty()) {
    return Trouble{"`draft` wants to know which kind of stage",
                   "`idlepoint draft --list` tells them apart."};
  }
  const auto names = draft_names();
  const std::string& name = given.words.front();
  if (std::find(names.begin(), names.end(), name) != names.end()) return std::nullopt;
  Trouble trouble =
      unknown_word(fmt::format("no draft is called `{}`", name), name, "There are", names);
  trouble.instead += " `idlepoint draft --list` tells them apart.";
  return trouble;
}

ExitStatus run_draft(const Command&, const Given& given) {
  if (const auto trouble = draft_trouble(given)) return refuse_command(render(*trouble));
  if (given.has("--list")) return list_drafts(given);
  const auto tried = read_draft(given.words.front());
  if (const auto* trouble = std::get_if<std::string>(&tried)) return refuse_command(*trouble);
  const auto& draft = std::get<answers::Draft>(tried);
  const auto output = output_asked_for(given, {});
  if (output) {
    if (const auto trouble = write_whole(*output, draft.text)) {
      return refuse_command(render(*trouble));
    }
  }
  if (given.has("--json")) {
    say(report::json_of(draft, output ? output->path : ""));
  } else {
    say(output ? report::draft_written(draft, output->path, page_of_terminal()) : draft.text);
  }
  return ExitStatus::answered;
}

}  // namespace

Command draft_command() {
  Command command;
  command.name = "draft";
  command.usage = "NAME [options]";
  command.question =
      "A stage file of the common kind in front of you, complete but for its values: about twenty "
      "to fill in.";
  command.more =
      "Without -o the file goes to standard output. `idlepoint check FILE` lists what is still "
      "blank.";
  command.options = {{"--list", "", "the names, and how to recognise each kind on a drawing"},
                     output_option(),
                     force_option(),
                     {"--json", "", "one JSON object instead of text"},
                     {"--help", "", "this page"}};
  command.example = "idlepoint draft quasi -o left.stage";
  command.run = run_draft;
  return command;
}

}  // namespace idlepoint::cli
