// Stage texts made at random: every statement and every key, in no sensible order.
#pragma once

#include <cstdint>
#include <string>

namespace idlepoint::language {

/// A sound text; the same seed gives the same text.
[[nodiscard]] std::string generated_stage(std::uint32_t seed);

}  // namespace idlepoint::language
