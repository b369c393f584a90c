// What was found, tested and changed on the bench, channel by channel.
//
// Read by language/read_job from a job file; taken by `diagnose`. Source: docs/language.md, "Job
// files".
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "circuit/bench_reading.hpp"
#include "circuit/edits.hpp"

namespace idlepoint::circuit {

enum class Scope { repair, service, restoration };

enum class When { before, after };

struct Measured {
  BenchReading reading;
  When when = When::before;  ///< As found, or as left.
  complaints::Place place;
};

/// Another type or another value: SetType or SetValue.
struct Replaced {
  Edit edit;
  std::string why;
  complaints::Place place;
};

/// What a capacitor tester showed.
struct CapacitorTest {
  std::string name;            ///< Also of one that the drawing does not show, such as a reservoir.
  std::optional<PartId> part;  ///< Where the drawing shows it.
  double capacitance_f = 0.0;
  double esr_ohm = 0.0;
  double frequency_hz = 0.0;        ///< At which the ESR was taken.
  std::optional<double> leakage_a;  ///< At `leakage_at_v`.
  std::optional<double> leakage_at_v;
  std::optional<double> value_f;  ///< As printed on the part, where the job says it.
  std::optional<double> rated_v;  ///< The same.
  complaints::Place place;
};

struct Channel {
  std::string name;  ///< Empty where the job parts no channels.
  Circuit circuit;
  complaints::Complaints warnings;  ///< Of reading its stage file.
  std::vector<Measured> measured;   ///< In the order written; a measurement once a `When`.
  std::vector<Replaced> replaced;
  std::vector<CapacitorTest> capacitor_tests;
  std::vector<PartId> sound;  ///< Tested out of circuit and good.
  std::vector<std::string> notes;
};

struct Job {
  std::string file;  ///< As the user named it.
  std::string title;
  std::vector<std::string> owner_asked;
  std::optional<Scope> scope;
  std::vector<std::string> notes;  ///< Those before the first channel.
  std::vector<Channel> channels;   ///< At least one.
};

}  // namespace idlepoint::circuit
