// `idlepoint shelf FILE PART`: what on the shelf would do in this place?

#include "answers/shelf.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "ask.hpp"
#include "circuit/sentence.hpp"
#include "command.hpp"
#include "progress.hpp"
#include "report/json_shelf.hpp"
#include "report/text_shelf.hpp"

namespace idlepoint::cli {
namespace {

Tried<circuit::PartId> place_of(const circuit::Circuit& circuit, const std::string& name) {
  const auto part = circuit::find_part(circuit, name);
  if (!part) {
    std::vector<std::string> names;
    for (const auto& one : circuit.parts) {
      if (circuit::has_type(one.kind)) names.push_back(one.name);
    }
    return unknown_word(
        fmt::format("no part is called `{}`", name), name, "Those with a type are", names);
  }
  const auto kind = circuit.at(*part).kind;
  if (circuit::has_type(kind)) return *part;
  return Trouble{fmt::format("`{}` is {} and has no type", name, circuit::a_kind(kind)),
                 "Name a diode or a transistor; `swap` takes a stand-in for a thermistor."};
}

ExitStatus run_shelf(const Command& command, const Given& given) {
  if (given.words.size() != 2) {
    complain(
        render(Trouble{"`shelf` wants a stage file and one part",
                       "Write `idlepoint shelf FILE PART`, such as `shelf left.stage Q606`."}));
    return ExitStatus::not_understood;
  }
  Given of_the_stage = given;
  of_the_stage.words.resize(1);
  const auto setup = stage_for(command.name, of_the_stage, {whole_shelf});
  if (!setup) return ExitStatus::not_understood;
  if (const auto trouble = low_rails(command.name, *setup)) {
    complain(render(*trouble));
    return ExitStatus::not_understood;
  }
  const auto place = place_of(*setup->stage, given.words[1]);
  if (const auto* trouble = std::get_if<Trouble>(&place)) {
    complain(render(*trouble));
    return ExitStatus::not_understood;
  }
  Progress progress;
  const auto answer =
      answers::ask_shelf(*setup, std::get<circuit::PartId>(place), [&](double share_done) {
        return progress.go_on(share_done);
      });
  progress.clear();
  say(given.has("--json") ? report::json_of(answer) : report::text_of(answer, page_of_terminal()));
  const bool any =
      std::any_of(answer.candidates.begin(), answer.candidates.end(), [](const auto& candidate) {
        return candidate.verdict != answers::Verdict::unsuitable;
      });
  return status_of(any);
}

}  // namespace

Command shelf_command() {
  Command command;
  command.name = "shelf";
  command.usage = "FILE PART [options]";
  command.question = "What on the shelf would do in this place?";
  command.more =
      "Tries every type of the shelf and of the file that is of the part's kind, sets the trimmers "
      "anew, and judges as `swap` does: best first, and why the others would not. Exit status 1 "
      "where nothing would do.";
  command.options = options_of_a_solve();
  command.example = "idlepoint shelf netlists/quarry-30w.stage Q606";
  command.run = run_shelf;
  return command;
}

}  // namespace idlepoint::cli
