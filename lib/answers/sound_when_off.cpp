#include "answers/sound_when_off.hpp"

#include <variant>

#include "answers/wired_bench.hpp"
#include "circuit/power_off.hpp"

namespace idlepoint::answers {

SoundWhenOff::SoundWhenOff(const circuit::CheckedCircuit& sound,
                           const solve::Conditions& conditions)
    : off_(circuit::power_off(sound)), conditions_(conditions) {}

const std::vector<double>* SoundWhenOff::nodes_under(const circuit::Measurement& measurement) {
  const auto* ohms = std::get_if<circuit::OhmsBetween>(&measurement);
  const auto* diode = std::get_if<circuit::DiodeBetween>(&measurement);
  if (ohms == nullptr && diode == nullptr) return nullptr;
  const Key key = ohms != nullptr ? Key{false, ohms->a.index, ohms->b.index}
                                  : Key{true, diode->a.index, diode->b.index};
  const std::scoped_lock lock(mutex_);
  const auto [known, is_new] = known_.try_emplace(key);
  if (is_new) {
    WiredBench bench(off_, conditions_, {}, true, {measurement}, nullptr);
    known->second = bench.nodes_under(0);
  }
  return known->second ? &*known->second : nullptr;
}

}  // namespace idlepoint::answers
