#include "answers/crossover.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "answers/flattest_band.hpp"
#include "answers/full_output.hpp"
#include "answers/idle_finder.hpp"
#include "answers/set_trimmers.hpp"
#include "answers/standing_adjustment.hpp"
#include "answers/trimmer_states.hpp"
#include "answers/why_no_crossover.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Circuit;

/// Readings of a table, in a decade.
constexpr double series[] = {1.0, 1.5, 2.0, 3.0, 5.0, 7.0};
constexpr double least_reading = 1e-3;
constexpr double most_reading = 10.0;
/// The table goes on to that many times the flattest reading.
constexpr double far_past = 2.5;

double ripple_of(const IdleSetting& setting) { return setting.curve.ripple(); }

/// Two figures, rounded or, where `down`, not above.
double two_figures(double value, bool down) {
  if (value == 0.0) return 0.0;
  const double scale = std::pow(10.0, 1.0 - std::floor(std::log10(std::abs(value))));
  const double scaled = std::abs(value) * scale;
  return std::copysign((down ? std::floor(scaled + 1e-9) : std::round(scaled)) / scale, value);
}

class CrossoverAsker {
 public:
  CrossoverAsker(const Setup& setup, const StandingAdjustment& standing, CrossoverDepth depth)
      : setup_(setup),
        depth_(depth),
        answer_{standing.stage, setup.conditions},
        finder_(standing.stage, standing.adjustment, setup.conditions) {
    const auto full = full_output(*setup.stage, setup.conditions);
    answer_.adjustment = standing.adjustment;
    answer_.is_makers = standing.is_makers;
    answer_.load_ohm = full->load_ohm;
    answer_.swing_v = swing_share * full->peak_v;
    answer_.changes = setup.changes;
    answer_.warnings = standing_warnings(setup);
    safe_ends_.assign(answer_.stage->adjustments.size(), std::nullopt);
  }

  Crossover ask() {
    look_at_ends();
    if (answer_.is_makers) is_begun_ = !finder_.search(adjustment().target, safe_ends_);
    walk();
    if (answer_.settings.empty()) return refuse(why_empty());
    const auto& first = answer_.settings.front().curve;
    if (std::abs(first.at_rest()) < least_gain && std::abs(best().curve.at_rest()) < least_gain) {
      return refuse(fmt::format(
          "Nothing that `{}` does at DC reaches the output: a driver transformer, or a capacitor, "
          "lies between. The crossover of such a stage is looked for with a scope.",
          answer_.stage->at(*answer_.stage->signal.drive).name));
    }
    refine();
    add_makers();
    add_published();
    find_aim();
    if (depth_ == CrossoverDepth::whole) deepen();
    return std::move(answer_);
  }

 private:
  static constexpr double least_gain = 0.1;

  [[nodiscard]] const circuit::Adjustment& adjustment() const {
    return answer_.stage->adjustments[answer_.adjustment];
  }
  [[nodiscard]] const IdleSetting& best() const { return answer_.settings[best_index()]; }

  [[nodiscard]] std::size_t best_index() const { return first_minimum(answer_.settings); }

  Crossover refuse(std::string reason) {
    Crossover refusal{setup_.stage, setup_.conditions};
    refusal.refused = std::move(reason);
    refusal.changes = std::move(answer_.changes);
    refusal.warnings = std::move(answer_.warnings);
    return refusal;
  }

  [[nodiscard]] std::string why_empty() const {
    const auto& name = answer_.stage->at(adjustment().trimmer).name;
    switch (answer_.ends_by) {
      case NoSetting::heat:
        return fmt::format("Wherever {} stands the stage runs away or gets too hot.", name);
      case NoSetting::track_end:
        return fmt::format("{} sets no standing current that can be read on `{}`.",
                           name,
                           answer_.stage->at(adjustment().reading).name);
      default:
        return fmt::format("With {} along its track no state was found, at rest or while driven.",
                           name);
    }
  }

  /// From which reading to begin, and of which sign.
  void look_at_ends() {
    const auto cold = solve::solve_cold(answer_.stage, answer_.conditions);
    const auto* state = std::get_if<solve::OperatingPoint>(&cold);
    if (state == nullptr) return;
    const auto states = find_trimmer_states(answer_.stage, *state, adjustment());
    safe_ends_[answer_.adjustment] = states.safe_end;
    const bool safe_is_b = states.safe_end == circuit::TrackEnd::b;
    const auto& safe = safe_is_b ? states.at_b : states.at_a;
    const auto& hot = safe_is_b ? states.at_a : states.at_b;
    if (safe.reading) lowest_ = std::max(least_reading, 1.02 * std::abs(*safe.reading));
    if (hot.reading && *hot.reading < 0.0) sign_ = -1.0;
  }

  /// From a neighbour; `else_search` tells why not.
  std::optional<IdleSetting> at(double reading, bool else_search = false) {
    const double target = sign_ * reading;
    if (is_begun_) {
      if (auto setting = finder_.at(target, answer_.swing_v)) return setting;
    }
    if (!else_search) return std::nullopt;
    why_not_ = NoSetting::not_settled;
    if (const auto why = finder_.search(target, safe_ends_)) {
      why_not_ = *why;
      return std::nullopt;
    }
    is_begun_ = true;
    return finder_.at(target, answer_.swing_v);
  }

  [[nodiscard]] static double size_of(const IdleSetting& setting) {
    return std::abs(setting.reading);
  }

  /// Up from the safe end, until well past the flattest or as far as it goes.
  void walk() {
    for (double decade = least_reading; decade < most_reading; decade *= 10.0) {
      for (const double step : series) {
        const double reading = decade * step;
        if (reading < lowest_) continue;
        auto setting = at(reading, true);
        if (!setting) {
          answer_.ends_by = why_not_;
          if (answer_.settings.empty() && why_not_ != NoSetting::heat) continue;
          return find_last(reading);
        }
        answer_.settings.push_back(std::move(*setting));
        if (is_far_past()) {
          answer_.is_whole = true;
          return;
        }
        if (is_hot_already()) {
          answer_.ends_by = NoSetting::hot_already;
          return;
        }
      }
    }
  }

  [[nodiscard]] bool is_far_past() const {
    const auto& last = answer_.settings.back();
    return ripple_of(last) > risen_again * ripple_of(best()) &&
           size_of(last) > far_past * size_of(best());
  }

  /// Three times past the last that stays cool, or the least of all.
  [[nodiscard]] bool is_hot_already() const {
    constexpr double far_enough = 3.0;
    double cool = size_of(answer_.settings.front());
    for (const auto& setting : answer_.settings) {
      if (is_cool(setting)) cool = size_of(setting);
    }
    return size_of(answer_.settings.back()) > far_enough * cool;
  }

  /// Between the last that was found and the first that was not.
  void find_last(double beyond) {
    constexpr int halvings = 4;
    double low = answer_.settings.empty() ? 0.5 * beyond : size_of(answer_.settings.back());
    std::optional<IdleSetting> last;
    for (int k = 0; k < halvings; ++k) {
      const double reading = std::sqrt(low * beyond);
      auto setting = at(reading);
      if (setting) {
        low = reading;
        last = std::move(setting);
      } else {
        beyond = reading;
      }
    }
    if (last) answer_.settings.push_back(std::move(*last));
  }

  std::size_t insert(IdleSetting setting) {
    constexpr double same = 2e-3;
    auto& settings = answer_.settings;
    const double size = size_of(setting);
    const auto place = std::find_if(settings.begin(), settings.end(), [&](const auto& one) {
      return size_of(one) > size * (1.0 - same);
    });
    const auto index = static_cast<std::size_t>(place - settings.begin());
    if (place != settings.end() && size_of(*place) < size * (1.0 + same)) return index;
    settings.insert(place, std::move(setting));
    for (auto* mark : {&answer_.at_makers, &answer_.at_published}) {
      if (*mark && **mark >= index) ++**mark;
    }
    if (is_refined_ && answer_.flattest >= index) ++answer_.flattest;
    return index;
  }

  /// Golden section over the logarithm of the reading, between the neighbours of the flattest row.
  void refine() {
    constexpr double golden = 0.6180339887498949;
    constexpr int sections = 8;
    const std::size_t index = best_index();
    const auto& settings = answer_.settings;
    double low = std::log(index > 0 ? size_of(settings[index - 1]) : 0.5 * size_of(best()));
    double high = std::log(size_of(settings[std::min(index + 1, settings.size() - 1)]));
    std::optional<IdleSetting> flattest = settings[index];
    const auto ripple_at = [&](double log_reading) {
      auto setting = at(std::exp(log_reading));
      if (!setting) return HUGE_VAL;
      const double ripple = ripple_of(*setting);
      if (ripple < ripple_of(*flattest)) flattest = std::move(setting);
      return ripple;
    };
    double left = high - golden * (high - low);
    double right = low + golden * (high - low);
    double at_left = ripple_at(left);
    double at_right = ripple_at(right);
    for (int k = 0; k < sections; ++k) {
      if (at_left < at_right) {
        high = right;
        right = left;
        at_right = at_left;
        left = high - golden * (high - low);
        at_left = ripple_at(left);
      } else {
        low = left;
        left = right;
        at_left = at_right;
        right = low + golden * (high - low);
        at_right = ripple_at(right);
      }
    }
    answer_.flattest = insert(std::move(*flattest));
    is_refined_ = true;
  }

  void add_makers() {
    if (!answer_.is_makers) return;
    if (auto setting = at(std::abs(adjustment().target))) {
      answer_.at_makers = insert(std::move(*setting));
    }
  }

  void add_published() {
    const auto& flattest = answer_.settings[answer_.flattest];
    auto published = published_bias(
        *answer_.stage, answer_.stage->at(adjustment().reading).probe, flattest.state);
    if (auto* reason = std::get_if<std::string>(&published)) {
      answer_.why_not_published = std::move(*reason);
      return;
    }
    answer_.published = std::get<PublishedBias>(std::move(published));
    if (auto setting = at(std::abs(answer_.published->reading_v))) {
      answer_.at_published = insert(std::move(*setting));
    }
  }

  /// The flattest, but no more than the published rule's and than what stays cool; two figures.
  void find_aim() {
    using Why = CrossoverAim::Why;
    double most = size_of(answer_.settings[answer_.flattest]);
    Why why = Why::flattest;
    if (answer_.published && std::abs(answer_.published->reading_v) < most) {
      most = std::abs(answer_.published->reading_v);
      why = Why::published;
    }
    auto setting = at(two_figures(most, why != Why::flattest));
    if (!setting || !is_cool(*setting)) {
      why = Why::cool;
      most = most_that_is_cool(most);
      if (!(most > 0.0)) return;
      setting = at(two_figures(most, true));
    }
    if (!setting || !is_cool(*setting)) return;
    if (why == Why::flattest && is_as_flat(*setting)) {
      answer_.settings.erase(answer_.settings.begin() +
                             static_cast<std::ptrdiff_t>(answer_.flattest));
      forget(answer_.flattest);
      is_refined_ = false;
      answer_.flattest = insert(std::move(*setting));
      is_refined_ = true;
      answer_.aim = CrossoverAim{answer_.flattest, why};
      return;
    }
    answer_.aim = CrossoverAim{insert(std::move(*setting)), why};
  }

  /// Two figures are enough to say where it is flattest; one row tells both.
  [[nodiscard]] bool is_as_flat(const IdleSetting& setting) const {
    constexpr double hardly_more = 1.02;
    const bool is_marked =
        answer_.at_makers == answer_.flattest || answer_.at_published == answer_.flattest;
    return !is_marked &&
           ripple_of(setting) < hardly_more * ripple_of(answer_.settings[answer_.flattest]);
  }

  /// A row is gone: the marks behind it move up.
  void forget(std::size_t index) {
    for (auto* mark : {&answer_.at_makers, &answer_.at_published}) {
      if (*mark && **mark > index) --**mark;
    }
  }

  /// Below that reading; 0 where none is.
  double most_that_is_cool(double below) {
    constexpr int halvings = 6;
    double low = 0.0;
    double high = below;
    for (const auto& setting : answer_.settings) {
      if (size_of(setting) < below && is_cool(setting)) low = size_of(setting);
    }
    if (low == 0.0) return 0.0;
    for (const auto& setting : answer_.settings) {
      if (size_of(setting) > low) high = std::min(high, size_of(setting));
    }
    for (int k = 0; k < halvings; ++k) {
      const double reading = std::sqrt(low * high);
      const auto setting = at(reading);
      (setting && is_cool(*setting) ? low : high) = reading;
    }
    return low;
  }

  void deepen() {
    if (answer_.flattest + 1 != answer_.settings.size()) {
      answer_.flattest_band = flattest_band(finder_,
                                            {answer_.adjustment,
                                             answer_.conditions,
                                             answer_.settings[answer_.flattest].reading,
                                             answer_.swing_v});
    }
    const auto& at_aim = answer_.settings[answer_.aim ? answer_.aim->setting : answer_.flattest];
    if (answer_.conditions.heat == solve::HeatState::warm) {
      answer_.thermal = find_thermal_margin(at_aim.stage, at_aim.state);
    }
  }

  const Setup& setup_;
  CrossoverDepth depth_;
  Crossover answer_;
  IdleFinder finder_;
  bool is_begun_ = false;
  solve::SafeEnds safe_ends_;
  double lowest_ = least_reading;
  double sign_ = 1.0;
  bool is_refined_ = false;
  NoSetting why_not_ = NoSetting::track_end;  ///< Of the setting tried last.
};

}  // namespace

bool is_good(const Crossover& answer) noexcept { return !answer.refused && answer.aim; }

std::variant<Crossover, solve::NotSettled> ask_crossover(const Setup& setup, CrossoverDepth depth) {
  const auto refuse = [&](std::string reason) {
    Crossover refusal{setup.stage, setup.conditions};
    refusal.refused = std::move(reason);
    refusal.changes = setup.changes;
    refusal.warnings = standing_warnings(setup);
    return refusal;
  };
  if (auto reason = why_no_crossover(setup)) return refuse(std::move(*reason));
  auto standing = find_standing_adjustment(setup.stage, setup.conditions);
  if (auto* reason = std::get_if<std::string>(&standing)) return refuse(std::move(*reason));
  const auto& found = std::get<StandingAdjustment>(standing);
  Setup whole = setup;
  whole.stage = found.stage;
  if (auto reason = why_no_preset(whole)) return refuse(std::move(*reason));
  return CrossoverAsker(setup, found, depth).ask();
}

}  // namespace idlepoint::answers
