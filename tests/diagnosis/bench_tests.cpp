// Oracle: Ohm's law.
#include "answers/bench_stage.hpp"
#include "answers/suspects.hpp"
#include "diagnosis/diagnosed.hpp"

namespace idlepoint::tests {
namespace {

/// 10 V behind R1; a meter whose 10 megohm is not felt while R1 is small.
const std::string behind_r1 =
    "stage \"Behind a resistor\"\n"
    "rail vp +10V resistance=0R\n"
    "resistor R1 vp mid 1k tolerance=1%\n"
    "resistor R2 mid gnd 100M tolerance=1%\n"
    "meter error=1% floor=1mV input=10M\n"
    "reading mid volts mid gnd\n";

double with_meter(double r1_ohm) {
  const double below_ohm = 1.0 / (1.0 / 100e6 + 1.0 / 10e6);
  return 10.0 * below_ohm / (r1_ohm + below_ohm);
}

TEST_CASE("A meter is felt where a fault's size lets a point float, not in its middle alone") {
  const auto stage = drawn(behind_r1).stage;
  const auto r1 = *circuit::find_part(*stage, "R1");
  answers::SuspectedFault drift{circuit::SetValue{r1, 10e3}, answers::FaultKind::drifted, 1.0};
  drift.size = answers::SizeRange{1.0, 100e6};  // 10 kilohm in the middle
  drift.part = r1;
  const auto mid = *circuit::find_node(*stage, "mid");
  answers::BenchStage bench(
      stage, {}, {drift}, {circuit::Probe{circuit::VoltsBetween{mid, circuit::ground}}});
  const std::vector<double> middle(bench.draws(), 0.0);
  const std::vector<double> large = {1.0};
  const std::vector<double> small = {0.0};
  for (int time = 0; time < 2; ++time) {
    const auto floating = bench.show(middle, large, answers::Slopes::of_all);
    REQUIRE(floating);
    CHECK_THAT(floating->values[0], WithinRel(with_meter(100e6), 1e-5));
    const auto held = bench.show(middle, small, answers::Slopes::of_all);
    REQUIRE(held);
    CHECK_THAT(held->values[0], WithinRel(with_meter(10e3), 2e-3));
  }
}

TEST_CASE("Of measurements wired together the later ones are shown alone where that is asked") {
  const auto stage = drawn(behind_r1).stage;
  const auto mid = *circuit::find_node(*stage, "mid");
  const auto vp = *circuit::find_node(*stage, "vp");
  answers::BenchStage bench(stage,
                            {},
                            {},
                            {circuit::Probe{circuit::VoltsBetween{vp, mid}},
                             circuit::Probe{circuit::VoltsBetween{vp, circuit::ground}}});
  const std::vector<double> middle(bench.draws(), 0.0);
  const auto shown = bench.show(middle, {}, answers::Slopes::of_all, 1);
  REQUIRE(shown);
  REQUIRE(shown->values.size() == 1);
  CHECK_THAT(shown->values[0], WithinRel(10.0, 1e-6));
  REQUIRE(shown->by_draw.size() == 1);
  CHECK(shown->by_draw[0].size() == bench.draws());
}

}  // namespace
}  // namespace idlepoint::tests
