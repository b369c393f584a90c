#include "devices/bipolar.hpp"

#include "devices/bipolar_law.hpp"

namespace idlepoint::devices {

BipolarAt bipolar_at(const BipolarData& data, double temperature_k) noexcept {
  return law::bipolar_at(data, temperature_k);
}

BipolarTangent evaluate_bipolar(const BipolarAt& at, double ube_v, double ubc_v) noexcept {
  return law::evaluate_bipolar(at, ube_v, ubc_v);
}

}  // namespace idlepoint::devices
