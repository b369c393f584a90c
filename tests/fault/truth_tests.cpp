// Oracle: two solves of the stage of the test's own, sound and faulty; Kirchhoff's current law for
// what is said to move what.
//
// Every number of every step of every chain is compared with those states, every rise, fall and
// turn with their signs.
#include <algorithm>
#include <cmath>
#include <iostream>
#include <set>

#include "answers/asked.hpp"
#include "answers/fault.hpp"
#include "fault/explained.hpp"
#include "report/fault_words.hpp"
#include "report/figures.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::tests {
namespace {

using answers::ChainStep;
using answers::Change;
using answers::Fault;
using answers::StepKind;
using answers::Turn;
using circuit::NodeId;
using circuit::PartId;
using solve::Conduction;

solve::OperatingPoint cold(const circuit::CheckedCircuit& stage) {
  return settled(solve::solve_cold(stage));
}

/// The test's own states, and what it reads in them.
class Truth {
 public:
  explicit Truth(const Fault& answer)
      : answer_(answer), sound_(cold(answer.sound)), faulty_(cold(answer.faulty)) {}

  [[nodiscard]] Change volts(NodeId node) const {
    return {sound_.voltage_v(node), faulty_.voltage_v(node)};
  }
  [[nodiscard]] Change into(PartId part, NodeId node) const {
    return {-leaving(*answer_.sound, sound_, part, node),
            -leaving(*answer_.faulty, faulty_, part, node)};
  }
  [[nodiscard]] Change amps(PartId part) const {
    const circuit::Probe probe = circuit::AmpsThrough{part};
    return {sound_.read(*answer_.sound, probe), faulty_.read(*answer_.faulty, probe)};
  }
  [[nodiscard]] Change steering(PartId part) const {
    return {steering_of(*answer_.sound, sound_, part), steering_of(*answer_.faulty, faulty_, part)};
  }
  [[nodiscard]] std::optional<Conduction> now(PartId part) const {
    return faulty_.part(part).conduction;
  }

 private:
  static double leaving(const circuit::Circuit& circuit,
                        const solve::OperatingPoint& state,
                        PartId part,
                        NodeId node) {
    if (part.index >= circuit.parts.size()) return 0.0;
    double sum_a = 0.0;
    for (std::size_t lead = 0; lead < circuit.at(part).leads.size(); ++lead) {
      if (circuit.at(part).leads[lead] == node) sum_a += state.part(part).lead_current_a[lead];
    }
    return sum_a;
  }

  static double steering_of(const circuit::Circuit& circuit,
                            const solve::OperatingPoint& state,
                            PartId id) {
    const auto& part = circuit.at(id);
    const std::size_t first = circuit::is_transistor(part.kind) ? 1 : 0;
    const double sign = circuit::is_p_kind(part.kind) ? -1.0 : 1.0;
    return sign * (state.voltage_v(*part.leads[first]) - state.voltage_v(*part.leads[first + 1]));
  }

  const Fault& answer_;
  solve::OperatingPoint sound_;
  solve::OperatingPoint faulty_;
};

void check_alike(const Change& told, const Change& found) {
  CHECK_THAT(told.was, WithinRel(found.was, 1e-6) || WithinAbs(found.was, 1e-9));
  CHECK_THAT(told.now, WithinRel(found.now, 1e-6) || WithinAbs(found.now, 1e-9));
}

bool rises(const Change& change) { return change.step() > 0.0; }

void check_node(const Truth& truth, const ChainStep& step) {
  check_alike(step.value, truth.volts(*step.node));
  if (!step.by.empty()) {
    check_alike(step.by_a, truth.into(step.by.front(), *step.node));
    CHECK(rises(step.by_a) == rises(step.value));
  }
  if (step.follows) {
    check_alike(step.followed_v, truth.volts(*step.follows));
    CHECK(rises(step.followed_v) == rises(step.value));
  }
}

/// The sentence shows the test's own volts, and the right way.
void check_sentence(const Truth& truth, const ChainStep& step, const std::string& text) {
  const auto says = [&](const std::string& words) { return text.find(words) != std::string::npos; };
  const Change found = truth.volts(*step.node);
  CHECK((says("from " + report::volts(found.was)) || says("of where it was")));
  CHECK((says(" to " + report::volts(found.now)) || says("by ") || says("of where it was")));
  if (says(" rises ")) CHECK(rises(found));
  if (says(" falls ")) CHECK_FALSE(rises(found));
}

void check_part(const Truth& truth, const ChainStep& step) {
  const double was = std::abs(step.value.was);
  const double now = std::abs(step.value.now);
  if (step.parts.size() == 1) check_alike(step.value, truth.amps(step.parts.front()));
  for (const PartId part : step.parts) {
    const Change found = truth.amps(part);
    CHECK_THAT(found.was, WithinRel(step.value.was, 0.11) || WithinAbs(step.value.was, 3e-6));
    CHECK_THAT(found.now, WithinRel(step.value.now, 0.11) || WithinAbs(step.value.now, 3e-6));
    if (step.turn == Turn::off) CHECK(truth.now(part) == Conduction::off);
    if (step.turn == Turn::bottomed) CHECK(truth.now(part) == Conduction::saturated);
    if (step.turn == Turn::backwards) CHECK(truth.now(part) == Conduction::reversed);
    if (step.turn == Turn::on) CHECK(truth.now(part) != Conduction::off);
  }
  if (step.turn == Turn::more) CHECK(now >= was);
  if (step.turn == Turn::less) CHECK(now <= was);
  if (step.steering_v && step.parts.size() == 1) {
    check_alike(*step.steering_v, truth.steering(step.parts.front()));
  }
}

void check_held(const Truth& truth, const ChainStep& step) {
  check_alike(step.value, truth.volts(*step.node));
  CHECK(std::abs(step.value.step()) <= 0.25);
  if (step.is_the_loop) {
    check_alike(step.by_a, truth.into(step.by.front(), *step.node));
    CHECK(rises(step.by_a) != rises(step.value));
    return;
  }
  for (const PartId part : step.parts) {
    CHECK_THAT(step.by_a.was, WithinRel(truth.into(part, *step.node).now, 1e-5));
  }
  for (const PartId part : step.by) {
    CHECK_THAT(step.by_a.now, WithinRel(truth.into(part, *step.node).now, 1e-5));
  }
}

/// Ground and the rails, but for those that the fault pulls down: they carry no effect.
std::set<std::size_t> supplies_of(const Fault& answer) {
  std::set<std::size_t> supplies{circuit::ground.index};
  for (const auto& rail : answer.sound->rails) {
    const double was_v = answer.sound_state.voltage_v(rail.node);
    const double now_v = answer.faulty_state.voltage_v(rail.node);
    if (std::abs(now_v - was_v) < 0.1 * std::abs(was_v)) supplies.insert(rail.node.index);
  }
  return supplies;
}

/// The points of all parts that a step names, before and after, and its own.
std::set<std::size_t> points_of(const Fault& answer, const ChainStep& step) {
  std::set<std::size_t> points;
  if (step.node) points.insert(step.node->index);
  if (step.follows) points.insert(step.follows->index);
  for (const auto* parts : {&step.parts, &step.by, &step.through, &step.by_way_of}) {
    for (const PartId part : *parts) {
      for (const circuit::Circuit* circuit : {&*answer.sound, &*answer.faulty}) {
        if (part.index >= circuit->parts.size()) continue;
        for (const auto& node : circuit->at(part).leads) {
          if (node) points.insert(node->index);
        }
      }
    }
  }
  for (const std::size_t supply : supplies_of(answer)) points.erase(supply);
  return points;
}

/// All that two-terminal parts and trimmers join to them; they are named in no step.
std::set<std::size_t> joined(const Fault& answer, std::set<std::size_t> points) {
  const auto supplies = supplies_of(answer);
  for (std::size_t before = 0; before != points.size();) {
    before = points.size();
    for (const auto& part : answer.sound->parts) {
      if (circuit::is_transistor(part.kind)) continue;
      const bool touches = std::any_of(part.leads.begin(), part.leads.end(), [&](const auto& node) {
        return node && points.count(node->index) != 0;
      });
      for (const auto& node : part.leads) {
        if (touches && node && supplies.count(node->index) == 0) points.insert(node->index);
      }
    }
  }
  return points;
}

void check_whole(const Fault& answer) {
  const Truth truth(answer);
  std::set<std::size_t> reached;
  for (std::size_t index = 0; index < answer.chain.size(); ++index) {
    const ChainStep& step = answer.chain[index];
    CAPTURE(index, report::step_in_words(answer, step));
    const auto points = points_of(answer, step);
    if (index < answer.faults.size()) {
      CHECK(step.kind == StepKind::fault);
    } else {
      CHECK(step.kind != StepKind::fault);
      CHECK_FALSE(step.because_of.empty());
      for (const std::size_t cause : step.because_of) CHECK(cause < index);
      CHECK(std::any_of(
          points.begin(), points.end(), [&](std::size_t one) { return reached.count(one) != 0; }));
    }
    if (step.kind == StepKind::node) {
      check_node(truth, step);
      check_sentence(truth, step, report::step_in_words(answer, step));
    }
    if (step.kind == StepKind::part) check_part(truth, step);
    if (step.kind == StepKind::held) check_held(truth, step);
    reached.insert(points.begin(), points.end());
    reached = joined(answer, reached);
  }
  CHECK(answer.chain.size() <= answers::longest_chain + answer.faults.size() - 1);
}

/// Every `every`-th open and short of a stage.
void check_stage(const std::string& name, std::size_t every) {
  const auto stage = cold_demo(name);
  const auto faults = circuit::every_open_and_short(*stage);
  std::size_t steps = 0;
  for (std::size_t index = 0; index < faults.size(); index += every) {
    CAPTURE(name, circuit::write_fault(*stage, faults[index]));
    const auto answer = explained(stage, {faults[index]});
    if (!answer) continue;
    check_whole(*answer);
    steps += answer->chain.size();
  }
  std::cout << name << ": " << faults.size() / every << " faults, " << steps << " steps\n";
}

}  // namespace

TEST_CASE("What a chain of cause says is what two solves give", "[fault][identity]") {
  check_stage("quarry-30w", 7);
  check_stage("drystone-40w", 7);
  check_stage("tarn-70w", 5);
}

TEST_CASE("What the chain of every open and short of every stage says is what two solves give",
          "[fault][identity][heavy]") {
  const std::string name = GENERATE("bramble-8w",
                                    "cairnfell-120w",
                                    "corrie-70w",
                                    "drystone-40w",
                                    "quarry-30w",
                                    "sedge-28w",
                                    "spinney-45w",
                                    "tarn-70w",
                                    "teasel-8w",
                                    "wherry-25w");
  check_stage(name, 1);
}

}  // namespace idlepoint::tests
