#include "answers/setup.hpp"

#include <fmt/format.h>

#include <utility>

#include "answers/taken_out.hpp"
#include "circuit/sentence.hpp"
#include "values/format.hpp"

namespace idlepoint::answers {
namespace {

using circuit::PartKind;

bool is_stand_in(const circuit::Part& part) {
  return (part.kind == PartKind::hold || part.kind == PartKind::feed) && !part.damage.absent;
}

std::string names_of_stand_ins(const circuit::Circuit& circuit) {
  std::string names;
  for (const auto& part : circuit.parts) {
    if (is_stand_in(part)) names += (names.empty() ? "" : ", ") + part.name;
  }
  return names;
}

std::string in_words(const circuit::Circuit& circuit, const LooseOutput& loose) {
  const std::string output = circuit::node_in_words(circuit, loose.output);
  std::vector<std::string> holders;
  for (const auto part : loose.hangs_on) {
    holders.push_back(fmt::format("{} ({})",
                                  circuit.at(part).name,
                                  values::format_value(circuit.at(part).value, values::Unit::ohm)));
  }
  std::string text = fmt::format(
      "With {} out nothing holds the output: {}. Its volts say nothing of the amplifier.",
      names_taken_out(circuit),
      holders.empty() ? output + " stands free"
                      : fmt::format("only {} {} to {}",
                                    circuit::list_words(holders),
                                    holders.size() == 1 ? "leads" : "lead",
                                    output));
  if (!loose.link) return text;
  const auto& was = circuit.at(loose.link->was_base_of);
  return text + fmt::format(
                    " To close the loop without them, link {} to {}, where the {} of {} was, "
                    "through some 100 ohms, no loudspeaker connected: --fault \"bridge {} {}\" "
                    "answers for that.",
                    output,
                    circuit::node_in_words(circuit, loose.link->to),
                    circuit::lead_in_words(was.kind, 1),
                    was.name,
                    circuit.at(loose.link->to).name,
                    circuit.at(loose.output).name);
}

}  // namespace

std::string in_one_line(const complaints::Complaint& complaint) {
  const auto& place = complaint.places.front();
  if (place.line == 0) return fmt::format("{}: {}", place.file, complaint.headline);
  return fmt::format("{}, line {}: {}", place.file, place.line, complaint.headline);
}

solve::HeatState usual_state(const circuit::Circuit& circuit) {
  return circuit::can_heat(circuit) ? solve::HeatState::warm : solve::HeatState::cold;
}

std::vector<std::string> warnings_of_conditions(const Setup& setup) {
  std::vector<std::string> warnings;
  if (setup.conditions.heat == solve::HeatState::warm && !circuit::can_heat(*setup.stage)) {
    warnings.emplace_back(
        "Nothing here can heat: no part is on a heat sink, and no type says how it stands in free "
        "air. Warmed through is the same as just switched on.");
  }
  const std::string stand_ins = names_of_stand_ins(*setup.stage);
  if (setup.conditions.rails != 1.0 && !stand_ins.empty()) {
    warnings.push_back(
        fmt::format("The rails alone are scaled: {} stand in for what is not drawn and stay as "
                    "written, so this "
                    "is not what the whole amplifier would do.",
                    stand_ins));
  }
  if (const auto loose = find_loose_output(setup.stage, setup.conditions)) {
    warnings.push_back(in_words(*setup.stage, *loose));
  }
  return warnings;
}

std::vector<std::string> standing_warnings(const Setup& setup) {
  std::vector<std::string> warnings;
  for (const auto& complaint : setup.warnings) warnings.push_back(in_one_line(complaint));
  for (auto& text : warnings_of_conditions(setup)) warnings.push_back(std::move(text));
  return warnings;
}

}  // namespace idlepoint::answers
