// Oracle: a track measured on the bench: end, stretch and wiper in series.
#include "answers/asked.hpp"
#include "answers/trimmer_states.hpp"

namespace idlepoint::tests {
namespace {

circuit::Part trimmer(double wiper_resistance_ohm) {
  circuit::Part part;
  part.kind = circuit::PartKind::trimmer;
  part.value = 1000.0;
  circuit::TrimmerDetails details;
  details.end_resistance_ohm = 2.0;
  details.wiper_resistance_ohm = wiper_resistance_ohm;
  part.details = details;
  return part;
}

}  // namespace

TEST_CASE("Both stretches of a track hold an end and the wiper", "[answers][analytic]") {
  const auto ohms = answers::ohms_at(trimmer(5.0), 0.25);
  CHECK_THAT(*ohms.a_to_wiper_ohm, WithinAbs(257.0, 1e-9));
  CHECK_THAT(*ohms.wiper_to_b_ohm, WithinAbs(757.0, 1e-9));
}

TEST_CASE("An ohm-meter finds nothing between an end and a lifted wiper", "[answers][identity]") {
  auto part = trimmer(0.0);
  part.damage.wiper_open = true;
  CHECK_FALSE(answers::ohms_at(part, 0.5).a_to_wiper_ohm.has_value());
}

}  // namespace idlepoint::tests
