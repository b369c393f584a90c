// Everything that the bench sheet holds of one channel: the answers of the other commands, and the
// solutions that its sliders move through.
//
// Asked by cli/sheet; printed by report/json_sheet. No physics of its own.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "answers/crossover.hpp"
#include "answers/hazards.hpp"
#include "answers/powerup.hpp"
#include "answers/preset.hpp"
#include "answers/readings.hpp"
#include "answers/setup.hpp"
#include "answers/slider_grid.hpp"
#include "answers/spread.hpp"
#include "answers/swap.hpp"
#include "answers/warmup.hpp"

namespace idlepoint::answers {

struct SheetAsked {
  std::vector<Replacement> replacements;  ///< Compared with the stage as it is; empty: none are.
  /// Called now and then with the share of the work that is done, 0 to 1; false stops with what
  /// there is.
  std::function<bool(double share_done)> go_on = {};
};

/// One channel. Where the warm state is a story of runaway, everything is of the cold one.
struct SheetChannel {
  Setup setup;
  std::optional<ThermalStory> runs_away;  ///< As the file sets the trimmers.
  Readings readings;
  Sliders sliders;  ///< They begin at the preset, where there is one.
  std::optional<Preset> preset = {};
  /// Why `preset` is missing: the stage so set finds no rest.
  std::optional<ThermalStory> no_preset = {};
  std::optional<Powerup> powerup = {};
  std::optional<Hazards> hazards = {};
  std::optional<Warmup> warmup = {};
  std::optional<Spread> spread = {};
  std::optional<Crossover> crossover = {};
  std::optional<Swap> swap = {};
  std::string no_swap = {};  ///< Why a replacement does not fit; else empty.
};

/// A story where the stage has no cold state either.
[[nodiscard]] std::variant<SheetChannel, solve::NotSettled> ask_sheet(const Setup& setup,
                                                                      const SheetAsked& asked);

}  // namespace idlepoint::answers
