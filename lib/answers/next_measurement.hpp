// What to measure next, and which suspects no measurement tells apart.
//
// Every point that a probe reaches without lifting anything, with the power on and off, foretold
// under every suspect that is still in: parts where the readings so far have put them. Used by the
// diagnosis. Source: docs/how_it_diagnoses.md; the information that a measurement is expected to
// bring is [Lindley1956] in docs/sources.md.
#pragma once

#include <vector>

#include "answers/tolerance_fit.hpp"

namespace idlepoint::answers {

/// All measurements worth thinking of but those in `taken`: volts of every named point against
/// ground; of the parts in `near`, volts across them and their junctions, their ohms, and the diode
/// range over junctions.
[[nodiscard]] std::vector<circuit::Measurement> measurements_to_take(
    const circuit::Circuit& circuit,
    const std::vector<circuit::PartId>& near,
    const std::vector<circuit::BenchReading>& taken);

/// What one suspect foretells: Gaussian, in the terms of `Shown`.
struct Foretold {
  std::vector<double> mean;       ///< [measurements]
  std::vector<double> deviation;  ///< Of the parts after the readings so far, and of the meter.
};

/// Where a suspect's readings to come are foretold from.
struct Probed {
  const Shown& on;           ///< Those measurements that want the power on, parts as fitted.
  const Shown& off;          ///< The others, slopes by sizes alone.
  const Unknowns& unknowns;  ///< As in the fit.
};

[[nodiscard]] Foretold foretell(const circuit::Circuit& circuit,
                                const std::vector<circuit::Measurement>& measurements,
                                const Probed& probed,
                                const ToleranceFit& fit);

/// 1 where both foretell the same of every measurement, 0 where one tells them apart for certain:
/// the least of the Bhattacharyya coefficients.
[[nodiscard]] double likeness(const Foretold& one, const Foretold& other);

/// Above this two suspects count as one: no reading can tell them apart.
inline constexpr double alike = 0.88;

/// Bits that each measurement is expected to bring, the suspects having these probabilities (any
/// scale).
[[nodiscard]] std::vector<double> expected_bits(const std::vector<Foretold>& suspects,
                                                const std::vector<double>& probabilities);

}  // namespace idlepoint::answers
