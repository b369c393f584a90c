#include "devices/fet.hpp"

#include "devices/fet_law.hpp"

namespace idlepoint::devices {

FetAt fet_at(const FetData& data, double temperature_k) noexcept {
  return law::fet_at(data, temperature_k);
}

FetTangent evaluate_fet(const FetAt& at, double ugs_v, double uds_v) noexcept {
  return law::evaluate_fet(at, ugs_v, uds_v);
}

double current_factor_from_idss(double idss_a, double threshold_v) noexcept {
  return 2.0 * idss_a / (threshold_v * threshold_v);
}

}  // namespace idlepoint::devices
