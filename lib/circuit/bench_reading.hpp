// One reading that a person took: where the leads were, what the meter showed, how sure they are.
//
// Read by language/bench_reading_text from a command line and by language/read_job from a job file;
// taken by the diagnosis. Source: docs/commands.md, "diagnose".
#pragma once

#include <optional>
#include <string>
#include <variant>

#include "circuit/circuit.hpp"

namespace idlepoint::circuit {

/// Power off, nothing lifted: the ohms range, red lead (the positive one) on `a`.
struct OhmsBetween {
  NodeId a;
  NodeId b;
};

/// Power off, nothing lifted: the diode range, red lead on `a`.
struct DiodeBetween {
  NodeId a;
  NodeId b;
};

/// What a meter can be asked, with the power on (a probe) or off.
using Measurement = std::variant<Probe, OhmsBetween, DiodeBetween>;

[[nodiscard]] inline bool is_power_off(const Measurement& measurement) noexcept {
  return !std::holds_alternative<Probe>(measurement);
}

/// How a figure was given.
enum class Firmness {
  shown,         ///< The meter showed it and stood still.
  about,         ///< "about 0.6V".
  beyond_range,  ///< "open": the ohms or diode range shows that there is no way through.
  jumps,         ///< It will not stand still.
  drifts_up,     ///< It creeps away from zero.
  drifts_down,   ///< It creeps towards zero.
};

struct BenchReading {
  std::string name;  ///< As the person called it: "upper", "volts hi lo", "ohms hi lo".
  Measurement measurement;
  std::optional<double> value = {};  ///< SI, kelvin; none where only a movement was told.
  Firmness firmness = Firmness::shown;
};

/// "volts hi lo", "ohms hi lo", "diode hi x1": a measurement as the language writes it.
[[nodiscard]] std::string write_measurement(const Circuit& circuit, const Measurement& measurement);

/// True where both say the same of the amplifier: the same points and range, leads exchanged or not
/// where that only changes the sign.
[[nodiscard]] bool is_same_measurement(const Measurement& one, const Measurement& other);

}  // namespace idlepoint::circuit
