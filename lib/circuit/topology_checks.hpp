// The checks behind check_topology, one function a question, each adding what it finds.
//
// Source of what is an error and what a warning: docs/language.md. The short name of each complaint
// stands beside its function; docs/complaints.md tells them to the user.
#pragma once

#include <vector>

#include "circuit/topology_graph.hpp"
#include "complaints/complaint.hpp"

namespace idlepoint::circuit {

/// "one-leg", "unfed-base", "untied-point": points that nothing holds. One complaint a point or a
/// group of points, the most telling.
void check_untied(const Circuit& circuit, const Wiring& wiring, complaints::Complaints& found);

/// "part-on-one-point", "base-on-emitter": what the drawing itself shorts. "collector-on-base" is a
/// warning: a transistor used as a diode.
void check_shorted(const Circuit& circuit, complaints::Complaints& found);

/// "rails-joined", "source-loop": voltages that contradict each other.
void check_source_loops(const Circuit& circuit, complaints::Complaints& found);

/// "rails-of-one-sign", "unused-rail".
void check_rails(const Circuit& circuit, const Wiring& wiring, complaints::Complaints& found);

/// Rails whose sign is doubted, for the checks that would only repeat it.
[[nodiscard]] std::vector<RailId> rails_of_doubtful_sign(const Circuit& circuit,
                                                         const Wiring& wiring);

/// "upside-down": a transistor whose collector and emitter point at the wrong rails.
void check_orientation(const Circuit& circuit, const Wiring& wiring, complaints::Complaints& found);

/// "emitter-resistor": unlike its sisters, or larger than the loudspeaker.
void check_emitter_resistors(const Circuit& circuit,
                             const Wiring& wiring,
                             complaints::Complaints& found);

/// "diodes-face-to-face": two diodes in series, one turned round.
void check_diodes(const Circuit& circuit, const Wiring& wiring, complaints::Complaints& found);

/// "odd-value", "ideal-feed".
void check_values(const Circuit& circuit, complaints::Complaints& found);

}  // namespace idlepoint::circuit
