// Changes of a drawing: faults, trimmer settings, other part types. Each returns what it did or why
// it does not fit.
//
// Parsed from a command line by language/fault_text.hpp; applied in order to a CheckedCircuit.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "circuit/checked_circuit.hpp"
#include "circuit/ids.hpp"
#include "complaints/result.hpp"

namespace idlepoint::circuit {

struct OpenPart {  ///< `R12 open`, `Q5 absent`, `--without`: all leads.
  PartId part;
  bool is_taken_out = false;  ///< By `--without`: on purpose, and no fault.
};
struct ShortPart {  ///< A two-terminal part becomes a link.
  PartId part;
};
struct ShortLeads {  ///< `Q5 short c-e`.
  PartId part;
  std::size_t lead_1;
  std::size_t lead_2;
};
struct OpenLead {  ///< `Q5 open b`, `VR2 open a`: the lead gets a node of its own.
  PartId part;
  std::size_t lead;
};
struct LiftWiper {  ///< `VR2 wiper open`.
  PartId part;
};
struct SetTravel {  ///< `VR2 at 80%`, `--at VR2=80%`.
  PartId part;
  double travel;
};
struct SetValue {  ///< `R12 is 2k2`; SI, in the unit of the part's value.
  PartId part;
  double value;
};
struct Leak {  ///< `C3 leaks 100k`, `Q5 leaks c-e 10k`.
  PartId part;
  std::size_t lead_1;
  std::size_t lead_2;
  double ohm;
};
struct SwapLeads {  ///< `D2 reversed`, `Q5 swapped c-b`.
  PartId part;
  std::size_t lead_1;
  std::size_t lead_2;
};
struct SetGain {  ///< `Q5 gain 30`.
  PartId part;
  double gain;
};
struct Loosen {  ///< `Q5 loose`.
  PartId part;
};
struct Bridge {  ///< `bridge a b`: a 0 V link between two nodes.
  NodeId a;
  NodeId b;
};
struct LoseRail {  ///< `rail vpos lost`.
  RailId rail;
};
struct SetType {  ///< `--with Q5=TYPE`.
  PartId part;
  TypeId type;
};

using Edit = std::variant<OpenPart,
                          ShortPart,
                          ShortLeads,
                          OpenLead,
                          LiftWiper,
                          SetTravel,
                          SetValue,
                          Leak,
                          SwapLeads,
                          SetGain,
                          Loosen,
                          Bridge,
                          LoseRail,
                          SetType>;

/// The circuit with the edit made, or why the edit does not fit the part's kind, in words, such as
/// "a resistor has no gain".
[[nodiscard]] std::variant<CheckedCircuit, std::string> apply(const CheckedCircuit& circuit,
                                                              const Edit& edit);

/// The edit as docs/language.md writes a fault: one space, terminals in the order c b e or d g s.
[[nodiscard]] std::string write_fault(const Circuit& circuit, const Edit& edit);

/// Every single-part open and short, lifted lead and lifted wiper of the circuit, as edits, in the
/// order of its parts: what `hazards` and the tests walk over.
[[nodiscard]] std::vector<Edit> every_open_and_short(const Circuit& circuit);

}  // namespace idlepoint::circuit
