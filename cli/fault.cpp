// `idlepoint fault FILE "FAULT" ...`: what a fault does to every reading, and the chain of cause.

#include "answers/fault.hpp"

#include <algorithm>

#include "ask.hpp"
#include "command.hpp"
#include "language/fault_text.hpp"
#include "report/json_fault.hpp"
#include "report/text_fault.hpp"

namespace idlepoint::cli {
namespace {

/// The faults of the command line, as words behind the file and as options.
std::vector<std::string> faults_given(const Given& given) {
  std::vector<std::string> faults;
  if (!given.words.empty()) faults.assign(given.words.begin() + 1, given.words.end());
  for (auto& fault : given.all("--fault")) faults.push_back(std::move(fault));
  return faults;
}

/// The same command line without its faults: the sound stage. Cold unless warm is asked for.
Given without_faults(const Given& given) {
  Given sound = given;
  if (!sound.words.empty()) sound.words.resize(1);
  sound.values.erase("--fault");
  if (!sound.has("--warm")) sound.values["--cold"] = {""};
  return sound;
}

/// Each fault read against the sound drawing and made, in order.
std::optional<answers::FaultAsked> make_faults(answers::Setup sound,
                                               const std::vector<std::string>& texts) {
  const circuit::CheckedCircuit stage = sound.stage;
  answers::FaultAsked asked{std::move(sound), stage, {}};
  complaints::Complaints complaints;
  for (const auto& text : texts) {
    const auto edit = language::read_fault(text, *asked.sound.stage);
    if (edit.has_value()) {
      asked.faults.push_back(*edit);
    } else {
      const auto& found = edit.complaints();
      complaints.insert(complaints.end(), found.begin(), found.end());
    }
  }
  if (!complaints.empty()) {
    complain(complaints::render(complaints));
    return std::nullopt;
  }
  for (const auto& edit : asked.faults) {
    auto edited = circuit::apply(asked.faulty, edit);
    if (const auto* why = std::get_if<std::string>(&edited)) {
      const std::string text = circuit::write_fault(*asked.sound.stage, edit);
      complain(render(Trouble{"`" + text + "` cannot be done: " + *why, ""}));
      return std::nullopt;
    }
    asked.faulty = std::get<circuit::CheckedCircuit>(std::move(edited));
  }
  return asked;
}

ExitStatus tell_without_state(const answers::FaultAsked& asked, const solve::NotSettled& story) {
  std::vector<std::string> texts;
  for (const auto& edit : asked.faults) {
    texts.push_back(circuit::write_fault(*asked.faulty, edit));
  }
  complain(report::without_state(texts, page_of_terminal()) +
           report::text_of(*asked.faulty, story, page_of_terminal()));
  return ExitStatus::not_settled;
}

ExitStatus run_fault(const Command& command, const Given& given) {
  const auto texts = faults_given(given);
  if (!given.words.empty() && texts.empty()) {
    complain(render(Trouble{"`fault` wants a fault behind the file",
                            "Write it in quotes, as in `" + command.example + "`."}));
    return ExitStatus::not_understood;
  }
  auto sound = stage_for(command.name, without_faults(given));
  if (!sound) return ExitStatus::not_understood;
  const auto asked = make_faults(std::move(*sound), texts);
  if (!asked) return ExitStatus::not_understood;
  const auto outcome = answers::ask_fault(*asked);
  if (const auto* story = std::get_if<solve::NotSettled>(&outcome)) {
    return tell(asked->sound, *story);
  }
  if (const auto* story = std::get_if<answers::FaultyNotSettled>(&outcome)) {
    return tell_without_state(*asked, story->story);
  }
  if (const auto* trouble = std::get_if<answers::ThermalStory>(&outcome)) {
    return tell(command.name, given, *trouble);
  }
  const auto& answer = std::get<answers::Fault>(outcome);
  say(given.has("--json") ? report::json_of(answer) : report::text_of(answer, page_of_terminal()));
  return ExitStatus::answered;
}

}  // namespace

Command fault_command() {
  Command command;
  command.name = "fault";
  command.usage = "FILE \"FAULT\" ... [options]";
  command.question = "What would this fault do to every reading, and why?";
  command.more =
      "Faults are written as in `Q5 short c-e`, `R12 open`, `VR2 wiper open`, `C3 leaks 100k`, "
      "`bridge a b`, `rail vpos lost`; several are made in order. Both stages are just switched "
      "on, unless --warm. Exit status 3 where the faulty stage finds no state, 4 where --warm "
      "meets a runaway.";
  command.options = options_of_a_solve();
  command.options.insert(
      command.options.begin(),
      Option{"--reading", "\"volts A B\"", "a point that the file does not name", true});
  command.example = "idlepoint fault netlists/quarry-30w.stage \"D601 open\"";
  command.run = run_fault;
  return command;
}

}  // namespace idlepoint::cli
