#include "report/fault_done.hpp"

#include <fmt/format.h>

#include <cmath>

#include "devices/bipolar.hpp"
#include "report/figures.hpp"
#include "values/format.hpp"

namespace idlepoint::report {
namespace {

using answers::Change;
using answers::Moves;
using circuit::Circuit;
using circuit::Part;
using circuit::PartId;
using circuit::PartKind;

std::string carried(double current_a) {
  constexpr double nothing_a = 0.5e-6;
  return std::abs(current_a) < nothing_a ? "next to nothing" : size_a(current_a);
}
std::string size_v(double voltage_v) { return volts(std::abs(voltage_v)); }

std::string in_unit_of(const Part& part, double value) {
  using values::Unit;
  switch (part.kind) {
    case PartKind::capacitor:
      return values::format_value(value, Unit::farad);
    case PartKind::inductor:
      return values::format_value(value, Unit::henry);
    case PartKind::fuse:
    case PartKind::feed:
      return values::format_value(value, Unit::ampere);
    case PartKind::hold:
      return values::format_value(value, Unit::volt);
    default:
      return values::format_ohms(value);
  }
}

struct Done {
  const Circuit& sound;
  const Circuit& faulty;
  const Moves& moves;
  const answers::ChainStep& step;

  [[nodiscard]] const Part& part(PartId id) const { return faulty.at(id); }
  [[nodiscard]] std::string lead_of(PartId id, std::size_t lead) const {
    return fmt::format("the {} of {}", circuit::lead_in_words(part(id).kind, lead), part(id).name);
  }

  std::string operator()(const circuit::OpenPart& edit) const {
    const std::string was = carried(moves.main_a(edit.part).was);
    const std::string& name = part(edit.part).name;
    if (circuit::is_transistor(part(edit.part).kind)) {
      return fmt::format("{} carried {}; open, none of its legs passes anything.", name, was);
    }
    return fmt::format("{} carried {}; open, it passes nothing.", name, was);
  }

  std::string operator()(const circuit::ShortPart& edit) const {
    const auto across = moves.across_v(edit.part, 0, 1).value_or(Change{});
    const Change through = moves.main_a(edit.part);
    return fmt::format("{}, {} across it before, is a plain wire: {} through it, {} before.",
                       part(edit.part).name,
                       size_v(across.was),
                       size_a(through.now),
                       size_a(through.was));
  }

  std::string operator()(const circuit::ShortLeads& edit) const {
    const auto across = moves.across_v(edit.part, edit.lead_1, edit.lead_2).value_or(Change{});
    return fmt::format("The {} and the {} of {}, {} apart before, are one point.",
                       circuit::lead_in_words(part(edit.part).kind, edit.lead_1),
                       circuit::lead_in_words(part(edit.part).kind, edit.lead_2),
                       part(edit.part).name,
                       size_v(across.was));
  }

  std::string operator()(const circuit::OpenLead& edit) const {
    std::string lead = lead_of(edit.part, edit.lead);
    lead.front() = 'T';
    return fmt::format(
        "{} is off: {} went that way.", lead, carried(moves.lead_a(edit.part, edit.lead).was));
  }

  std::string operator()(const circuit::LiftWiper& edit) const {
    return fmt::format("The wiper of {} lifts from its track: {} went that way.",
                       part(edit.part).name,
                       carried(moves.lead_a(edit.part, 1).was));
  }

  std::string operator()(const circuit::SetTravel& edit) const {
    const auto travel = [&](const Circuit& circuit) {
      return std::get<circuit::TrimmerDetails>(circuit.at(edit.part).details).travel;
    };
    return fmt::format("{} goes from {} to {} of its travel.",
                       part(edit.part).name,
                       percent(travel(sound)),
                       percent(edit.travel));
  }

  std::string operator()(const circuit::SetValue& edit) const {
    const Part& it = part(edit.part);
    std::string text = fmt::format("{} is {} instead of {}",
                                   it.name,
                                   in_unit_of(it, edit.value),
                                   in_unit_of(it, sound.at(edit.part).value));
    const auto across = moves.across_v(edit.part, 0, 1);
    if (it.kind != PartKind::resistor || !across) return text + ".";
    const Change through = moves.main_a(edit.part);
    return text + fmt::format(": {} through it, {} before, and {} across it, {} before.",
                              size_a(through.now),
                              size_a(through.was),
                              size_v(across->now),
                              size_v(across->was));
  }

  std::string operator()(const circuit::Leak& edit) const {
    const auto across = moves.across_v(edit.part, edit.lead_1, edit.lead_2).value_or(Change{});
    const Part& it = part(edit.part);
    const std::string where = it.leads.size() < 3
                                  ? ""
                                  : fmt::format(" from {} to {}",
                                                circuit::lead_in_words(it.kind, edit.lead_1),
                                                circuit::lead_in_words(it.kind, edit.lead_2));
    return fmt::format("{} leaks{}: {} across {} is {}.",
                       it.name,
                       where,
                       size_v(across.now),
                       values::format_ohms(edit.ohm),
                       size_a(across.now / edit.ohm));
  }

  std::string operator()(const circuit::SwapLeads& edit) const {
    const Part& it = part(edit.part);
    const Change through = moves.main_a(edit.part);
    return fmt::format("The {} and the {} of {} are exchanged: it carries {}, {} before.",
                       circuit::lead_in_words(it.kind, edit.lead_1),
                       circuit::lead_in_words(it.kind, edit.lead_2),
                       it.name,
                       size_a(through.now),
                       size_a(through.was));
  }

  std::string operator()(const circuit::SetGain& edit) const {
    const Part& it = part(edit.part);
    const auto& law = std::get<devices::BipolarData>(sound.at(*it.type).law);
    const double before = sound.at(edit.part).damage.gain.value_or(law.gain);
    const Change base = moves.lead_a(edit.part, 1);
    return fmt::format("{} has a gain of {:.3g} instead of {:.3g}: its base takes {}, {} before.",
                       it.name,
                       edit.gain,
                       before,
                       size_a(base.now),
                       size_a(base.was));
  }

  std::string operator()(const circuit::Loosen& edit) const {
    return fmt::format("{} is off its heat sink and stands in free air.", part(edit.part).name);
  }

  std::string operator()(const circuit::Bridge& edit) const {
    const double apart_v = moves.volts(edit.a).was - moves.volts(edit.b).was;
    return fmt::format("{} and {}, {} apart before, are one point: {} goes across the bridge.",
                       circuit::node_in_words(faulty, edit.a),
                       circuit::node_in_words(faulty, edit.b),
                       size_v(apart_v),
                       size_a(step.value.now));
  }

  std::string operator()(const circuit::LoseRail& edit) const {
    const auto& rail = moves.sound().state.rail(edit.rail);
    return fmt::format("{} has lost its source, which delivered {}: it stands at {}, {} before.",
                       circuit::node_in_words(faulty, sound.at(edit.rail).node),
                       size_a(rail.delivered_a),
                       volts(moves.volts(sound.at(edit.rail).node).now),
                       volts(rail.voltage_v));
  }

  std::string operator()(const circuit::SetType& edit) const {
    return fmt::format("{} is of type {}.", part(edit.part).name, faulty.at(edit.type).name);
  }
};

}  // namespace

std::string fault_done(const answers::Fault& answer, const answers::ChainStep& step) {
  const Moves moves = answer.moves();
  return std::visit(Done{*answer.sound, *answer.faulty, moves, step}, answer.faults.at(step.edit));
}

}  // namespace idlepoint::report
