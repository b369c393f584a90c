// Oracle: the size of a fault that was put in, and the chi-square distribution, by Boost.Math.
#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>

#include "answers/assumed_spreads.hpp"
#include "answers/explained.hpp"
#include "diagnosis/diagnosed.hpp"

namespace idlepoint::tests {
namespace {

using answers::Explanation;

Explanation explained(const circuit::CheckedCircuit& stage,
                      const answers::SuspectedFault& fault,
                      const std::vector<circuit::BenchReading>& readings) {
  const auto light = answers::without_unused_types(stage);
  answers::Evidence evidence;
  evidence.stage = &stage;
  evidence.light = &light;
  for (const auto& reading : readings) {
    evidence.measurements.push_back(reading.measurement);
    evidence.readings.push_back(answers::observed(stage->meter, reading));
  }
  Explanation explanation{{fault}};
  answers::explain(explanation, evidence, -20.0);
  return explanation;
}

TEST_CASE("A leak at the bend between two states is found from the other side of it") {
  const auto sound = demo("corrie-70w.stage");
  const auto stage = answers::with_assumed_spreads(sound.stage).stage;
  const auto q402 = *circuit::find_part(*stage, "Q402");
  const auto suspects = answers::suspects(stage, {});
  const auto leak = std::ranges::find_if(suspects, [&](const answers::SuspectedFault& one) {
    const auto* edit = std::get_if<circuit::Leak>(&one.edit);
    return edit != nullptr && edit->part == q402 && edit->lead_1 + edit->lead_2 == 2;  // c-e
  });
  REQUIRE(leak != suspects.end());
  for (std::uint64_t copy = 3; copy <= 6; ++copy) {
    const auto readings = drawn_readings(sound, "Q402 leaks c-e 28k", copy);
    const auto explanation = explained(stage, *leak, readings);
    CAPTURE(copy);
    REQUIRE(explanation.fit);
    const boost::math::chi_squared misses(static_cast<double>(readings.size()));
    CHECK(explanation.fit->chi_square < boost::math::quantile(misses, 0.999));
    const auto fitted = std::get<circuit::Leak>(explanation.edits().front());
    CHECK_THAT(fitted.ohm, WithinRel(28e3, 0.25));
  }
}

}  // namespace
}  // namespace idlepoint::tests
