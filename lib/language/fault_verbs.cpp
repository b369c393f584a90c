#include "language/fault_verbs.hpp"

#include <algorithm>
#include <cstddef>
#include <string>

#include "circuit/part_value.hpp"
#include "circuit/sentence.hpp"
#include "language/fields.hpp"
#include "language/node_names.hpp"

namespace idlepoint::language {
namespace {

using circuit::PartKind;
using values::Unit;

using MaybeEdit = std::optional<circuit::Edit>;

MaybeEdit does_not_fit(const Fault& fault, const std::string& what, const std::string& instead) {
  complain(fault.draft,
           "fault-does-not-fit",
           fault.verb,
           quote(fault.name.text) + " is " + circuit::a_kind(fault.kind()) + " and " + what,
           "",
           instead);
  return std::nullopt;
}

MaybeEdit asks_for(const Fault& fault, const std::string& form) {
  complain(fault.draft,
           "fault-unreadable",
           fault.rest.empty() ? fault.verb : fault.rest.back(),
           quote(fault.verb.text) + " is written another way",
           "",
           "Write " + quote(fault.name.text + " " + form) + ".");
  return std::nullopt;
}

bool has_count(const Fault& fault, std::size_t count, const std::string& form) {
  if (fault.rest.size() == count) return true;
  static_cast<void>(asks_for(fault, form));
  return false;
}

std::optional<std::size_t> lead_named(const Fault& fault, const Word& word, std::string_view name) {
  const auto index = lead_index(fault.kind(), name);
  if (index) return index;
  complain(fault.draft,
           "unknown-lead",
           word,
           quote(fault.name.text) + " is " + circuit::a_kind(fault.kind()) + " and has no lead " +
               quote(name),
           "",
           "Its leads are " + lead_choices(fault.kind()) + ".");
  return std::nullopt;
}

struct TwoLeads {
  std::size_t first;
  std::size_t second;
};

// "c-e"
std::optional<TwoLeads> two_leads(const Fault& fault, const Word& word) {
  const std::size_t dash = word.text.find('-');
  if (dash == std::string::npos) {
    const auto names = circuit::lead_names(fault.kind());
    complain(fault.draft,
             "fault-unreadable",
             word,
             quote(word.text) + " does not name two leads",
             "",
             "Write two leads with a dash between, such as " +
                 quote(std::string(names.front()) + "-" + std::string(names.back())) + ".");
    return std::nullopt;
  }
  const auto one = lead_named(fault, word, std::string_view(word.text).substr(0, dash));
  const auto two = lead_named(fault, word, std::string_view(word.text).substr(dash + 1));
  if (!one || !two) return std::nullopt;
  if (*one == *two) {
    complain(fault.draft, "fault-unreadable", word, "the two leads are one", "", "Name two.");
    return std::nullopt;
  }
  return TwoLeads{std::min(*one, *two), std::max(*one, *two)};
}

bool has_two_leads(const Fault& fault) { return circuit::lead_names(fault.kind()).size() == 2; }

MaybeEdit read_open(const Fault& fault) {
  if (fault.rest.empty()) return circuit::OpenPart{fault.part};
  if (!has_count(fault, 1, "open")) return std::nullopt;
  const auto lead = lead_named(fault, fault.rest[0], fault.rest[0].text);
  if (!lead) return std::nullopt;
  if (has_two_leads(fault)) return circuit::OpenPart{fault.part};
  if (fault.kind() == PartKind::trimmer && *lead == 1) return circuit::LiftWiper{fault.part};
  return circuit::OpenLead{fault.part, *lead};
}

MaybeEdit read_absent(const Fault& fault) {
  if (!has_count(fault, 0, "absent")) return std::nullopt;
  return circuit::OpenPart{fault.part};
}

MaybeEdit read_short(const Fault& fault) {
  if (fault.rest.empty() && has_two_leads(fault)) return circuit::ShortPart{fault.part};
  if (has_two_leads(fault)) return asks_for(fault, "short");
  const auto names = circuit::lead_names(fault.kind());
  const std::string form = "short " + std::string(names[0]) + "-" + std::string(names[2]);
  if (!has_count(fault, 1, form)) return std::nullopt;
  const auto leads = two_leads(fault, fault.rest[0]);
  if (!leads) return std::nullopt;
  return circuit::ShortLeads{fault.part, leads->first, leads->second};
}

MaybeEdit read_is(const Fault& fault) {
  const PartKind kind = fault.kind();
  const bool no_value = kind == PartKind::link || kind == PartKind::lamp || circuit::has_type(kind);
  if (no_value) return does_not_fit(fault, "has no value to change", "Name a part that has one.");
  if (!has_count(fault, 1, "is VALUE")) return std::nullopt;
  const auto* feed = std::get_if<circuit::FeedDetails>(&fault.draft.circuit.at(fault.part).details);
  const bool any = kind == PartKind::hold || (feed != nullptr && !feed->compliance_v);
  const auto value = read_number(fault.draft,
                                 {},
                                 fault.rest[0],
                                 "",
                                 circuit::unit_of_value(kind),
                                 any ? Range::any : Range::not_negative);
  if (!value) return std::nullopt;
  return circuit::SetValue{fault.part, *value};
}

MaybeEdit read_wiper(const Fault& fault) {
  if (fault.kind() != PartKind::trimmer)
    return does_not_fit(fault, "has no wiper", "Name a trimmer.");
  if (fault.rest.size() != 1 || fault.rest[0].text != "open") return asks_for(fault, "wiper open");
  return circuit::LiftWiper{fault.part};
}

MaybeEdit read_at(const Fault& fault) {
  if (fault.kind() != PartKind::trimmer)
    return does_not_fit(fault, "has no travel", "Name a trimmer.");
  if (!has_count(fault, 1, "at 80%")) return std::nullopt;
  const auto travel = read_number(fault.draft, {}, fault.rest[0], "", Unit::percent, Range::share);
  if (!travel) return std::nullopt;
  return circuit::SetTravel{fault.part, *travel};
}

MaybeEdit read_leaks(const Fault& fault) {
  const PartKind kind = fault.kind();
  if (kind != PartKind::capacitor && !circuit::has_type(kind)) {
    return does_not_fit(fault, "does not leak", "Write `" + fault.name.text + " is VALUE`.");
  }
  TwoLeads leads{0, 1};
  if (has_two_leads(fault)) {
    if (!has_count(fault, 1, "leaks 100k")) return std::nullopt;
  } else {
    if (!has_count(fault, 2, "leaks c-e 10k")) return std::nullopt;
    const auto named = two_leads(fault, fault.rest[0]);
    if (!named) return std::nullopt;
    leads = *named;
  }
  const auto ohm = read_number(fault.draft, {}, fault.rest.back(), "", Unit::ohm, Range::positive);
  if (!ohm) return std::nullopt;
  return circuit::Leak{fault.part, leads.first, leads.second, *ohm};
}

MaybeEdit read_reversed(const Fault& fault) {
  if (fault.kind() != PartKind::diode) {
    return does_not_fit(
        fault,
        "cannot be reversed",
        circuit::is_transistor(fault.kind())
            ? "Name the two leads that are exchanged: `" + fault.name.text + " swapped c-b`."
            : "");
  }
  if (!has_count(fault, 0, "reversed")) return std::nullopt;
  return circuit::SwapLeads{fault.part, 0, 1};
}

MaybeEdit read_swapped(const Fault& fault) {
  if (has_two_leads(fault)) {
    return does_not_fit(
        fault, "has only two leads", fault.kind() == PartKind::diode ? "Write `reversed`." : "");
  }
  if (!has_count(fault, 1, "swapped c-b")) return std::nullopt;
  const auto leads = two_leads(fault, fault.rest[0]);
  if (!leads) return std::nullopt;
  return circuit::SwapLeads{fault.part, leads->first, leads->second};
}

MaybeEdit read_gain(const Fault& fault) {
  if (!circuit::is_bipolar(fault.kind()))
    return does_not_fit(fault, "has no gain", "Name an npn or a pnp.");
  if (!has_count(fault, 1, "gain 30")) return std::nullopt;
  const auto gain = read_number(fault.draft, {}, fault.rest[0], "", Unit::none, Range::positive);
  if (!gain) return std::nullopt;
  return circuit::SetGain{fault.part, *gain};
}

MaybeEdit read_loose(const Fault& fault) {
  if (!fault.draft.circuit.at(fault.part).mounting.heatsink) {
    return does_not_fit(fault, "sits on no heat sink", "Name a part with `on=`.");
  }
  if (!has_count(fault, 0, "loose")) return std::nullopt;
  return circuit::Loosen{fault.part};
}

constexpr FaultVerb verbs[] = {{"open", read_open},
                               {"short", read_short},
                               {"absent", read_absent},
                               {"is", read_is},
                               {"wiper", read_wiper},
                               {"at", read_at},
                               {"leaks", read_leaks},
                               {"reversed", read_reversed},
                               {"swapped", read_swapped},
                               {"gain", read_gain},
                               {"loose", read_loose}};

}  // namespace

std::span<const FaultVerb> all_fault_verbs() noexcept { return verbs; }

}  // namespace idlepoint::language
