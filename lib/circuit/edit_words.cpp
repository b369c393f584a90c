// Writes an edit back as a fault of the command line, and its values as a person would.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "circuit/edits.hpp"
#include "circuit/part_value.hpp"
#include "values/format.hpp"

namespace idlepoint::circuit {
namespace {

/// The fewest figures, from three, that write a value typed by hand in full. A value that needs
/// more than six was fitted, not typed: three then mean all that it means.
int figures(double value) {
  constexpr int fewest = 3;
  constexpr int most = 6;
  for (int digits = fewest; digits <= most; ++digits) {
    const std::string text = fmt::format("{:.{}e}", value, digits - 1);
    double written = 0.0;
    std::from_chars(text.data(), text.data() + text.size(), written);
    if (std::abs(written - value) <= 1e-12 * std::abs(value)) return digits;
  }
  return fewest;
}

std::string without_spaces(std::string text) {
  std::erase(text, ' ');
  return text;
}

std::string write(double value, values::Unit unit) {
  if (unit == values::Unit::ohm) return values::format_ohms(value, figures(value));
  return without_spaces(values::format_value(value, unit, figures(value)));
}

/// "c-e", in the order of the lead names.
std::string pair(const Part& part, std::size_t lead_1, std::size_t lead_2) {
  const auto names = lead_names(part.kind);
  return fmt::format("{}-{}", names[std::min(lead_1, lead_2)], names[std::max(lead_1, lead_2)]);
}

struct FaultWriter {
  const Circuit& circuit;

  std::string operator()(const OpenPart& edit) const {
    return circuit.at(edit.part).name + " open";
  }
  std::string operator()(const ShortPart& edit) const {
    return circuit.at(edit.part).name + " short";
  }
  std::string operator()(const ShortLeads& edit) const {
    const Part& part = circuit.at(edit.part);
    if (part.leads.size() == 2) return part.name + " short";
    return fmt::format("{} short {}", part.name, pair(part, edit.lead_1, edit.lead_2));
  }
  std::string operator()(const OpenLead& edit) const {
    const Part& part = circuit.at(edit.part);
    return fmt::format("{} open {}", part.name, lead_names(part.kind)[edit.lead]);
  }
  std::string operator()(const LiftWiper& edit) const {
    return circuit.at(edit.part).name + " wiper open";
  }
  std::string operator()(const SetTravel& edit) const {
    return fmt::format(
        "{} at {}", circuit.at(edit.part).name, write(edit.travel, values::Unit::percent));
  }
  std::string operator()(const SetValue& edit) const {
    const Part& part = circuit.at(edit.part);
    return fmt::format("{} is {}", part.name, write(edit.value, unit_of_value(part.kind)));
  }
  std::string operator()(const Leak& edit) const {
    const Part& part = circuit.at(edit.part);
    const std::string ohms = write(edit.ohm, values::Unit::ohm);
    if (part.leads.size() == 2) return fmt::format("{} leaks {}", part.name, ohms);
    return fmt::format("{} leaks {} {}", part.name, pair(part, edit.lead_1, edit.lead_2), ohms);
  }
  std::string operator()(const SwapLeads& edit) const {
    const Part& part = circuit.at(edit.part);
    if (part.kind == PartKind::diode) return part.name + " reversed";
    return fmt::format("{} swapped {}", part.name, pair(part, edit.lead_1, edit.lead_2));
  }
  std::string operator()(const SetGain& edit) const {
    return fmt::format(
        "{} gain {}", circuit.at(edit.part).name, write(edit.gain, values::Unit::none));
  }
  std::string operator()(const Loosen& edit) const { return circuit.at(edit.part).name + " loose"; }
  std::string operator()(const Bridge& edit) const {
    return fmt::format("bridge {} {}", circuit.at(edit.a).name, circuit.at(edit.b).name);
  }
  std::string operator()(const LoseRail& edit) const {
    return fmt::format("rail {} lost", circuit.at(circuit.at(edit.rail).node).name);
  }
  std::string operator()(const SetType& edit) const {
    return fmt::format("{}={}", circuit.at(edit.part).name, circuit.at(edit.type).name);
  }
};

}  // namespace

std::string write_fault(const Circuit& circuit, const Edit& edit) {
  return std::visit(FaultWriter{circuit}, edit);
}

}  // namespace idlepoint::circuit
