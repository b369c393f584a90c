// "How flat is the stage's incremental gain through the crossover region, and which standing
// current makes it flattest?"
//
// Asked by cli/crossover.cpp, and by answers/preset where a file has no `adjust`; rendered by
// report/text_crossover and report/json_crossover. Source: docs/commands.md, "crossover".
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "answers/bands.hpp"
#include "answers/idle_setting.hpp"
#include "answers/published_bias.hpp"
#include "answers/setup.hpp"
#include "answers/thermal_margin.hpp"
#include "solve/not_settled.hpp"

namespace idlepoint::answers {

/// The drive swings by this share of the way from mid supply to the nearer rail, either way.
inline constexpr double swing_share = 0.25;

/// What to aim for where no maker's figure is known.
struct CrossoverAim {
  enum class Why {
    flattest,
    published,  ///< The flattest lies above the published rule's; more than that is not advised.
    cool,       ///< The most that stays cool.
  };
  std::size_t setting = 0;  ///< Among `Crossover::settings`.
  Why why = Why::flattest;
};

/// All readings SI.
struct Crossover {
  circuit::CheckedCircuit stage;  ///< As asked, with the adjustment that is moved.
  solve::Conditions conditions;
  /// Why there is no answer; all below is then empty but the changes and warnings.
  std::optional<std::string> refused = {};
  std::size_t adjustment = 0;  ///< Among `stage->adjustments`: the trimmer and the reading.
  bool is_makers = false;      ///< The file has that adjustment.
  double swing_v = 0.0;
  double load_ohm = 0.0;
  std::vector<IdleSetting> settings = {};        ///< By rising standing current; at least one.
  NoSetting ends_by = NoSetting::track_end;      ///< Where `is_whole` is false.
  bool is_whole = false;                         ///< Followed to well beyond the flattest.
  std::size_t flattest = 0;                      ///< Among `settings`.
  std::optional<Band> flattest_band = {};        ///< Of its reading, over stages of this drawing.
  std::optional<std::size_t> at_makers = {};     ///< At the file's target.
  std::optional<std::size_t> at_published = {};  ///< At the published figure.
  std::optional<PublishedBias> published = {};
  std::string why_not_published = {};         ///< Where that is empty: a clause.
  std::optional<CrossoverAim> aim = {};       ///< None: no standing current stays cool.
  std::optional<ThermalMargin> thermal = {};  ///< At the aim; warm alone.
  std::vector<std::string> changes = {};
  std::vector<std::string> warnings = {};
};

/// True where there is an answer and the stage can be set to the aim.
[[nodiscard]] bool is_good(const Crossover& answer) noexcept;

/// Whether the bands and margins that the aim alone does not need are wanted.
enum class CrossoverDepth { whole, aim_alone };

[[nodiscard]] std::variant<Crossover, solve::NotSettled> ask_crossover(
    const Setup& setup, CrossoverDepth depth = CrossoverDepth::whole);

}  // namespace idlepoint::answers
