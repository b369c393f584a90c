// "These are my readings: which fault explains them best, and what do I measure next to decide?"
//
// Every single fault of answers/suspects is fitted to the readings with the parts within their
// tolerances; where none fits, pairs are. Asked by cli/diagnose.cpp; rendered by
// report/text_diagnosis and report/json_diagnosis. Source: docs/commands.md, "diagnose"; how it
// reckons: docs/how_it_diagnoses.md.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "answers/setup.hpp"
#include "circuit/bench_reading.hpp"
#include "circuit/edits.hpp"
#include "solve/not_settled.hpp"

namespace idlepoint::answers {

struct DiagnoseAsked {
  Setup sound;  ///< The stage as it should be, trimmers as they stand; faults found are none.
  std::vector<circuit::BenchReading> readings;
  std::vector<circuit::BenchReading> sound_channel;  ///< The same points on the channel that works.
  std::vector<circuit::PartId> good;                 ///< Tested out of circuit and found sound.
  bool is_asked_again = false;  ///< Diagnosing::start_over will be called: all is kept for it.
};

/// What makes an intermittent fault come and go.
enum class AnswersTo { nothing, tapping, warmth };

/// One measurement under one suspect, in its own unit (volts, amperes, watts, celsius, ohms).
struct Expected {
  double value = 0.0;
  double low = 0.0;  ///< 19 sound-but-for-this stages in 20.
  double high = 0.0;
  bool beyond_range = false;  ///< The ohms or diode range shows no way through.
};

/// How a reading moves when an intermittent fault goes away for the moment: tapped, or sprayed
/// cold.
struct SuspectSwing {
  std::size_t reading = 0;  ///< Among the readings asked.
  double from = 0.0;
  double to = 0.0;
};

struct Suspect {
  enum class Kind { healthy, fault, none_of_these };
  Kind kind = Kind::fault;
  std::vector<circuit::Edit> edits;  ///< One, or two of a pair; fitted values in three figures.
  std::string fault;  ///< As docs/language.md writes it, a pair joined by " and "; "healthy", "none
                      ///< of these".
  std::vector<std::string> equivalent;   ///< No reading tells these from it; the likeliest first.
  double probability = 0.0;              ///< Of all of them together.
  double chi_square = 0.0;               ///< Of the readings with a figure; 0 of none_of_these.
  std::vector<std::size_t> unexplained;  ///< Readings more than 3 deviations away from it.
  std::vector<Expected> expected;        ///< [readings] empty for none_of_these.
  AnswersTo answers_to = AnswersTo::nothing;
  std::vector<SuspectSwing> swings;  ///< Where it answers to something: what moves, the most first.
};

/// Ruled out, and by which reading.
struct RuledOut {
  std::string fault;
  std::size_t reading = 0;
  Expected expected;
};

struct NextMeasurement {
  circuit::Measurement measurement;
  std::string reading;  ///< "volts hi gnd", "ohms hi lo".
  double bits = 0.0;    ///< Expected.
  struct Under {
    std::size_t suspect = 0;  ///< Among the ranking.
    Expected expected;
  };
  std::vector<Under> under = {};  ///< The suspects that matter, likeliest first.
};

struct Diagnosis {
  circuit::CheckedCircuit stage;
  std::vector<circuit::BenchReading> readings = {};
  std::vector<circuit::BenchReading> sound_channel = {};
  std::vector<circuit::PartId> good = {};
  double healthy_chi_square = 0.0;
  double healthy_chance = 0.0;  ///< That a sound stage reads so far off or farther.
  std::vector<Suspect> ranking =
      {};  ///< Best first; holds "healthy" and "none of these"; adds to 1.
  std::vector<RuledOut> ruled_out = {};  ///< Likely before the readings, out after them.
  std::vector<std::size_t> contradicted =
      {};  ///< Readings that no cause explains beside the others.
  bool pairs_tried = false;
  std::vector<NextMeasurement> next = {};  ///< Best first, at most three.
  std::size_t tried = 0;                   ///< Faults.
  std::vector<std::string> assumed =
      {};  ///< Fields of types for which a spread was assumed, in words.
  std::vector<std::string> changes = {};
  std::vector<std::string> warnings = {};
};

/// Keeps what it has solved, for readings that come one after another.
class Diagnosing {
 public:
  using GoOn = std::function<bool(double share_done)>;

  /// A story where the sound stage itself has no state.
  [[nodiscard]] static std::variant<Diagnosing, solve::NotSettled> make(DiagnoseAsked asked);

  void add(circuit::BenchReading reading);

  /// Another copy of the stage: `readings` of the same points, in the same order, as were asked at
  /// first.
  void start_over(std::vector<circuit::BenchReading> readings);

  /// `go_on` is called with the share done; false ends with what there is.
  [[nodiscard]] Diagnosis answer(const GoOn& go_on);

  Diagnosing(Diagnosing&&) noexcept;
  Diagnosing& operator=(Diagnosing&&) noexcept;
  ~Diagnosing();

 private:
  class Impl;
  explicit Diagnosing(std::unique_ptr<Impl> impl);
  std::unique_ptr<Impl> impl_;
};

}  // namespace idlepoint::answers
