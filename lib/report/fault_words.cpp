#include "report/fault_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/fault_done.hpp"
#include "report/figures.hpp"
#include "report/words.hpp"

namespace idlepoint::report {
namespace {

using answers::ChainStep;
using answers::Change;
using answers::Fault;
using answers::Turn;
using circuit::Circuit;
using circuit::PartId;

constexpr double nothing_a = 0.5e-6;
constexpr double hardly_any_v = 0.05;
constexpr std::size_t most_on_the_way = 3;

bool is_nothing(double one_a, double beside_a) {
  return std::abs(one_a) < std::max(nothing_a, 0.005 * std::abs(beside_a));
}

std::string list_of(const Circuit& circuit, const std::vector<PartId>& parts) {
  return list_in_words(names_of(circuit, parts));
}

/// What was left out on the way, the last of it, without those that the sentence names anyway.
std::vector<PartId> way_of(const ChainStep& step) {
  std::vector<PartId> way = step.by_way_of;
  std::erase_if(way, [&](PartId part) {
    const auto names = [&](const std::vector<PartId>& list) {
      return std::find(list.begin(), list.end(), part) != list.end();
    };
    return names(step.by) || names(step.through) || names(step.parts);
  });
  if (way.size() > most_on_the_way) {
    way.erase(way.begin(), way.end() - static_cast<std::ptrdiff_t>(most_on_the_way));
  }
  return way;
}

/// "By way of Q601 and Q603, ", or nothing.
std::string by_way_of(const Circuit& circuit, const ChainStep& step) {
  const auto way = way_of(step);
  return way.empty() ? "" : "By way of " + list_of(circuit, way) + ", ";
}

/// A verb in the right number, and "each" where several do it.
struct Doing {
  bool is_one;
  [[nodiscard]] std::string operator()(const char* one, const char* many) const {
    return is_one ? one : many;
  }
  [[nodiscard]] std::string each() const { return is_one ? "" : " each"; }
};

std::string fed_in_words(const Circuit& circuit, const std::vector<PartId>& by, Change into_a) {
  const std::string names = list_of(circuit, by);
  const Doing does{by.size() == 1};
  const std::string was = size_a(into_a.was);
  const std::string now = size_a(into_a.now);
  const std::string each = does.each();
  if (is_nothing(into_a.now, into_a.was)) {
    const bool fed = into_a.was > 0.0;
    return fmt::format("{} {} {} {}{} and {} {} now",
                       names,
                       fed ? "fed" : "took",
                       was,
                       fed ? "into it" : "out of it",
                       each,
                       fed ? does("feeds", "feed") : does("takes", "take"),
                       std::abs(into_a.now) < nothing_a ? "nothing" : "next to nothing");
  }
  const bool feeds = into_a.now > 0.0;
  const std::string verb = feeds ? does("feeds", "feed") : does("takes", "take");
  const char* const way = feeds ? "into it" : "out of it";
  if (is_nothing(into_a.was, into_a.now)) {
    return fmt::format("{} now {} {} {}{}", names, verb, now, way, each);
  }
  if (feeds != (into_a.was > 0.0)) {
    return fmt::format("{} {} {} {}{} and now {} {} {}",
                       names,
                       feeds ? "took" : "fed",
                       was,
                       feeds ? "out of it" : "into it",
                       each,
                       verb,
                       now,
                       way);
  }
  if (was == now) {
    const bool is_more = std::abs(into_a.now) > std::abs(into_a.was);
    return fmt::format(
        "{} {} a little {} {}{} ({})", names, verb, is_more ? "more" : "less", way, each, now);
  }
  return fmt::format("{} {} {} {}{}, {} before", names, verb, now, way, each, was);
}

/// "from 1.17 V to 6.88 V"; "by 18 mV from -32.4 V" where those would read alike.
std::string from_to_in_words(Change moved_v) {
  const std::string was = volts(moved_v.was);
  const std::string now = volts(moved_v.now);
  if (was != now) return fmt::format("from {} to {}", was, now);
  return fmt::format(
      "by {} from {}", step(std::abs(moved_v.step()), answers::ReadingUnit::volt), was);
}

std::string node_step(const Circuit& circuit, const ChainStep& step) {
  const std::string node = circuit::node_in_words(circuit, *step.node);
  const std::string from_to = from_to_in_words(step.value);
  const std::string way = by_way_of(circuit, step);
  if (step.follows) {
    std::vector<std::string> nodes{node};
    for (const auto other : step.alike) nodes.push_back(circuit::node_in_words(circuit, other));
    return fmt::format("{}{} {} {} through {}, {}.",
                       way,
                       list_in_words(nodes),
                       nodes.size() == 1 ? "follows" : "follow",
                       circuit::node_in_words(circuit, *step.follows),
                       list_of(circuit, step.through),
                       from_to);
  }
  const char* const verb = step.value.step() > 0.0 ? "rises" : "falls";
  std::string text = fmt::format("{}{} {} {}", way, node, verb, from_to);
  if (!step.by.empty()) text += ": " + fed_in_words(circuit, step.by, step.by_a);
  return text + ".";
}

const char* steered_between(const circuit::Part& part) {
  if (circuit::is_bipolar(part.kind)) return "between base and emitter";
  if (circuit::is_fet(part.kind)) return "between gate and source";
  return "across it";
}

/// "0.73 V between base and emitter where there were 0.55 V"; empty where no meter tells them
/// apart.
std::string steering(const Circuit& circuit, const ChainStep& step) {
  const bool is_more = std::abs(step.value.now) > std::abs(step.value.was);
  const bool is_steered_so = step.steering_v && is_more == (step.steering_v->step() > 0.0);
  const bool is_a_turn = step.turn != Turn::more && step.turn != Turn::less;
  if (step.junction_c && !is_steered_so && !is_a_turn) {
    const auto celsius = [](double value) { return figure(value, answers::ReadingUnit::celsius); };
    return fmt::format("its junction is at {} where it was at {}",
                       celsius(step.junction_c->now),
                       celsius(step.junction_c->was));
  }
  if (!step.steering_v) return {};
  const circuit::Part& part = circuit.at(step.parts.front());
  const std::string was = volts(step.steering_v->was);
  const std::string now = volts(step.steering_v->now);
  if (was == now) return {};
  if (std::abs(step.steering_v->now) < hardly_any_v) {
    return fmt::format("hardly any volts {} where there were {}", steered_between(part), was);
  }
  if (step.steering_v->now < 0.0 && step.steering_v->was > 0.0) {
    return fmt::format("{} the wrong way {}, where there were {}",
                       volts(-step.steering_v->now),
                       steered_between(part),
                       was);
  }
  return fmt::format("{} {} where there were {}", now, steered_between(part), was);
}

std::string across_in_words(const circuit::Part& part, double across_v) {
  const std::string size = volts(std::abs(across_v));
  if (circuit::is_bipolar(part.kind)) return size + " between collector and emitter";
  if (circuit::is_fet(part.kind)) return size + " between drain and source";
  return size + " across it";
}

std::string more_or_less(const ChainStep& step, const std::string& names, const Doing& does) {
  const std::string was = size_a(step.value.was);
  const std::string now = size_a(step.value.now);
  const std::string verb = does("carries", "carry");
  if (was == now) {
    return fmt::format("{} {} a little {}{} ({})",
                       names,
                       verb,
                       step.turn == Turn::more ? "more" : "less",
                       does.each(),
                       now);
  }
  return fmt::format("{} {} {}{}{} instead of {}",
                     names,
                     verb,
                     step.turn == Turn::less ? "only " : "",
                     now,
                     does.each(),
                     was);
}

std::string turned(const Fault& answer, const ChainStep& step, const std::string& names) {
  const Circuit& circuit = *answer.faulty;
  const PartId id = step.parts.front();
  const circuit::Part& part = circuit.at(id);
  const bool is_transistor = circuit::is_transistor(part.kind);
  const Doing does{step.parts.size() == 1};
  const std::string was = size_a(step.value.was);
  const std::string now = size_a(step.value.now);
  switch (step.turn) {
    case Turn::more:
    case Turn::less:
      return more_or_less(step, names, does);
    case Turn::on:
      return fmt::format("{} {}: {}{}, next to nothing before",
                         names,
                         is_transistor ? does("turns on", "turn on")
                                       : does("begins to conduct", "begin to conduct"),
                         now,
                         does.each());
    case Turn::off:
      return fmt::format(
          "{} {}; {} carried {}{}",
          names,
          is_transistor ? does("cuts off", "cut off") : does("stops conducting", "stop conducting"),
          does("it", "they"),
          was,
          does.each());
    case Turn::bottomed:
      return fmt::format("{} {} bottomed, {}: {}{}, {} before",
                         names,
                         does("is", "are"),
                         across_in_words(part, step.across_v.now),
                         now,
                         does.each(),
                         was);
    case Turn::backwards:
      return fmt::format("{} {} backwards, {}: {}{}, {} before",
                         names,
                         does("runs", "run"),
                         across_in_words(part, step.across_v.now),
                         now,
                         does.each(),
                         was);
    case Turn::breaks_down:
      break;
  }
  const Change through_a = answer.moves().lead_a(id, is_transistor ? 1 : 0);
  const double backwards_v =
      is_transistor && step.steering_v ? -step.steering_v->now : std::abs(step.across_v.now);
  return is_transistor
             ? fmt::format(
                   "{} {} the base {} the wrong way from the emitter: the junction breaks "
                   "down and passes {}",
                   names,
                   does("has", "have"),
                   volts(backwards_v),
                   size_a(through_a.now))
             : fmt::format("{} {} down at {} and {} {} backwards",
                           names,
                           does("breaks", "break"),
                           volts(backwards_v),
                           does("passes", "pass"),
                           size_a(through_a.now));
}

/// "Q603, behind Q602 and Q601,": its drivers, and what lies between them and the step before.
std::string part_step(const Fault& answer, const ChainStep& step) {
  const Circuit& circuit = *answer.faulty;
  std::vector<PartId> drivers = way_of(step);
  drivers.insert(drivers.end(), step.by.begin(), step.by.end());
  std::string names = list_of(circuit, step.parts);
  if (!drivers.empty()) names += ", behind " + list_of(circuit, drivers) + ",";
  std::string text = turned(answer, step, names);
  const bool has_said_it = step.turn == Turn::breaks_down || step.turn == Turn::backwards;
  const std::string why = has_said_it ? "" : steering(circuit, step);
  if (!why.empty()) text += (step.turn == Turn::off ? ": " : "; ") + why;
  return text + ".";
}

std::string within_in_words(Change moved_v) {
  constexpr double least_v = 0.1e-3;
  return volts(std::max(least_v, std::abs(moved_v.step())));
}

std::string held_step(const Circuit& circuit, const ChainStep& step) {
  const std::string node = circuit::node_in_words(circuit, *step.node);
  const std::string within = within_in_words(step.value);
  if (step.is_the_loop) {
    return fmt::format("That is the loop: it holds {} within {} of where it was. {}.",
                       node,
                       within,
                       fed_in_words(circuit, step.by, step.by_a));
  }
  const Doing feeding{step.parts.size() == 1};
  const Doing taking{step.by.size() == 1};
  return fmt::format(
      "{} stays within {} of where it was: {} {} {} into it{} and {} {} {} out of it{}.",
      node,
      within,
      list_of(circuit, step.parts),
      feeding("feeds", "feed"),
      size_a(step.by_a.was),
      feeding.each(),
      list_of(circuit, step.by),
      taking("takes", "take"),
      size_a(step.by_a.now),
      taking.each());
}

}  // namespace

std::string step_in_words(const Fault& answer, const ChainStep& step) {
  switch (step.kind) {
    case answers::StepKind::fault:
      return fault_done(answer, step);
    case answers::StepKind::node:
      return node_step(*answer.faulty, step);
    case answers::StepKind::part:
      return part_step(answer, step);
    case answers::StepKind::held:
      return held_step(*answer.faulty, step);
  }
  return {};
}

}  // namespace idlepoint::report
