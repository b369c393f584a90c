#include "answers/hot_list.hpp"

#include <algorithm>
#include <array>

#include "answers/at_rail.hpp"
#include "answers/demands.hpp"
#include "answers/preset.hpp"
#include "answers/taken_out.hpp"

namespace idlepoint::answers {
namespace {

using circuit::PartId;

constexpr double is_hot_from = 0.5;
constexpr double well_filled = 2.0 / 3.0;
constexpr std::array wattages_sold{0.25, 0.5, 1.0, 2.0, 3.0, 5.0, 7.0, 10.0, 15.0, 25.0, 50.0};

double fullness(const HotPart& part) { return part.power_w / part.rating_w; }

bool is_at_risk(const HotPart& part) { return part.power_w > part.rating_w; }

std::optional<double> next_wattage(const HotPart& part) {
  if (fullness(part) <= well_filled) return std::nullopt;
  const auto enough = std::find_if(wattages_sold.begin(), wattages_sold.end(), [&](double sold_w) {
    return sold_w > part.rating_w && part.power_w <= well_filled * sold_w;
  });
  return enough == wattages_sold.end() ? std::nullopt : std::optional(*enough);
}

/// Nobody plays a stage on low rails, with its output at a rail, or with a part burning at rest.
bool can_be_played(const circuit::Circuit& circuit,
                   const solve::OperatingPoint& state,
                   const HotList& at_rest) {
  return state.conditions().rails >= lowest_rails_for_a_preset &&
         output_place(circuit, state) == OutputPlace::between &&
         std::none_of(at_rest.parts.begin(), at_rest.parts.end(), is_at_risk);
}

class Finding {
 public:
  Finding(const circuit::Circuit& circuit, const solve::OperatingPoint& state, HotList& found)
      : circuit_(circuit), state_(state), found_(found) {}

  void look_at_rest() {
    for (const PartId id : all_parts()) add_resistor(id, false, state_.part(id).power_w);
    add_typed(nullptr);
  }

  void look_played(const PlayedLoud& loud) {
    for (const PartId id : all_parts()) add_resistor(id, true, loud_watts(circuit_, loud, id));
    add_typed(&loud);
  }

 private:
  [[nodiscard]] std::vector<PartId> all_parts() const {
    std::vector<PartId> parts;
    for (std::size_t index = 0; index < circuit_.parts.size(); ++index) parts.push_back({index});
    return parts;
  }

  void add_resistor(PartId id, bool is_loud, std::optional<double> power_w) {
    const auto& part = circuit_.at(id);
    if (part.kind != circuit::PartKind::resistor || !power_w) return;
    const auto& rated_w = std::get<circuit::ResistorDetails>(part.details).power_w;
    if (!rated_w || part.damage.absent || part.damage.is_link) return;
    HotPart hot{id, is_loud, *power_w, *rated_w};
    hot.suggested_w = next_wattage(hot);
    add(hot);
  }

  void add_typed(const PlayedLoud* loud) {
    const Rating rating = loud == nullptr ? Rating::idle_power : Rating::resistive_power;
    for (const RatingCheck& check : check_ratings(circuit_, state_, loud, all_parts())) {
      if (check.rating != rating || !check.limit || !check.demand) continue;
      add({check.part, loud != nullptr, *check.demand, *check.limit});
    }
  }

  void add(const HotPart& part) {
    if (part.rating_w > 0.0 && fullness(part) > is_hot_from) found_.parts.push_back(part);
  }

  const circuit::Circuit& circuit_;
  const solve::OperatingPoint& state_;
  HotList& found_;
};

}  // namespace

HotList find_hot(const circuit::CheckedCircuit& stage, const solve::OperatingPoint& state) {
  HotList found;
  Finding finding(*stage, state, found);
  finding.look_at_rest();
  if (taken_out(*stage).empty() && can_be_played(*stage, state, found)) {
    const auto outcome = play_loud(stage, state.conditions());
    if (const auto* loud = std::get_if<PlayedLoud>(&outcome)) {
      found.full_output = loud->full;
      finding.look_played(*loud);
    }
  }
  std::stable_sort(found.parts.begin(), found.parts.end(), [](const auto& one, const auto& other) {
    return fullness(one) > fullness(other);
  });
  return found;
}

}  // namespace idlepoint::answers
