// A circuit made ready for many variants at once: what every lane of a batch shares.
//
// The unknowns of a lane are the group voltages of solve/system and, in the warm state, the watts
// of each heated part and the rise of each heat sink; where the trimmers follow their targets, the
// travels too. All stand in one sparse matrix with one fixed order: a part's watts right after its
// own points, so that the pivot is one less its own share of the loop gain; sinks and travels last.
// Made once by solve/make_lane_plan, read by solve/lane_solver on every thread. Holds no type of
// Eigen, whose layout depends on the instruction set.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <variant>
#include <vector>

#include "circuit/uncertainty.hpp"
#include "solve/state.hpp"
#include "solve/system.hpp"

namespace idlepoint::solve {

/// Kinds of poles, each a family of entries in System.
enum class Family : std::uint8_t { conductor, diode, lamp, feed, bipolar, fet, insulation };

/// `weight` times the current from a point into one terminal of a pole.
struct CurrentTerm {
  Family family = Family::conductor;
  std::size_t pole = 0;
  std::size_t terminal = 0;  ///< 0 and 1 of a two-pole; 0, 1, 2 of a three-pole.
  double weight = 0.0;
};

/// A sum of currents, times the voltage of a point or of a source where one is named.
struct CurrentSum {
  std::vector<CurrentTerm> terms;
  std::optional<Index> times_point;
  std::optional<std::size_t> times_ideal;
};

/// What one reading is made of; SI, kelvin.
struct LaneProbe {
  std::optional<std::pair<Index, Index>> volts;  ///< Points.
  std::vector<CurrentSum> currents;
  std::optional<std::size_t> heated;  ///< Its temperature.
  std::optional<std::size_t> sink;    ///< Its temperature.
  double constant = 0.0;
};

/// Where the slopes of a pole that heats a part go; `rows` slots each.
struct HeatSlots {
  std::size_t heated = 0;
  std::array<Index, 3> row_by_power{};  ///< (its row, the part's watts)
  std::array<Index, 3> row_by_sink{};   ///< (its row, the sink's rise)
  std::array<Index, 3> power_by_row{};  ///< (the part's watts, its row)
};

struct LaneHeated {
  double own_k_per_w = 0.0;
  double coupling = 0.0;
  double max_k = 0.0;  ///< A hotter lane is handed back.
  Index row = 0;       ///< Of its watts.
  Index sink_row = 0;  ///< The spare row in free air.
  Index by_power = 0;  ///< Slot (row, row).
  Index by_sink = 0;   ///< Slot (row, sink row).
};

struct LaneSink {
  double k_per_w = 0.0;
  Index row = 0;
  Index diagonal = 0;
  std::vector<std::pair<Index, Index>> parts;  ///< Row of the watts, and slot (row, that).
};

/// A trimmer that is moved until a reading has its target.
struct LaneTravel {
  std::size_t track = 0;
  Index row = 0;
  LaneProbe probe;
  double target = 0.0;
  double tolerance = 0.0;  ///< To which the lanes bring the reading.
  bool rises = true;       ///< The reading, with travel, at the nominal state.
  std::array<std::array<Index, 2>, 2> row_by_travel{};  ///< [stretch][end] slots.
  std::vector<std::array<Index, 3>> by_unknown;  ///< Beside the probe's terms: (row, their rows).
  std::vector<std::array<Index, 2>> by_heat;     ///< (row, watts) and (row, sink) of those terms.
  std::vector<Index> by_travel;                  ///< [travels] (row, their row).
  std::array<Index, 2> by_volts{};               ///< (row, unknown) of the two points.
};

/// Which number of a pole a parameter scales, in proportion unless said otherwise.
enum class Scaled : std::uint8_t {
  conductance,  ///< Inversely.
  track,
  emf,
  diode_saturation,
  diode_zener,
  diode_test_current,
  saturation,
  gain,
  inverse_gain,
  early_voltage,
  inverse_early_voltage,
  knee_current,
  inverse_knee_current,
  recombination,
  collector_recombination,
  cutoff,
  threshold,  ///< Shifts it.
  current_factor,
  drain_slope,
};

struct LaneTarget {
  std::size_t parameter = 0;
  Scaled what = Scaled::conductance;
  std::size_t pole = 0;  ///< In its family; a track, an ideal branch.
};

struct LanePlan {
  const circuit::Circuit* circuit = nullptr;
  System system;
  Numbers numbers;
  Elimination elimination;  ///< Of all rows; `system.elimination` is not used.
  Index rows = 0;           ///< Electrical, heated, sinks, travels; the spare row follows.
  double ambient_k = 0.0;
  State start;                     ///< Nominal junction voltages; its `x` is not used.
  std::vector<double> x;           ///< [rows] nominal.
  std::vector<double> parameters;  ///< Nominal.
  circuit::Uncertainty uncertainty;
  std::vector<LaneTarget> targets;
  std::vector<bool> moves;  ///< [conductors] those that move during a solve: tracks, thermistors.
  std::vector<LaneProbe> probes;
  std::vector<LaneHeated> heated;
  std::vector<LaneSink> sinks;
  std::vector<LaneTravel> travels;
  std::vector<std::optional<HeatSlots>> conductor_heat, diode_heat, bipolar_heat, fet_heat;
  /// Of the heated poles, for their laws at a lane's temperature.
  std::vector<devices::BipolarData> bipolar_data;
  std::vector<devices::FetData> fet_data;
  std::vector<std::variant<devices::DiodeData, devices::FetData>> diode_data;
  /// [conductors] ohms at 25 C and beta of a thermistor whose sink warms it.
  std::vector<std::optional<std::pair<double, double>>> thermistors;
  /// Slots in `elimination` for the stamps of `system`, in its order.
  std::vector<TwoPoleStamp> conductors, diodes, lamps, feeds;
  std::vector<ThreePoleStamp> bipolars, fets;
  std::vector<InsulationStamp> insulation;
  bool determinant_is_negative = false;  ///< At the nominal state, travels fixed.

  /// Where the pole of a term is heated.
  [[nodiscard]] const HeatSlots* heat_of(const CurrentTerm& term) const noexcept;
};

}  // namespace idlepoint::solve
