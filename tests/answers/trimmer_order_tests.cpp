// Oracle: the rule of docs/commands.md, worked by hand on tables of who disturbs whom.
#include "answers/asked.hpp"
#include "answers/trimmer_order.hpp"

namespace idlepoint::tests {
namespace {

using answers::Disturbances;
using answers::order_trimmers;
using Order = std::vector<std::size_t>;

}  // namespace

TEST_CASE("Trimmers that leave each other alone keep the file's order", "[answers][identity]") {
  const auto order = order_trimmers({{false, false}, {false, false}});
  CHECK(order.first_to_last == Order{0, 1});
  CHECK_FALSE(order.goes_round_twice);
}

TEST_CASE("A trimmer that disturbs the other comes first", "[answers][identity]") {
  CHECK(order_trimmers({{false, true}, {false, false}}).first_to_last == Order{0, 1});
  CHECK(order_trimmers({{false, false}, {true, false}}).first_to_last == Order{1, 0});
}

TEST_CASE("Two that disturb each other keep the file's order and go round twice",
          "[answers][identity]") {
  const auto order = order_trimmers({{false, true}, {true, false}});
  CHECK(order.first_to_last == Order{0, 1});
  CHECK(order.goes_round_twice);
}

TEST_CASE("Three in a chain are set from its head, and in a circle the file's order stands",
          "[answers][identity]") {
  const Disturbances chain{{false, false, false}, {true, false, false}, {false, true, false}};
  CHECK(order_trimmers(chain).first_to_last == Order{2, 1, 0});
  const Disturbances circle{{false, true, false}, {false, false, true}, {true, false, false}};
  CHECK(order_trimmers(circle).first_to_last == Order{0, 1, 2});
  CHECK(order_trimmers({}).first_to_last.empty());
}

// VR1 sets a rail of the divider that VR2 taps, so it moves both; VR2's tap is read by 1 G alone.
TEST_CASE("A trimmer that feeds another one's track disturbs it, and not the other way round",
          "[answers][analytic]") {
  const auto preset = preset_of(drawn(R"(stage "Two taps"
rail     vcc 10V resistance=0R
trimmer  VR2 top w2 gnd 1M
resistor R2 w2 gnd 1G
trimmer  VR1 vcc top gnd 100R
reading  tap volts w2 gnd
reading  top volts top gnd
adjust   VR2 until tap reads 2V within 20mV
adjust   VR1 until top reads 5V within 20mV
)"));
  CHECK(preset.order == Order{1, 0});
  CHECK_FALSE(preset.goes_round_twice);
}

}  // namespace idlepoint::tests
