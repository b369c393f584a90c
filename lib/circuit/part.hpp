// A part on the board: its leads, its value, what has been done to it.
//
// Made by the reader; changed by circuit/edits; compiled by the solver.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "circuit/ids.hpp"
#include "circuit/part_kind.hpp"
#include "complaints/complaint.hpp"

namespace idlepoint::circuit {

struct ResistorDetails {
  std::optional<double> power_w = std::nullopt;  ///< Rated; none: not checked.
  double tempco_per_k = 0.0;
};

enum class TrackEnd { a, b };

/// What becomes of the third leg of a trimmer.
enum class SpareLeg {
  none,     ///< All three legs are wired.
  tied,     ///< Joined to the wiper: lead b is the wiper's node.
  free,     ///< Lead b is left off.
  unknown,  ///< Lead b is left off; a lifted wiper is answered for both.
};

struct TrimmerDetails {
  double travel = 0.5;              ///< 0 to 1, from lead a.
  double end_resistance_ohm = 1.0;  ///< At each end.
  double wiper_resistance_ohm = 0.0;
  std::optional<TrackEnd> clockwise;  ///< Unknown: nothing is said of rotation.
  double turns = 1.0;
  SpareLeg spare = SpareLeg::none;
};

struct CapacitorDetails {
  std::optional<double> leakage_ohm = std::nullopt;  ///< None: open at DC.
  std::optional<double> rated_v = std::nullopt;
};

/// Inductor and fuse.
struct SeriesDetails {
  double resistance_ohm = 0.0;
};

struct LampDetails {
  double rated_v = 0.0;
  double rated_w = 0.0;
};

struct ThermistorDetails {
  double beta_k = 3500.0;
  bool beta_assumed = true;  ///< Said in the words.
};

struct FeedDetails {
  std::optional<double> compliance_v = 0.3;  ///< None: an ideal source.
};

struct DiodeDetails {
  int junctions = 1;
};

using PartDetails = std::variant<std::monostate,
                                 ResistorDetails,
                                 TrimmerDetails,
                                 CapacitorDetails,
                                 SeriesDetails,
                                 LampDetails,
                                 ThermistorDetails,
                                 FeedDetails,
                                 DiodeDetails>;

/// Where the part sits. Without a heat sink: in free air.
struct Mounting {
  std::optional<HeatsinkId> heatsink;
  double washer_k_per_w = 0.0;
  double coupling = 1.0;  ///< Share of the sink's rise that the part sees, 0 to 1.
};

/// What faults have done inside a part.
struct Damage {
  bool absent = false;      ///< Opened, or taken out: carries nothing, stays in the lists.
  bool taken_out = false;   ///< Absent on purpose: a technician has it on the bench.
  bool is_link = false;     ///< A two-terminal part shorted: 0 V between its leads.
  bool wiper_open = false;  ///< The wiper no longer touches the track.
  bool loose = false;       ///< Off its heat sink: in free air.
  struct InnerShort {
    std::size_t lead_1;
    std::size_t lead_2;
  };
  struct InnerLeak {
    std::size_t lead_1;
    std::size_t lead_2;
    double ohm;
  };
  std::vector<InnerShort> shorts;  ///< 0 V links between leads of a three-legged part.
  std::vector<InnerLeak> leaks;    ///< Their current and heat count as the part's.
  std::optional<double> gain;      ///< Replaces the type's.
};

struct Part {
  std::string name;
  PartKind kind = PartKind::resistor;
  std::vector<std::optional<NodeId>> leads;  ///< In the order of `lead_names`; none: left off.
  /// SI: ohms, farads, henries, amperes (fuse rating, feed), volts (hold), ohms at 25 C
  /// (thermistor). 0 for link, lamp, diode and transistors.
  double value = 0.0;
  double tolerance = 0.0;  ///< A fraction: 0.05 is 5 %.
  PartDetails details;
  std::optional<TypeId> type;
  Mounting mounting;
  Damage damage;
  complaints::Place place;  ///< Of its statement.
  /// Where each lead's node is written, in the order of `leads`; empty for parts made in code.
  std::vector<complaints::Place> lead_places;
};

/// The node of a lead, if it has one.
[[nodiscard]] std::optional<NodeId> lead(const Part& part, std::size_t index) noexcept;

/// "emitter", "first-named end": a lead in words for a sentence.
[[nodiscard]] std::string lead_in_words(PartKind kind, std::size_t index);

}  // namespace idlepoint::circuit
