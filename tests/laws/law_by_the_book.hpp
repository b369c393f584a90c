// The device laws once more, typed from docs/models.md in long double, slow and plain: the oracle
// of the law suite. Shares the data structures with the code under test and nothing else.
#pragma once

#include "devices/bipolar.hpp"
#include "devices/diode.hpp"
#include "devices/fet.hpp"

namespace idlepoint::laws {

struct BipolarCurrents {
  long double collector_a;
  long double base_a;
  long double emitter_a;  ///< From its own terms, not as what is left over.
  long double w;          ///< The Early term; the law holds while it is positive.
};

[[nodiscard]] long double thermal_voltage_by_the_book(long double temperature_k);

/// s(T) to the power 1/m.
[[nodiscard]] long double saturation_factor_by_the_book(long double temperature_k,
                                                        long double measured_at_k,
                                                        long double power,
                                                        long double band_gap_ev,
                                                        long double ideality);

[[nodiscard]] BipolarCurrents bipolar_by_the_book(const devices::BipolarData& data,
                                                  long double temperature_k,
                                                  long double ube_v,
                                                  long double ubc_v);

[[nodiscard]] long double diode_by_the_book(const devices::DiodeData& data,
                                            long double temperature_k,
                                            long double junction_v);

/// The channel alone.
[[nodiscard]] long double fet_by_the_book(const devices::FetData& data,
                                          long double temperature_k,
                                          long double ugs_v,
                                          long double uds_v);

/// A gate junction or the body diode.
[[nodiscard]] long double fet_diode_by_the_book(const devices::FetData& data,
                                                long double temperature_k,
                                                long double voltage_v);

}  // namespace idlepoint::laws
