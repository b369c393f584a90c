// Room temperature and its thermal voltage, as the tests of the laws take them.
#pragma once

namespace idlepoint::laws {

inline constexpr double room_k = 298.15;
/// kT/q, by the exact constants of SI 2019.
inline constexpr double room_u_v = 1.380649e-23 * 298.15 / 1.602176634e-19;

}  // namespace idlepoint::laws
