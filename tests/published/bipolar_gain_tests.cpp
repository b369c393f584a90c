// Oracle: worked examples of textbooks on what a transistor's gain and base-emitter drop do to its
// bias, the book's constant drop had at the book's own current.
#include "published/solve_text.hpp"

namespace idlepoint::tests {
namespace {

/// [MalvinoBates2007] 8-1 and [Floyd2012] 5-3 differ in values alone.
std::string divider_bias(const std::string& lower,
                         const std::string& collector,
                         const std::string& emitter,
                         const std::string& data) {
  return fmt::format(
      R"(
hold V1 vcc gnd 10V
resistor R1 vcc base 10k
resistor R2 base gnd {}
npn Q1 c=col b=base e=em type=one
resistor RC vcc col {}
resistor RE em gnd {}
type npn one {}
)",
      lower,
      collector,
      emitter,
      data);
}

}  // namespace

// [MalvinoBates2007], examples 8-1 and 8-3: 10k and 2.2k, 3.6k, 1k. Printed: 1.1 mA, 4.92 V without
// base current; 1.09 mA with a gain of 200.
TEST_CASE("A stiff divider hardly feels a gain of two hundred", "[solve][published]") {
  const Solved ideal =
      solved(divider_bias("2k2", "3k6", "1k", "vbe=0.7V vbe_at=1.1033mA gain=1e12"));
  CHECK_THAT(ideal("amps Q1"), WithinAbs(1.10e-3, 0.005e-3));
  CHECK_THAT(ideal("volts col em"), WithinAbs(4.92, 0.01));
  const Solved real = solved(divider_bias("2k2", "3k6", "1k", "vbe=0.7V vbe_at=1.0933mA gain=200"));
  CHECK_THAT(-emitter_current_a(real, "Q1"), WithinAbs(1.09e-3, 0.005e-3));
}

// [MalvinoBates2007], example 8-6: +-15 V, 20k in the emitter, 10k in the collector, base at
// ground. Printed: 0.715 mA, 7.85 V.
TEST_CASE("Two-supply bias depends on the emitter resistor alone", "[solve][published]") {
  const Solved stage = solved(R"(
hold V1 vpos gnd 15V
hold V2 vneg gnd -15V
npn Q1 c=col b=gnd e=em type=one
resistor RC vpos col 10k
resistor RE em vneg 20k
type npn one vbe=0.7V vbe_at=0.715mA gain=1e12
)");
  CHECK_THAT(stage("amps Q1"), WithinRel(0.715e-3, exact));
  CHECK_THAT(stage("volts col gnd"), WithinRel(7.85, exact));
}

// [Floyd2012], example 5-3: 10k and 5.6k, 1k, 560 ohm. Printed: 5.16 mA, 1.95 V, the divider's
// loading neglected; a gain of 100 loads it.
TEST_CASE("A divider loaded by its base gives a twentieth less than the rule of thumb",
          "[solve][published]") {
  const Solved rule = solved(divider_bias("5k6", "1k", "560R", "vbe=0.7V vbe_at=5.16mA gain=1e12"));
  CHECK_THAT(rule("amps Q1"), WithinAbs(5.16e-3, 0.005e-3));
  CHECK_THAT(rule("volts col em"), WithinAbs(1.95, 0.005));
  const Solved real = solved(divider_bias("5k6", "1k", "560R", "vbe=0.7V vbe_at=4.85mA gain=100"));
  CHECK(real("amps Q1") < 0.96 * rule("amps Q1"));
  CHECK(real("amps Q1") > 0.92 * rule("amps Q1"));
}

// [Floyd2012], example 5-6: 12 V, 100k, 560 ohm (from memory; the printed changes follow from
// them), the gain from 85 to 100 and the drop from 0.7 to 0.6 V. Printed: +18.7 %, -15.2 %.
TEST_CASE("Base bias follows the gain of its transistor", "[solve][published]") {
  const auto stage_with = [](const char* data) {
    return solved(fmt::format(
        R"(
hold V1 vcc gnd 12V
resistor RB vcc base 100k
npn Q1 c=col b=base e=gnd type=one
resistor RC vcc col 560R
type npn one {}
)",
        data));
  };
  const Solved cool = stage_with("vbe=0.7V vbe_at=9.718mA gain=85");
  const Solved warm = stage_with("vbe=0.6V vbe_at=11.514mA gain=100");
  CHECK_THAT(warm("amps Q1") / cool("amps Q1") - 1.0, WithinAbs(0.187, 0.0005));
  CHECK_THAT(warm("volts col gnd") / cool("volts col gnd") - 1.0, WithinAbs(-0.152, 0.0005));
}

// [Floyd2012], example 5-7: +-20 V, 100k in the base, 10k in the emitter (from memory; the printed
// change follows from them), the same transistor. Printed: +2.1 %.
TEST_CASE("Emitter bias hardly follows the gain of its transistor", "[solve][published]") {
  const auto emitter_a = [](const char* data) {
    return -emitter_current_a(solved(fmt::format(
                                  R"(
hold V1 vpos gnd 20V
hold V2 vneg gnd -20V
resistor RB base gnd 100k
npn Q1 c=col b=base e=em type=one
resistor RC vpos col 4k7
resistor RE em vneg 10k
type npn one {}
)",
                                  data)),
                              "Q1");
  };
  const double cool_a = emitter_a("vbe=0.7V vbe_at=1.7288mA gain=85");
  const double warm_a = emitter_a("vbe=0.6V vbe_at=1.7653mA gain=100");
  CHECK_THAT(warm_a / cool_a - 1.0, WithinAbs(0.021, 0.0005));
}

}  // namespace idlepoint::tests
