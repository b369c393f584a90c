// What was found, changed and left on a job, channel by channel, beside what a sound one shows.
//
// Asked by cli/writeup; rendered by report/html_writeup (the owner's page), report/text_writeup and
// report/json_writeup. Source: docs/commands.md, "writeup".
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers/reading_values.hpp"
#include "answers/tested_capacitors.hpp"
#include "circuit/job.hpp"

namespace idlepoint::answers {

/// What a reading means to somebody who owns the amplifier and does not repair it.
enum class Meaning {
  direct_voltage,  ///< Of the output against ground, where it ought to stand at 0.
  half_supply,     ///< The same of a stage on one rail, behind whose output a capacitor stands.
  idling_current,  ///< Volts across an emitter or source resistor.
  supply_current,  ///< Amperes that a rail or its fuse delivers.
  temperature,
  other,
};

/// One thing that was measured in a channel, as found and as left.
struct WrittenReading {
  std::string name;  ///< As the job calls it.
  circuit::Measurement measurement;
  Meaning meaning = Meaning::other;
  std::optional<circuit::BenchReading> before = {};
  std::optional<circuit::BenchReading> after = {};
  /// Where a sound channel reads, own unit: the file's limit, else the band from just switched on
  /// to warmed through with the trimmers in their places. None where nothing is predicted.
  std::optional<ReadingUnit> unit = {};
  std::optional<Band> expected = {};
  bool is_limit = false;  ///< `expected` is the file's limit.
  bool outside_before = false;
  bool outside_after = false;
};

struct WrittenChannel {
  const circuit::Channel* channel = nullptr;
  std::vector<WrittenReading> readings = {};
  std::vector<TestedCapacitor> capacitors = {};
  std::optional<CapacitorLeaks> leaks = {};  ///< Of its stage; none where it could not be solved.
  /// Capacitors of the drawing that nobody tested or replaced.
  std::vector<circuit::PartId> untested = {};
  std::string why_nothing_expected = {};  ///< Empty where the channel's stage could be solved.
};

/// The job must outlive it.
struct Writeup {
  const circuit::Job* job = nullptr;
  std::vector<WrittenChannel> channels = {};
};

[[nodiscard]] Writeup ask_writeup(const circuit::Job& job);

/// True where anything in the channel was replaced, or read again as it was left.
[[nodiscard]] bool was_worked_on(const WrittenChannel& channel) noexcept;

/// True where the last that is known of the reading lies outside: as it was left, or as it was
/// found in a channel that was not worked on.
[[nodiscard]] bool is_left_outside(const WrittenChannel& channel,
                                   const WrittenReading& reading) noexcept;

/// True where no reading is left outside, and no capacitor is to be replaced that was not.
[[nodiscard]] bool is_good(const Writeup& writeup) noexcept;

/// True where that capacitor is in `channel.replaced`.
[[nodiscard]] bool is_replaced(const circuit::Channel& channel, const TestedCapacitor& tested);

}  // namespace idlepoint::answers
