// Another way to make the volts of a two-legged bias part that is no longer to be had: diodes and a
// resistor, or a transistor as a spreader.
//
// Written on a command line (language/replacement_text.hpp), put in place here, judged by the
// `swap` answer.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "circuit/checked_circuit.hpp"

namespace idlepoint::circuit {

/// Single diodes and a resistor in series. Either may be missing, not both.
struct DiodeString {
  std::size_t diodes = 0;
  std::optional<TypeId> type;  ///< Of each diode; given where there is one.
  double series_ohm = 0.0;     ///< 0: no resistor.
};

/// A transistor with a resistor from collector to base and one from base to emitter.
struct Spreader {
  TypeId type;
  double collector_base_ohm = 0.0;
  double base_emitter_ohm = 0.0;
};

struct StandIn {
  PartId for_part;
  std::variant<DiodeString, Spreader> made_of;
};

/// A stage with the stand-in wired where the part was, and the new parts, mounted as the old one.
struct StoodIn {
  CheckedCircuit stage;
  std::vector<PartId> parts;
};

/// Puts it in place; `positive_lead`, 0 or 1, is the lead of the old part that stands higher. The
/// old part is taken out, new ones are appended with names such as `D601/1`: every id stays valid.
/// Words where it does not fit: the part has not two legs, or is neither diode nor thermistor.
[[nodiscard]] std::variant<StoodIn, std::string> stand_in(const CheckedCircuit& stage,
                                                          const StandIn& stand_in,
                                                          std::size_t positive_lead);

/// "3 bias-diode + 22R", "spreader driver-npn 1k2 560R": as it is written on a command line.
[[nodiscard]] std::string write_stand_in(const Circuit& circuit, const StandIn& stand_in);

}  // namespace idlepoint::circuit
