#include "open_stage.hpp"

#include <fmt/format.h>

#include <iostream>
#include <iterator>
#include <utility>

#include "circuit/checked_circuit.hpp"
#include "complaints/render.hpp"
#include "data_folder.hpp"
#include "language/fault_text.hpp"
#include "language/read_stage.hpp"
#include "language/replacement_text.hpp"
#include "trouble.hpp"
#include "value_option.hpp"

namespace idlepoint::cli {
namespace {

using complaints::Complaints;

constexpr double lowest_rails = 0.01;
constexpr double highest_rails = 1.5;
constexpr double coldest_room_k = 213.15;  // -60 C
constexpr double hottest_room_k = 423.15;  // 150 C

std::optional<Trouble> file_trouble(const std::string& command, const Given& given) {
  if (given.words.empty()) {
    return Trouble{fmt::format("`{}` wants a stage file", command),
                   fmt::format("Write `idlepoint {} FILE`, or - for standard input.", command)};
  }
  if (given.words.size() > 1) {
    return Trouble{
        fmt::format("`{}` takes one file, and `{}` is one more", command, given.words[1]),
        "A value with blanks stands in quotes: --fault \"Q5 open\"."};
  }
  if (given.has("--warm") && given.has("--cold")) {
    return Trouble{"--cold and --warm ask for two states",
                   "Write one of them; `readings` shows both side by side without either."};
  }
  return std::nullopt;
}

complaints::Result<language::StageFile> read(const Given& given,
                                             const std::vector<std::string>& wanted_types) {
  const std::string& path = given.words.front();
  const auto options = read_options_for(given, wanted_types);
  if (path != "-") return language::read_stage_file(path, options);
  const std::string text{std::istreambuf_iterator<char>(std::cin),
                         std::istreambuf_iterator<char>()};
  return language::read_stage(text, path, options);
}

std::optional<Trouble> read_conditions(const Given& given, OpenedStage& opened) {
  opened.conditions.load_connected = given.has("--load");
  if (given.has("--cold")) opened.asked_state = solve::HeatState::cold;
  if (given.has("--warm")) opened.asked_state = solve::HeatState::warm;
  if (given.has("--rails")) {
    const auto rails = value_of(
        given, "--rails", values::Unit::percent, lowest_rails, highest_rails, "1 % to 150 %");
    if (const auto* trouble = std::get_if<Trouble>(&rails)) return *trouble;
    opened.conditions.rails = std::get<double>(rails);
  }
  if (given.has("--ambient")) {
    const auto ambient = value_of(given,
                                  "--ambient",
                                  values::Unit::temperature,
                                  coldest_room_k,
                                  hottest_room_k,
                                  "-60C to 150C");
    if (const auto* trouble = std::get_if<Trouble>(&ambient)) return *trouble;
    opened.circuit.ambient_k = std::get<double>(ambient);
  }
  return std::nullopt;
}

template <class Reader>
void read_edits(const std::vector<std::string>& texts,
                Reader&& reader,
                OpenedStage& opened,
                Complaints& complaints) {
  for (const auto& text : texts) {
    auto edit = reader(text, opened.circuit);
    if (edit.has_value()) {
      opened.edits.push_back(*edit);
    } else {
      for (const auto& complaint : edit.complaints()) complaints.push_back(complaint);
    }
  }
}

// Faults come last: a trimmer that is turned and then broken is the one that was asked for.
Complaints read_all_edits(const Given& given, OpenedStage& opened) {
  Complaints complaints;
  read_edits(given.all("--with"), language::read_substitution, opened, complaints);
  read_edits(given.all("--without"), language::read_removal, opened, complaints);
  read_edits(given.all("--at"), language::read_setting, opened, complaints);
  read_edits(given.all("--fault"), language::read_fault, opened, complaints);
  return complaints;
}

Complaints add_readings(const Given& given, OpenedStage& opened) {
  Complaints complaints;
  for (const auto& text : given.all("--reading")) {
    const auto probe = language::read_probe(text, opened.circuit);
    if (!probe.has_value()) {
      for (const auto& complaint : probe.complaints()) complaints.push_back(complaint);
      continue;
    }
    circuit::Reading reading;
    reading.probe = *probe;
    reading.name = circuit::write_probe(opened.circuit, reading.probe);
    opened.circuit.readings.push_back(std::move(reading));
  }
  return complaints;
}

}  // namespace

language::ReadOptions read_options_for(const Given& given,
                                       const std::vector<std::string>& wanted_types) {
  language::ReadOptions options;
  options.shelf_folder = data_folder("shelf");
  options.wanted_types = wanted_types;
  for (const auto& substitution : given.all("--with")) {
    const auto equals = substitution.find('=');
    if (equals != std::string::npos)
      options.wanted_types.push_back(substitution.substr(equals + 1));
  }
  return options;
}

std::variant<OpenedStage, NotOpened> open_stage(const std::string& command,
                                                const Given& given,
                                                const std::vector<std::string>& wanted_types) {
  if (const auto trouble = file_trouble(command, given)) return NotOpened{render(*trouble)};
  auto file = read(given, wanted_types);
  if (!file.has_value()) return NotOpened{complaints::render(file.complaints())};
  return open_drawing(std::move(file).value(), given);
}

std::variant<OpenedStage, NotOpened> open_drawing(language::StageFile file, const Given& given) {
  OpenedStage opened;
  opened.circuit = std::move(file.circuit);
  opened.warnings = std::move(file.warnings);
  if (const auto trouble = read_conditions(given, opened)) return NotOpened{render(*trouble)};
  auto complaints = read_all_edits(given, opened);
  for (auto& complaint : add_readings(given, opened)) complaints.push_back(std::move(complaint));
  if (!complaints.empty()) return NotOpened{complaints::render(complaints)};
  return opened;
}

std::variant<answers::Setup, Refused, NotOpened> set_up(const OpenedStage& opened) {
  const auto checked = circuit::check_circuit(opened.circuit);
  if (!checked.has_value()) {
    Refused refused{checked.complaints()};
    refused.complaints.insert(
        refused.complaints.begin(), opened.warnings.begin(), opened.warnings.end());
    complaints::sort_by_place(refused.complaints);
    return refused;
  }
  answers::Setup setup{*checked, opened.conditions, opened.warnings, {}};
  for (const auto& warning : checked->warnings()) setup.warnings.push_back(warning);
  complaints::sort_by_place(setup.warnings);
  for (const auto& edit : opened.edits) {
    const std::string text = circuit::write_fault(opened.circuit, edit);
    auto edited = circuit::apply(setup.stage, edit);
    if (const auto* why = std::get_if<std::string>(&edited)) {
      return NotOpened{render(Trouble{fmt::format("`{}` cannot be done: {}", text, *why), ""})};
    }
    setup.stage = std::get<circuit::CheckedCircuit>(std::move(edited));
    const auto* opened_part = std::get_if<circuit::OpenPart>(&edit);
    const bool is_taken_out = opened_part != nullptr && opened_part->is_taken_out;
    if (!is_taken_out) setup.changes.push_back(text);  // `opening` names what is out
  }
  setup.conditions.heat = opened.asked_state.value_or(answers::usual_state(*setup.stage));
  return setup;
}

}  // namespace idlepoint::cli
