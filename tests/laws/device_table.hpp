// The devices, voltages and temperatures over which the law suite checks every identity.
// All values are invented; each device is there for the term of a law that it exercises.
#pragma once

#include <string>
#include <vector>

#include "devices/bipolar.hpp"
#include "devices/diode.hpp"
#include "devices/fet.hpp"

namespace idlepoint::laws {

template <typename Data>
struct Named {
  std::string name;
  Data data;
};

[[nodiscard]] const std::vector<Named<devices::BipolarData>>& bipolar_table();
[[nodiscard]] const std::vector<Named<devices::DiodeData>>& diode_table();
[[nodiscard]] const std::vector<Named<devices::FetData>>& fet_table();

/// From a frosty workshop to a junction at its limit.
inline const std::vector<double> temperatures_k{253.15, 298.15, 333.0, 423.15};

inline const std::vector<double> base_emitter_v{
    -7.8, -7.1, -6.3, -2.0, -0.3, -0.01, -1e-6, 0.0, 1e-6, 0.01, 0.2, 0.45, 0.6, 0.72, 0.9};
inline const std::vector<double> base_collector_v{
    -60.0, -12.0, -1.0, -0.1, -1e-5, 0.0, 0.05, 0.4, 0.55, 0.7};
inline const std::vector<double> diode_v{
    -7.0, -5.9, -5.6, -5.0, -2.6, -1.0, -0.2, -1e-3, -1e-7, 0.0, 1e-7, 1e-3, 0.2, 0.5, 0.75, 1.0};
inline const std::vector<double> gate_source_v{
    -6.0, -3.0, -1.0, 0.0, 0.5, 2.0, 3.0, 3.6, 5.0, 12.0};
inline const std::vector<double> drain_source_v{
    -20.0, -0.5, -1e-3, 0.0, 1e-3, 0.05, 0.6, 4.0, 50.0};

}  // namespace idlepoint::laws
