// "Which single open, short or lifted wiper turns this stage hard on, or puts the output at a
// rail?" Every one of them solved at the first cold moment, the worst first.
//
// Asked by cli/hazards.cpp; rendered by report/text_hazards and report/json_hazards.
// Source of the rules: docs/commands.md, "hazards".
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "answers/bands.hpp"
#include "answers/setup.hpp"
#include "circuit/edits.hpp"
#include "solve/not_settled.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

/// The first that fits, in this order, which is the order they are told in.
enum class HazardEffect {
  hard_on,         ///< The rails deliver more than 1.5 times the sound stage's power, or no state.
  output_at_rail,  ///< Within 10 % of the distance between the outermost rails from either.
  over_stressed,   ///< A part beyond a rating, or a base-emitter junction in breakdown.
};

/// The word in JSON: "hard on", "output at rail", "part over-stressed".
[[nodiscard]] std::string_view word(HazardEffect effect) noexcept;

/// A trimmer's end at which the fault has no such effect.
struct SaferPlace {
  circuit::PartId trimmer;
  circuit::TrackEnd end;
};

struct Hazard {
  circuit::Edit edit;
  std::string fault;  ///< As docs/language.md writes it.
  HazardEffect effect = HazardEffect::hard_on;
  bool finds_state = true;
  std::optional<double> output_v = {};  ///< None without an output, or without a state.
  std::optional<double> total_power_w = {};
  std::vector<circuit::PartId> parts_at_risk =
      {};  ///< Beyond a rating here, not in the sound stage.
  std::vector<SaferPlace> safer = {};
  /// Of the output and of the rails' power, with parts within their tolerances; sampled.
  std::optional<Band> output_band = {};
  std::optional<Band> power_band = {};
};

struct Hazards {
  circuit::CheckedCircuit stage;
  solve::OperatingPoint sound;  ///< Cold.
  std::vector<Hazard> critical = {};
  std::size_t tried = 0;
  std::size_t harmless = 0;
  std::vector<std::string> changes = {};
  std::vector<std::string> warnings = {};
};

/// Power above that of the sound stage which is called hard on.
inline constexpr double hard_on_power = 1.5;

/// What is tried: every single open and short, lifted lead and lifted wiper, and every resistor,
/// trimmer track and thermistor drifted to half and to twice its value.
[[nodiscard]] std::vector<circuit::Edit> faults_to_try(const circuit::Circuit& circuit);

/// Cold, whatever state the setup asks for. `go_on` is called before each fault with the share
/// done; false ends with what there is. Cost: a solve a fault, and for a critical one two a trimmer
/// and `band_of_a_hazard` samples.
[[nodiscard]] std::variant<Hazards, solve::NotSettled> ask_hazards(
    const Setup& setup, const std::function<bool(double share_done)>& go_on);

/// Stages that the bands of one hazard are drawn from.
inline constexpr std::size_t band_of_a_hazard = 100;

}  // namespace idlepoint::answers
