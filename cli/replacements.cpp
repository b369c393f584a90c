#include "replacements.hpp"

#include <fmt/format.h>

#include "complaints/render.hpp"
#include "language/replacement_text.hpp"
#include "terminal.hpp"
#include "trouble.hpp"

namespace idlepoint::cli {
namespace {

circuit::PartId part_of(const circuit::SetType& asked) { return asked.part; }
circuit::PartId part_of(const circuit::StandIn& asked) { return asked.for_part; }

std::optional<Trouble> taken_out_trouble(const circuit::Circuit& circuit,
                                         const std::vector<answers::Replacement>& replacements) {
  for (const auto& replacement : replacements) {
    const auto& part =
        circuit.at(std::visit([](const auto& asked) { return part_of(asked); }, replacement));
    if (!part.damage.taken_out) continue;
    return Trouble{
        part.name + " is taken out: there is nothing to replace",
        fmt::format("Leave out `--without {}`: a substitute is judged in its place.", part.name)};
  }
  return std::nullopt;
}

}  // namespace

std::vector<std::string> types_named_in(const std::vector<std::string>& texts) {
  std::vector<std::string> types;
  for (const auto& text : texts) {
    for (auto& name : language::types_named_in(text)) types.push_back(std::move(name));
  }
  return types;
}

std::optional<std::vector<answers::Replacement>> read_replacements(
    const std::vector<std::string>& texts, const circuit::Circuit& circuit) {
  std::vector<answers::Replacement> replacements;
  complaints::Complaints complaints;
  for (const auto& text : texts) {
    const auto read = language::read_replacement(text, circuit);
    if (read.has_value()) {
      replacements.push_back(*read);
    } else {
      for (const auto& complaint : read.complaints()) complaints.push_back(complaint);
    }
  }
  if (!complaints.empty()) {
    complain(complaints::render(complaints));
    return std::nullopt;
  }
  if (const auto trouble = taken_out_trouble(circuit, replacements)) {
    complain(render(*trouble));
    return std::nullopt;
  }
  return replacements;
}

}  // namespace idlepoint::cli
