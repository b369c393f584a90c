#include "answers/range_cure.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <tuple>

#include "answers/emitter_resistors.hpp"
#include "answers/verdict.hpp"
#include "solve/adjust.hpp"
#include "values/preferred.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Circuit;
using circuit::PartId;

constexpr double largest_change = 4.0;
constexpr double ratio_step = 1.25;

/// How far the reading stands from its target with the trimmer half way, by one resistor's value.
class Miss {
 public:
  Miss(const circuit::CheckedCircuit& stage,
       const solve::Conditions& conditions,
       const circuit::Adjustment& missed)
      : stage_(stage.edited([&](Circuit& circuit) {
          std::get<circuit::TrimmerDetails>(circuit.at(missed.trimmer).details).travel = 0.5;
        })),
        conditions_(conditions),
        missed_(missed),
        present_(of(stage_)) {}

  /// With every resistor as it is.
  [[nodiscard]] std::optional<double> present() const { return present_; }

  [[nodiscard]] std::optional<double> at(PartId resistor, double ohm) const {
    return of(stage_.edited([&](Circuit& circuit) { circuit.at(resistor).value = ohm; }));
  }

 private:
  [[nodiscard]] std::optional<double> of(const circuit::CheckedCircuit& stage) const {
    const auto outcome = solve::solve_stage(stage, conditions_);
    const auto* state = std::get_if<solve::OperatingPoint>(&outcome);
    if (state == nullptr) return std::nullopt;
    return state->read(*stage, stage->at(missed_.reading).probe) - missed_.target;
  }

  circuit::CheckedCircuit stage_;
  const solve::Conditions& conditions_;
  const circuit::Adjustment& missed_;
  std::optional<double> present_;
};

std::optional<double> bisect(const Miss& miss, PartId resistor, double near, double far) {
  const bool is_above = *miss.present() > 0.0;  // and so at `near`
  constexpr int halvings = 8;                   // finer than the steps of the series
  for (int k = 0; k < halvings; ++k) {
    const double middle = std::sqrt(near * far);
    const auto there = miss.at(resistor, middle);
    if (!there) return std::nullopt;
    (*there > 0.0) == is_above ? near = middle : far = middle;
  }
  return std::sqrt(near * far);
}

/// The value nearest to the present one at which the reading meets its target, one way.
std::optional<double> value_that_fits(const Miss& miss, PartId resistor, double ohm, bool up) {
  if (!miss.present()) return std::nullopt;
  double near = ohm;
  for (double ratio = ratio_step; ratio < largest_change; ratio *= ratio_step) {
    const double far = up ? ohm * ratio : ohm / ratio;
    const auto there = miss.at(resistor, far);
    if (!there) return std::nullopt;
    if ((*there > 0.0) != (*miss.present() > 0.0)) return bisect(miss, resistor, near, far);
    near = far;
  }
  return std::nullopt;
}

bool is_candidate(const circuit::Part& part) {
  return part.kind == circuit::PartKind::resistor && !part.damage.absent && !part.damage.is_link &&
         part.value > largest_emitter_resistor_ohm;
}

bool share_a_joint(const circuit::Part& resistor, const circuit::Part& trimmer) {
  for (const auto& node : resistor.leads) {
    if (!node || *node == circuit::ground) continue;
    if (std::find(trimmer.leads.begin(), trimmer.leads.end(), node) != trimmer.leads.end()) {
      return true;
    }
  }
  return false;
}

/// The trimmer's travel with that value in place, where every target is then reached.
std::optional<double> travel_with(const circuit::CheckedCircuit& stage,
                                  const solve::Conditions& conditions,
                                  const RangeCure& cure,
                                  PartId trimmer) {
  const auto changed =
      stage.edited([&](Circuit& circuit) { circuit.at(cure.resistor).value = cure.to_ohm; });
  const auto outcome = solve::solve_adjustments(
      changed, conditions, solve::SafeEnds(stage->adjustments.size(), std::nullopt));
  const auto* adjusted = std::get_if<solve::Adjusted>(&outcome);
  if (adjusted == nullptr) return std::nullopt;
  std::optional<double> travel;
  for (const auto& setting : adjusted->settings) {
    if (!setting.reached) return std::nullopt;
    if (setting.trimmer == trimmer) travel = setting.travel;
  }
  if (travel && is_at_an_end(*travel)) return std::nullopt;
  return travel;
}

/// The slightest change of one resistor; none where no value does.
std::optional<RangeCure> cure_by(const circuit::CheckedCircuit& stage,
                                 const solve::Conditions& conditions,
                                 const circuit::Adjustment& missed,
                                 const Miss& miss,
                                 PartId resistor) {
  const double ohm = stage->at(resistor).value;
  for (const bool up : {true, false}) {
    const auto fits = value_that_fits(miss, resistor, ohm, up);
    if (!fits) continue;
    RangeCure cure{resistor, ohm, values::nearest_e24(*fits), 0.0};
    if (cure.to_ohm == ohm) cure.to_ohm = values::next_e24(ohm, up);
    const auto travel = travel_with(stage, conditions, cure, missed.trimmer);
    if (!travel) continue;
    cure.travel = *travel;
    return cure;
  }
  return std::nullopt;
}

}  // namespace

std::vector<RangeCure> find_range_cures(const circuit::CheckedCircuit& stage,
                                        const solve::Conditions& conditions,
                                        const circuit::Adjustment& missed) {
  const Miss miss(stage, conditions, missed);
  std::vector<RangeCure> cures;
  for (std::size_t index = 0; index < stage->parts.size(); ++index) {
    if (!is_candidate(stage->parts[index])) continue;
    if (auto cure = cure_by(stage, conditions, missed, miss, PartId{index})) cures.push_back(*cure);
  }
  const auto& trimmer = stage->at(missed.trimmer);
  const auto rank = [&](const RangeCure& cure) {
    return std::tuple(!share_a_joint(stage->at(cure.resistor), trimmer),
                      std::abs(std::log(cure.to_ohm / cure.from_ohm)));
  };
  std::stable_sort(cures.begin(), cures.end(), [&](const auto& one, const auto& other) {
    return rank(one) < rank(other);
  });
  constexpr std::size_t most = 2;
  if (cures.size() > most) cures.resize(most);
  return cures;
}

}  // namespace idlepoint::answers
