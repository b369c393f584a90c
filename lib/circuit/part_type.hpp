// A part type: the data of one kind of device, with ratings, spread and source.
//
// Read from `type` statements; used by the solver (law), the reports (ratings) and the bands
// (spread).
#pragma once

#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "circuit/part_kind.hpp"
#include "complaints/complaint.hpp"
#include "devices/bipolar.hpp"
#include "devices/diode.hpp"
#include "devices/fet.hpp"

namespace idlepoint::circuit {

/// Limits and thermal data of the data sheet; what is not given is empty.
struct Ratings {
  std::optional<double> max_voltage_v;  ///< Collector-emitter, drain-source or reverse.
  std::optional<double> max_current_a;  ///< Collector, drain or forward.
  std::optional<double> max_base_emitter_voltage_v;
  std::optional<double> max_power_w;           ///< At a case (without it: in air) of 25 C.
  double max_junction_temperature_k = 423.15;  ///< 150 C.
  std::optional<double> junction_to_case_k_per_w;
  std::optional<double> junction_to_ambient_k_per_w;
  std::optional<double> transition_frequency_hz;
  struct SafePoint {
    double voltage_v;
    double current_a;
  };
  std::vector<SafePoint> safe_area;  ///< Continuous, case at 25 C, by rising voltage.
  std::string case_style;
};

/// `FIELD.min=` and `FIELD.max=`; either may be missing.
struct Spread {
  std::optional<double> min;
  std::optional<double> max;
};

struct PartType {
  std::string name;
  PartKind kind = PartKind::diode;
  std::variant<devices::DiodeData, devices::BipolarData, devices::FetData> law;
  Ratings ratings;
  std::map<std::string, Spread> spreads;  ///< By field name of docs/models.md, SI units.
  std::string source;
  complaints::Place place;
};

}  // namespace idlepoint::circuit
