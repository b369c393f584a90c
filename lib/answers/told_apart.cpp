#include "answers/told_apart.hpp"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace idlepoint::answers {
namespace {

constexpr double left_untold = 2e-3;  ///< Share of all those together that are not looked at again.
constexpr std::size_t most_looked_at = 120;

class Telling {
 public:
  Telling(const DiagnoseAsked& asked,
          const Evidence& evidence,
          const std::vector<const Explanation*>& all,
          double none_log_posterior)
      : asked_(asked), evidence_(evidence), all_(all), none_log_posterior_(none_log_posterior) {}

  ToldApart run() {
    weigh();
    result_.measurements =
        measurements_to_take(*asked_.sound.stage, parts_in_question(), asked_.readings);
    foretell_all();
    group();
    return std::move(result_);
  }

 private:
  void weigh() {
    double best = none_log_posterior_;
    for (const Explanation* one : all_) {
      if (one->fit) best = std::max(best, one->log_posterior());
    }
    double total = std::exp(none_log_posterior_ - best);
    for (const Explanation* one : all_) {
      if (!one->fit) continue;
      const double weight = std::exp(one->log_posterior() - best);
      total += weight;
      result_.contenders.push_back({one, weight});
    }
    for (Contender& one : result_.contenders) one.share /= total;
    result_.none_share = std::exp(none_log_posterior_ - best) / total;
    std::stable_sort(result_.contenders.begin(),
                     result_.contenders.end(),
                     [](const auto& a, const auto& b) { return a.share > b.share; });
    double left = 1.0 - result_.none_share;
    std::size_t kept = 0;
    while (kept < result_.contenders.size() && kept < most_looked_at &&
           (left > left_untold || kept < 2)) {
      left -= result_.contenders[kept].share;
      ++kept;
    }
    result_.contenders.resize(kept);
    result_.left_share = std::max(0.0, left);
  }

  /// The parts of the suspects, in the order of the drawing.
  [[nodiscard]] std::vector<circuit::PartId> parts_in_question() const {
    std::set<std::size_t> indices;
    for (const Contender& one : result_.contenders) {
      for (const SuspectedFault& fault : one.explanation->faults) {
        if (fault.part) indices.insert(fault.part->index);
      }
    }
    std::vector<circuit::PartId> parts;
    for (const std::size_t index : indices) parts.push_back(circuit::PartId{index});
    return parts;
  }

  void foretell_all() {
    std::vector<circuit::Measurement> on;
    std::vector<circuit::Measurement> off;
    for (const circuit::Measurement& one : result_.measurements) {
      (circuit::is_power_off(one) ? off : on).push_back(one);
    }
    tbb::parallel_for(std::size_t{0}, result_.contenders.size(), [&](std::size_t k) {
      const Explanation& one = *result_.contenders[k].explanation;
      const auto sized = one.sized();
      const PlannedStage stage{*one.faulty, evidence_.conditions, sized, evidence_.sound_when_off};
      const Standing at{one.fit->u, one.fit->t};
      const Standing from{one.fit->slopes_u, one.fit->slopes_t};
      const auto shown_on = one.planned->show_on(*one.bench, on, from, at);
      const auto shown_off = one.planned->show_off(stage, off, at, Slopes::of_sizes);
      if (!shown_on || !shown_off) return;
      const auto sound = evidence_.sound_channel();
      const Unknowns unknowns(*one.bench, sound ? &*sound : nullptr);
      result_.contenders[k].foretold = foretell(
          *asked_.sound.stage, result_.measurements, {*shown_on, *shown_off, unknowns}, *one.fit);
    });
  }

  void group() {
    for (std::size_t k = 0; k < result_.contenders.size(); ++k) {
      const auto known =
          std::find_if(result_.groups.begin(), result_.groups.end(), [&](const Group& one) {
            const auto& first = result_.contenders[one.members.front()].foretold;
            const auto& own = result_.contenders[k].foretold;
            return first && own && likeness(*first, *own) > alike;
          });
      if (known == result_.groups.end()) {
        result_.groups.push_back({{k}, result_.contenders[k].share});
        continue;
      }
      known->members.push_back(k);
      known->share += result_.contenders[k].share;
    }
    for (Group& one : result_.groups) {
      const auto sound = std::find_if(one.members.begin(), one.members.end(), [&](std::size_t k) {
        return result_.contenders[k].explanation->faults.empty();
      });
      if (sound != one.members.end()) std::rotate(one.members.begin(), sound, sound + 1);
    }
    std::stable_sort(result_.groups.begin(),
                     result_.groups.end(),
                     [](const Group& a, const Group& b) { return a.share > b.share; });
  }

  const DiagnoseAsked& asked_;
  const Evidence& evidence_;
  const std::vector<const Explanation*>& all_;
  double none_log_posterior_;
  ToldApart result_;
};

}  // namespace

ToldApart tell_apart(const DiagnoseAsked& asked,
                     const Evidence& evidence,
                     const std::vector<const Explanation*>& all,
                     double none_log_posterior) {
  return Telling(asked, evidence, all, none_log_posterior).run();
}

}  // namespace idlepoint::answers
