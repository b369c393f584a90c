// Oracle: Ohm's law and the Gaussian density of a divider's output, by Boost.Math; the information
// between Gaussians by Boost's quadrature; conservation of probability.
#include <boost/math/distributions/normal.hpp>
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <cmath>

#include "answers/next_measurement.hpp"
#include "answers/suspects.hpp"
#include "answers/tolerance_fit.hpp"
#include "diagnosis/diagnosed.hpp"

namespace idlepoint::tests {
namespace {

using answers::BenchStage;
using answers::Foretold;
using answers::Observed;

/// 10 V across two equal resistors of 1 %; a meter whose input is not felt.
const std::string divider =
    "stage \"A divider\"\n"
    "rail vp +10V resistance=0R\n"
    "resistor R1 vp mid 1k tolerance=1%\n"
    "resistor R2 mid gnd 1k tolerance=1%\n"
    "meter error=0.1% floor=1mV input=10G\n"
    "reading mid volts mid gnd\n";

circuit::Measurement volts(const circuit::Circuit& circuit, const char* a) {
  return circuit::Probe{circuit::VoltsBetween{*circuit::find_node(circuit, a), circuit::ground}};
}

std::optional<answers::ToleranceFit> fitted(const circuit::CheckedCircuit& stage,
                                            std::vector<answers::SuspectedFault> sized,
                                            const Observed& reading,
                                            std::vector<answers::SizeStretch> stretches) {
  BenchStage bench(stage, {}, std::move(sized), {volts(*stage, "mid")});
  return answers::fit_tolerances(
      {{&bench, {reading}}}, {std::move(stretches), nullptr, nullptr}, -1e300);
}

answers::SuspectedFault drift_of_r2(const circuit::Circuit& circuit) {
  const auto r2 = *circuit::find_part(circuit, "R2");
  answers::SuspectedFault drift{circuit::SetValue{r2, 2e3}, answers::FaultKind::drifted, 1.0};
  drift.size = answers::SizeRange{1.25e3, 10e3};
  drift.part = r2;
  return drift;
}

TEST_CASE("The evidence of a divider's reading is the Gaussian density of its tolerances") {
  const auto stage = drawn(divider).stage;
  const double meter_v = 2e-3;
  // d(mid)/d(ln R) is 2.5 V either way; a rectangular 1 % has a deviation of 1 %/sqrt(3).
  const double deviation_v = std::hypot(std::sqrt(2.0) * 2.5 * 0.01 / std::sqrt(3.0), meter_v);
  for (const double reading_v : {5.0, 5.01, 4.97}) {
    const auto fit = fitted(stage, {}, {reading_v, meter_v}, {});
    REQUIRE(fit);
    const boost::math::normal spread(5.0, deviation_v);
    CHECK_THAT(std::exp(fit->log_evidence), WithinRel(boost::math::pdf(spread, reading_v), 0.01));
    CHECK_THAT(fit->chi_square, WithinAbs(std::pow((reading_v - 5.0) / deviation_v, 2.0), 0.02));
  }
}

TEST_CASE("A drifted resistor is fitted to the value that Ohm's law gives it") {
  const auto setup = drawn(divider);
  const auto drift = drift_of_r2(*setup.stage);
  const auto fit = fitted(setup.stage, {drift}, {7.5, 2e-3}, {{-1.0, 1.0}});
  REQUIRE(fit);
  const auto edit = std::get<circuit::SetValue>(answers::edit_at(drift, fit->t[0]));
  CHECK_THAT(edit.value, WithinRel(3e3, 0.01));  // 7.5 V over 2.5 mA
}

TEST_CASE("The evidence of a drifted resistor counts every size of its range alike") {
  const auto setup = drawn(divider);
  const auto drift = drift_of_r2(*setup.stage);
  const double meter_v = 2e-3;
  // R1 alone has a tolerance then. In the middle of the range, near its end, beyond it.
  for (const double r2_ohm : {3.5e3, 1.28e3, 1.245e3}) {
    const double reading_v = 10.0 * r2_ohm / (1e3 + r2_ohm);
    double evidence = 0.0;
    for (const double low : {-1.0, -0.4, 0.3}) {
      const double high = low < -0.9 ? -0.4 : low < 0.0 ? 0.3 : 1.0;
      const auto fit = fitted(setup.stage, {drift}, {reading_v, meter_v}, {{low, high}});
      REQUIRE(fit);
      evidence += std::exp(fit->log_evidence);
    }
    const auto density = [&](double t) {
      const double ohm = std::get<circuit::SetValue>(answers::edit_at(drift, t)).value;
      const double mid_v = 10.0 * ohm / (1e3 + ohm);
      const double by_r1 = mid_v * 1e3 / (1e3 + ohm) * 0.01 / std::sqrt(3.0);
      return boost::math::pdf(boost::math::normal(mid_v, std::hypot(by_r1, meter_v)), reading_v);
    };
    const double exact = 0.5 * boost::math::quadrature::gauss_kronrod<double, 61>::integrate(
                                   density, -1.0, 1.0, 15, 1e-9);
    CAPTURE(r2_ohm);
    CHECK_THAT(evidence, WithinRel(exact, 0.03));
  }
}

TEST_CASE("Two suspects far apart are told apart by one bit, two alike by none") {
  const std::vector<Foretold> apart = {{{1.0, 2.0}, {0.01, 0.5}}, {{3.0, 2.0}, {0.01, 0.5}}};
  const auto bits = answers::expected_bits(apart, {0.3, 0.3});
  CHECK_THAT(bits[0], WithinAbs(1.0, 1e-6));
  CHECK_THAT(bits[1], WithinAbs(0.0, 1e-6));
  CHECK_THAT(answers::likeness(apart[0], apart[1]), WithinAbs(0.0, 1e-12));
  CHECK_THAT(answers::likeness(apart[0], apart[0]), WithinAbs(1.0, 1e-12));
}

TEST_CASE("The bits between overlapping suspects are those of the integral") {
  const double p = 0.7;
  const boost::math::normal one(0.0, 1.0);
  const boost::math::normal other(1.5, 0.6);
  const auto part = [&](const boost::math::normal& own, double weight) {
    return boost::math::quadrature::gauss_kronrod<double, 61>::integrate(
        [&](double y) {
          const double mixture =
              p * boost::math::pdf(one, y) + (1 - p) * boost::math::pdf(other, y);
          const double density = boost::math::pdf(own, y);
          return density <= 0.0 ? 0.0 : weight * density * std::log2(density / mixture);
        },
        -9.0,
        9.0,
        10,
        1e-9);
  };
  const double exact = part(one, p) + part(other, 1.0 - p);
  const auto bits = answers::expected_bits({{{0.0}, {1.0}}, {{1.5}, {0.6}}}, {p, 1.0 - p});
  CHECK_THAT(bits[0], WithinAbs(exact, 0.02));
}

TEST_CASE("Every single open and short of a stage is suspected, in these words or in others") {
  for (const char* name : {"quarry-30w.stage", "tarn-70w.stage", "bramble-8w.stage"}) {
    const auto stage = demo(name).stage;
    std::vector<std::string> known;
    for (const auto& fault : answers::suspects(stage, {})) {
      known.push_back(circuit::write_fault(*stage, fault.edit));
      for (const auto& same : fault.same) known.push_back(circuit::write_fault(*stage, same));
    }
    for (const auto& edit : circuit::every_open_and_short(*stage)) {
      const auto text = circuit::write_fault(*stage, edit);
      const auto* of = std::get_if<circuit::OpenPart>(&edit);
      const auto* lead = std::get_if<circuit::OpenLead>(&edit);
      // An open capacitor changes nothing at DC.
      if (of != nullptr && stage->at(of->part).kind == circuit::PartKind::capacitor) continue;
      if (lead != nullptr && stage->at(lead->part).leads.size() == 2) continue;
      CAPTURE(name, text);
      CHECK(std::find(known.begin(), known.end(), text) != known.end());
    }
  }
}

TEST_CASE("Parts found good out of circuit are suspected of nothing but their joints") {
  const auto stage = demo("quarry-30w.stage").stage;
  const auto q606 = *circuit::find_part(*stage, "Q606");
  for (const auto& fault : answers::suspects(stage, {q606})) {
    if (fault.part == q606) CHECK(fault.kind == answers::FaultKind::lead_off);
  }
}

}  // namespace
}  // namespace idlepoint::tests
