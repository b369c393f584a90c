#include "answers/fault_dangers.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "answers/derating.hpp"
#include "values/constants.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Part;
using circuit::PartId;
using circuit::PartKind;

constexpr double loudspeaker_v = 1.0;
constexpr double rail_gives_way_below = 0.9;
// A little above its watts a part may live for the first second; not at half as much again.
constexpr double harmful_power = 1.5;

class Looking {
 public:
  explicit Looking(const StageState& stage) : stage_(stage) {}

  std::vector<Danger> list() {
    for (std::size_t index = 0; index < stage_.circuit.parts.size(); ++index) look(PartId{index});
    for (std::size_t index = 0; index < stage_.circuit.rails.size(); ++index) {
      look(circuit::RailId{index});
    }
    return std::move(found_);
  }

 private:
  void look(PartId id) {
    const Part& part = stage_.circuit.at(id);
    const auto& state = stage_.state.part(id);
    if (part.damage.absent || part.damage.is_link || state.lead_current_a.empty()) return;
    if (part.type) {
      look_typed(id, part);
    } else if (part.kind == PartKind::resistor) {
      const auto& rated_w = std::get<circuit::ResistorDetails>(part.details).power_w;
      above(Peril::power, id, state.power_w, rated_w);
    } else if (part.kind == PartKind::lamp) {
      above(Peril::power, id, state.power_w, std::get<circuit::LampDetails>(part.details).rated_w);
    } else if (part.kind == PartKind::capacitor) {
      const auto& rated_v = std::get<circuit::CapacitorDetails>(part.details).rated_v;
      above(Peril::voltage, id, std::abs(across_v(part, 0, 1)), rated_v);
    } else if (part.kind == PartKind::fuse) {
      look_fuse(id, part, std::abs(state.lead_current_a.front()));
    }
  }

  void look_typed(PartId id, const Part& part) {
    const auto& ratings = stage_.circuit.at(*part.type).ratings;
    const auto& state = stage_.state.part(id);
    above(Peril::power, id, state.power_w, allowed_w(stage_.circuit, id, stage_.state));
    above(Peril::current, id, std::abs(state.lead_current_a.front()), ratings.max_current_a);
    const double sign = circuit::is_p_kind(part.kind) ? -1.0 : 1.0;
    const double stands_v =
        part.kind == PartKind::diode ? across_v(part, 1, 0) : sign * across_v(part, 0, 2);
    above(Peril::voltage, id, stands_v, ratings.max_voltage_v);
    const auto backwards_v = base_backwards_v(stage_, id);
    if (is_broken_down(stage_, id)) {
      found_.push_back({Peril::breakdown, id, {}, *backwards_v});
    } else if (backwards_v) {
      above(Peril::base_emitter, id, *backwards_v, ratings.max_base_emitter_voltage_v);
    }
  }

  void look_fuse(PartId id, const Part& part, double current_a) {
    if (current_a > fuse_blows_at * part.value) {
      found_.push_back({Peril::fuse_blows, id, {}, current_a, part.value});
    } else {
      above(Peril::fuse_at_risk, id, current_a, part.value);
    }
  }

  void look(circuit::RailId id) {
    const auto& rail = stage_.circuit.at(id);
    const double source_v = circuit::source_v(rail) * stage_.state.conditions().rails;
    const double volts = stage_.state.rail(id).voltage_v;
    if (rail.lost || std::abs(volts) >= rail_gives_way_below * std::abs(source_v)) return;
    found_.push_back({Peril::rail_down, {}, id, volts, source_v});
    found_.back().amps = std::abs(stage_.state.rail(id).delivered_a);
  }

  void above(Peril peril, PartId part, double value, const std::optional<double>& limit) {
    if (limit && value > *limit) found_.push_back({peril, part, {}, value, *limit});
  }

  [[nodiscard]] double across_v(const Part& part, std::size_t a, std::size_t b) const {
    const auto one = circuit::lead(part, a);
    const auto other = circuit::lead(part, b);
    if (!one || !other) return 0.0;
    return stage_.state.voltage_v(*one) - stage_.state.voltage_v(*other);
  }

  const StageState& stage_;
  std::vector<Danger> found_;
};

/// How far beyond the limit, for the order alone.
double fullness(const Danger& danger) {
  return danger.limit == 0.0 ? 1.0 : std::abs(danger.value / danger.limit);
}

void sort_by_fullness(std::vector<Danger>& dangers) {
  std::stable_sort(dangers.begin(), dangers.end(), [](const Danger& one, const Danger& other) {
    if (one.peril != other.peril) return one.peril < other.peril;
    return fullness(one) > fullness(other) * (1.0 + 1e-9);
  });
}

std::vector<Danger> less(std::vector<Danger> dangers, const std::vector<Danger>& already) {
  std::erase_if(dangers, [&](const Danger& danger) {
    return std::any_of(already.begin(), already.end(), [&](const Danger& known) {
      return known.peril == danger.peril && known.part == danger.part && known.rail == danger.rail;
    });
  });
  sort_by_fullness(dangers);
  return dangers;
}

}  // namespace

std::string_view word(Peril peril) noexcept {
  switch (peril) {
    case Peril::power:
      return "power";
    case Peril::current:
      return "current";
    case Peril::voltage:
      return "voltage";
    case Peril::base_emitter:
      return "base backwards";
    case Peril::breakdown:
      return "breakdown";
    case Peril::fuse_blows:
      return "fuse blows";
    case Peril::fuse_at_risk:
      return "fuse at risk";
    case Peril::loudspeaker:
      return "loudspeaker";
    case Peril::rail_down:
      return "rail down";
    case Peril::runaway:
      return "runaway";
    case Peril::too_hot:
      return "too hot";
  }
  return "";
}

std::vector<Danger> find_dangers(const Moves& moves) {
  return less(Looking(moves.faulty()).list(), Looking(moves.sound()).list());
}

std::vector<Danger> dangers_of_warmth(const StageState& warm, const std::vector<Danger>& already) {
  auto dangers = less(Looking(warm).list(), already);
  for (Danger& danger : dangers) danger.is_warm = true;
  return dangers;
}

Danger danger_of(const solve::ThermalTrouble& trouble, const circuit::Circuit& circuit) {
  const bool is_runaway = trouble.kind == solve::ThermalTrouble::Kind::runaway;
  Danger danger{is_runaway ? Peril::runaway : Peril::too_hot, trouble.part};
  danger.value = values::celsius_from_kelvin(trouble.junction_k);
  const auto& type = circuit.at(trouble.part).type;
  if (type) {
    danger.limit =
        values::celsius_from_kelvin(circuit.at(*type).ratings.max_junction_temperature_k);
  }
  danger.is_warm = true;
  return danger;
}

std::vector<Danger> dangers_of_load(const StageState& loaded) {
  std::vector<Danger> found;
  for (std::size_t index = 0; index < loaded.circuit.parts.size(); ++index) {
    const Part& part = loaded.circuit.parts[index];
    if (part.kind != PartKind::load || part.damage.absent) continue;
    const double amps = loaded.state.part(PartId{index}).lead_current_a.at(0);
    if (std::abs(amps * part.value) < loudspeaker_v) continue;
    Danger danger{Peril::loudspeaker, PartId{index}, {}, amps * part.value};
    danger.amps = amps;
    found.push_back(danger);
  }
  return found;
}

std::vector<PartId> stressed_parts(const std::vector<Danger>& dangers) {
  std::vector<PartId> parts;
  for (const Danger& danger : dangers) {
    const bool counts = danger.peril <= Peril::breakdown && danger.part && !danger.is_warm;
    if (counts && std::find(parts.begin(), parts.end(), *danger.part) == parts.end()) {
      parts.push_back(*danger.part);
    }
  }
  return parts;
}

std::vector<PartId> parts_to_replace(const std::vector<Danger>& dangers) {
  std::vector<Danger> grave;
  std::copy_if(dangers.begin(), dangers.end(), std::back_inserter(grave), [](const Danger& danger) {
    return danger.peril != Peril::power || danger.value > harmful_power * danger.limit;
  });
  return stressed_parts(grave);
}

}  // namespace idlepoint::answers
