// A circuit taken apart into what the equations know: points, ideal branches, two- and three-poles.
//
// `describe` is the one place where a part's kind decides what it is electrically. Structure
// (Wiring) and values (Numbers) come out side by side, entry k of one belonging to entry k of the
// other, so that a change of values never touches the structure. Used by solve/system and
// solve/assembly.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "circuit/circuit.hpp"
#include "devices/bipolar.hpp"
#include "devices/diode.hpp"
#include "devices/fet.hpp"
#include "solve/conditions.hpp"
#include "solve/elimination.hpp"

namespace idlepoint::solve {

/// Whose pole this is: a part's lead, or a point inside it (no lead), or the supply's (no part).
struct Owner {
  std::optional<circuit::PartId> part;
  std::optional<std::size_t> lead;
  friend bool operator==(const Owner&, const Owner&) = default;
};

/// Between two points; current counts positive from a to b through it.
struct TwoPole {
  Index a;
  Index b;
  Owner owner_a;
  Owner owner_b;
  friend bool operator==(const TwoPole&, const TwoPole&) = default;
};

/// Points of collector, base, emitter or drain, gate, source (inner ones).
struct ThreePole {
  std::array<Index, 3> points;
  circuit::PartId part;
  std::array<std::optional<std::size_t>, 3> leads;
  friend bool operator==(const ThreePole&, const ThreePole&) = default;
};

/// Where a trimmer's two stretches of track stand among the conductors.
struct Track {
  circuit::PartId part;
  std::optional<std::size_t> stretch_a;  ///< First-named end to wiper.
  std::optional<std::size_t> stretch_b;  ///< Wiper to the other end.
  friend bool operator==(const Track&, const Track&) = default;
};

/// Structure: two circuits with equal wiring share one compiled system.
struct Wiring {
  /// Points 0 to nodes-1 are the circuit's nodes (0 is ground); then rail sources, left-off leads
  /// and points inside parts.
  Index nodes = 0;
  Index points = 0;
  std::vector<TwoPole> ideals;  ///< a stands `emf_v` above b: links, shorts, holds, rail sources.
  std::vector<TwoPole> conductors;
  std::vector<TwoPole> diodes;  ///< a is the anode.
  std::vector<TwoPole> lamps;
  std::vector<TwoPole> feeds;  ///< a is `from`.
  std::vector<ThreePole> bipolars;
  std::vector<ThreePole> fets;
  std::vector<Track> tracks;
  std::vector<Index> left_off;  ///< Points of leads that meet nothing: insulated like nodes.
  /// [rails] index into `ideals`; none for a lost rail.
  std::vector<std::optional<std::size_t>> rail_sources;
  std::vector<std::vector<Index>> lead_points;  ///< [parts][leads]; ground where there is no lead.
  friend bool operator==(const Wiring&, const Wiring&) = default;
};

struct LampNumbers {
  double rated_v;
  double rated_w;
};

struct FeedNumbers {
  double value_a;
  std::optional<double> compliance_v;
};

/// `count` equal junctions in series. Critical voltages: see devices/junction.
struct DiodeNumbers {
  devices::DiodeAt at;
  double count;
  double critical_v;
  double zener_critical_v;
};

/// `sign` is -1 for p kinds: every voltage and current mirrored.
struct BipolarNumbers {
  devices::BipolarAt at;
  double sign;
  double emitter_critical_v;
  double collector_critical_v;
};
struct FetNumbers {
  devices::FetAt at;
  double sign;
};

/// Values, each beside its entry in Wiring.
struct Numbers {
  std::vector<double> emf_v;
  std::vector<double> conductance_s;
  std::vector<DiodeNumbers> diodes;
  std::vector<LampNumbers> lamps;
  std::vector<FeedNumbers> feeds;
  std::vector<BipolarNumbers> bipolars;
  std::vector<FetNumbers> fets;
};

struct Description {
  Wiring wiring;
  Numbers numbers;
};

/// Every junction and resistance at the ambient temperature: the cold state.
[[nodiscard]] Description describe(const circuit::Circuit& circuit, const Conditions& conditions);

/// Among `wiring.tracks`; none for a part that is no trimmer, or was taken out.
[[nodiscard]] std::optional<std::size_t> track_of(const Wiring& wiring, circuit::PartId trimmer);

/// Conductances of a trimmer's stretches at a travel, and their slopes by travel.
struct TrackConductance {
  double a_s;
  double a_s_per_travel;
  double b_s;
  double b_s_per_travel;
};
[[nodiscard]] TrackConductance track_conductance(const circuit::Part& trimmer,
                                                 double travel) noexcept;

}  // namespace idlepoint::solve
