// "What on the shelf would do for this place?" Every type of the right kind, tried in the place and
// judged as `swap` judges, without bands.
//
// Asked by cli/shelf.cpp; rendered by report/text_shelf and report/json_shelf.
// Source: docs/commands.md, "shelf".
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "answers/demands.hpp"
#include "answers/setup.hpp"
#include "answers/thermal_story.hpp"
#include "answers/verdict.hpp"
#include "solve/not_settled.hpp"

namespace idlepoint::answers {

/// A trimmer with the candidate in place.
struct CandidatePlace {
  circuit::PartId trimmer;
  circuit::ReadingId reading;
  double travel = 0.0;  ///< 0 to 1, from the first-named end.
  bool reached = false;
};

struct Candidate {
  circuit::TypeId type;
  Verdict verdict = Verdict::suitable;
  /// The rating that decides among those given: one that is broken, else the one with least in
  /// hand. None where nothing could be judged.
  std::optional<RatingCheck> deciding = {};
  std::vector<RatingCheck> not_given = {};  ///< Asked for, without a limit in the type.
  std::optional<double> loop_gain = {};     ///< None when cold, and where there is no rest.
  std::vector<CandidatePlace> places = {};  ///< Of every `adjust`.
  std::optional<ZenerStep> zener = {};      ///< Where one of the two types is a zener.
  bool finds_rest = true;                   ///< False: no preset with it, or it runs away there.
};

struct Shelf {
  circuit::CheckedCircuit stage;
  solve::Conditions conditions;
  circuit::PartId part;
  /// Best first: by verdict; then those of like speed before others; then by what is in hand.
  std::vector<Candidate> candidates = {};
  std::vector<RatingCheck> old_checks = {};  ///< Of the type that is there, where it can be judged.
  std::vector<std::string> changes = {};
  std::vector<std::string> warnings = {};
};

/// Every type of the part's kind in the stage, that of the part itself left out. `go_on` is called
/// before each, with the share done; false ends with what there is. Requires a part with a type.
/// Cost: some tens of solves a type.
[[nodiscard]] Shelf ask_shelf(const Setup& setup,
                              circuit::PartId part,
                              const std::function<bool(double share_done)>& go_on);

}  // namespace idlepoint::answers
