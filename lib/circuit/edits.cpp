// Makes an edit of a drawing, or says why the part's kind does not allow it.
//
// Source of the meaning of every edit: docs/language.md, "Faults".
#include "circuit/edits.hpp"

#include <fmt/format.h>

#include <cmath>
#include <utility>

#include "circuit/sentence.hpp"

namespace idlepoint::circuit {
namespace {

/// Why an edit does not fit; none where it was made.
using Refusal = std::optional<std::string>;

std::string lead_of(const Part& part, std::size_t index) {
  return fmt::format("the {} of {}", lead_in_words(part.kind, index), part.name);
}

Refusal refuse_absent(const Part& part) {
  if (!part.damage.absent) return std::nullopt;
  return fmt::format("{} is open or taken out already", part.name);
}

Refusal refuse_lead(const Part& part, std::size_t index) {
  if (index >= part.leads.size()) {
    return fmt::format("{} has no such lead: it is {}", part.name, a_kind(part.kind));
  }
  if (!part.leads[index]) return fmt::format("{} is left off the drawing", lead_of(part, index));
  return std::nullopt;
}

Refusal refuse_pair(const Part& part, std::size_t lead_1, std::size_t lead_2) {
  if (auto refusal = refuse_absent(part)) return refusal;
  if (auto refusal = refuse_lead(part, lead_1)) return refusal;
  if (auto refusal = refuse_lead(part, lead_2)) return refusal;
  if (lead_1 != lead_2) return std::nullopt;
  return fmt::format("{} and itself are one lead: name two", lead_of(part, lead_1));
}

bool has_value(PartKind kind) {
  return kind != PartKind::link && kind != PartKind::lamp && !has_type(kind);
}

/// The ranges of docs/language.md, "Values".
Refusal refuse_value(const Part& part, double value) {
  if (!has_value(part.kind)) return fmt::format("{} has no value to change", a_kind(part.kind));
  if (!std::isfinite(value)) return fmt::format("the value of {} must be finite", part.name);
  if (part.kind == PartKind::hold) return std::nullopt;
  if (part.kind == PartKind::feed) {
    const auto* feed = std::get_if<FeedDetails>(&part.details);
    if (feed && !feed->compliance_v) return std::nullopt;
    if (value >= 0.0) return std::nullopt;
    return fmt::format("{} cannot be negative: exchange `from` and `into`", part.name);
  }
  if (part.kind == PartKind::fuse && value <= 0.0) return "a fuse's rating must be above 0";
  if (value < 0.0) return fmt::format("the value of {} cannot be negative", a_kind(part.kind));
  return std::nullopt;
}

void short_inside(Part& part, std::size_t lead_1, std::size_t lead_2) {
  if (part.leads.size() == 2) {
    part.damage.is_link = true;
  } else {
    part.damage.shorts.push_back({lead_1, lead_2});
  }
}

struct Editor {
  Circuit& circuit;

  Refusal operator()(const OpenPart& edit) const {
    Damage& damage = circuit.at(edit.part).damage;
    damage.absent = true;
    damage.taken_out = damage.taken_out || edit.is_taken_out;
    return std::nullopt;
  }

  Refusal operator()(const ShortPart& edit) const {
    Part& part = circuit.at(edit.part);
    if (part.leads.size() != 2) {
      const auto names = lead_names(part.kind);
      return fmt::format("{} has three leads: say which two, as in `{} short {}-{}`",
                         a_kind(part.kind),
                         part.name,
                         names[0],
                         names[2]);
    }
    if (auto refusal = refuse_pair(part, 0, 1)) return refusal;
    short_inside(part, 0, 1);
    return std::nullopt;
  }

  Refusal operator()(const ShortLeads& edit) const {
    Part& part = circuit.at(edit.part);
    if (auto refusal = refuse_pair(part, edit.lead_1, edit.lead_2)) return refusal;
    short_inside(part, edit.lead_1, edit.lead_2);
    return std::nullopt;
  }

  Refusal operator()(const OpenLead& edit) const {
    Part& part = circuit.at(edit.part);
    if (auto refusal = refuse_absent(part)) return refusal;
    if (auto refusal = refuse_lead(part, edit.lead)) return refusal;
    if (part.leads.size() == 2) {
      return fmt::format(
          "to lift one end of {} is to open it: write `{} open`", a_kind(part.kind), part.name);
    }
    if (circuit.at(*part.leads[edit.lead]).lifted) {
      return fmt::format("{} is lifted already", lead_of(part, edit.lead));
    }
    const NodeId own{circuit.nodes.size()};
    circuit.nodes.push_back(
        {.name = fmt::format("{}.{} (lifted)", part.name, lead_names(part.kind)[edit.lead]),
         .is_socket = false,
         .lifted = true,
         .place = part.place});
    part.leads[edit.lead] = own;
    return std::nullopt;
  }

  Refusal operator()(const LiftWiper& edit) const {
    Part& part = circuit.at(edit.part);
    if (part.kind != PartKind::trimmer) return fmt::format("{} has no wiper", a_kind(part.kind));
    if (auto refusal = refuse_absent(part)) return refusal;
    part.damage.wiper_open = true;
    return std::nullopt;
  }

  Refusal operator()(const SetTravel& edit) const {
    Part& part = circuit.at(edit.part);
    auto* trimmer = std::get_if<TrimmerDetails>(&part.details);
    if (part.kind != PartKind::trimmer || !trimmer) {
      return fmt::format("{} has no travel", a_kind(part.kind));
    }
    if (!(edit.travel >= 0.0 && edit.travel <= 1.0)) {
      return fmt::format("the travel of {} goes from 0% to 100%", part.name);
    }
    trimmer->travel = edit.travel;
    return std::nullopt;
  }

  Refusal operator()(const SetValue& edit) const {
    Part& part = circuit.at(edit.part);
    if (auto refusal = refuse_value(part, edit.value)) return refusal;
    part.value = edit.value;
    return std::nullopt;
  }

  Refusal operator()(const Leak& edit) const {
    Part& part = circuit.at(edit.part);
    auto* capacitor = std::get_if<CapacitorDetails>(&part.details);
    if (!capacitor && !has_type(part.kind)) {
      return fmt::format("{} does not leak", a_kind(part.kind));
    }
    if (auto refusal = refuse_pair(part, edit.lead_1, edit.lead_2)) return refusal;
    if (!(edit.ohm > 0.0) || !std::isfinite(edit.ohm)) {
      return "a leak is a resistance above 0 ohms; for 0 ohms write a short";
    }
    if (capacitor) {
      capacitor->leakage_ohm = edit.ohm;
    } else {
      part.damage.leaks.push_back({edit.lead_1, edit.lead_2, edit.ohm});
    }
    return std::nullopt;
  }

  Refusal operator()(const SwapLeads& edit) const {
    Part& part = circuit.at(edit.part);
    if (!has_type(part.kind) && part.kind != PartKind::trimmer) {
      return fmt::format("{} has no two leads to exchange by mistake", a_kind(part.kind));
    }
    if (auto refusal = refuse_pair(part, edit.lead_1, edit.lead_2)) return refusal;
    std::swap(part.leads[edit.lead_1], part.leads[edit.lead_2]);
    if (part.lead_places.size() == part.leads.size()) {
      std::swap(part.lead_places[edit.lead_1], part.lead_places[edit.lead_2]);
    }
    return std::nullopt;
  }

  Refusal operator()(const SetGain& edit) const {
    Part& part = circuit.at(edit.part);
    if (!is_bipolar(part.kind)) return fmt::format("{} has no gain", a_kind(part.kind));
    if (!(edit.gain > 0.0) || !std::isfinite(edit.gain)) return "a gain must be above 0";
    part.damage.gain = edit.gain;
    return std::nullopt;
  }

  Refusal operator()(const Loosen& edit) const {
    Part& part = circuit.at(edit.part);
    if (!part.mounting.heatsink) return fmt::format("{} sits on no heat sink", part.name);
    part.damage.loose = true;
    return std::nullopt;
  }

  Refusal operator()(const Bridge& edit) const {
    const std::string& a = circuit.at(edit.a).name;
    const std::string& b = circuit.at(edit.b).name;
    if (edit.a == edit.b) return fmt::format("`{}` is one point: a bridge joins two", a);
    Part bridge;
    bridge.name = fmt::format("bridge {} {}", a, b);
    if (find_part(circuit, bridge.name)) return fmt::format("{} stands twice", bridge.name);
    bridge.kind = PartKind::link;
    bridge.leads = {edit.a, edit.b};
    circuit.parts.push_back(std::move(bridge));
    return std::nullopt;
  }

  Refusal operator()(const LoseRail& edit) const {
    circuit.rails.at(edit.rail.index).lost = true;
    return std::nullopt;
  }

  Refusal operator()(const SetType& edit) const {
    Part& part = circuit.at(edit.part);
    const PartType& type = circuit.at(edit.type);
    if (!has_type(part.kind)) return fmt::format("{} has no type", a_kind(part.kind));
    if (type.kind != part.kind) {
      return fmt::format(
          "{} is {} and {} is {}", part.name, a_kind(part.kind), type.name, a_kind(type.kind));
    }
    part.type = edit.type;
    return std::nullopt;
  }
};

}  // namespace

std::variant<CheckedCircuit, std::string> apply(const CheckedCircuit& circuit, const Edit& edit) {
  Refusal refusal;
  CheckedCircuit changed =
      circuit.edited([&](Circuit& copy) { refusal = std::visit(Editor{copy}, edit); });
  if (refusal) return *std::move(refusal);
  return changed;
}

}  // namespace idlepoint::circuit
