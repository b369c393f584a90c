// What stands once in a stage, and what is neither part nor reading: title, ambient, meter, heat
// sinks, rails, signal, sockets.
#include <utility>

#include "language/fields.hpp"
#include "language/node_names.hpp"
#include "language/statement_table.hpp"

namespace idlepoint::language {
namespace {

using values::Unit;

// `vneg 33V` beside `vpos 33V`: the minus was left off.
void warn_of_rail_sign(Draft& draft, const Word& name, const Word& value, double nominal_v) {
  std::string lowered;
  for (const char c : name.text) lowered += static_cast<char>(c >= 'A' && c <= 'Z' ? c + 32 : c);
  const bool says_negative = lowered.find("neg") != std::string::npos ||
                             lowered.find("minus") != std::string::npos ||
                             lowered.starts_with('-') || lowered.ends_with('-');
  if (!says_negative || nominal_v <= 0.0 || value.text.starts_with('+')) return;
  complain(
      draft,
      "rail-sign",
      value,
      "the rail " + quote(name.text) + " is given " + quote(value.text) + ", above `gnd`",
      "Its name says that it is the negative one.",
      "Write " + quote("-" + value.text) + ", or " + quote("+" + value.text) + " if it is so.");
}

void read_rail_pairs(Draft& draft, const Statement& statement, circuit::Rail& rail) {
  Pairs pairs(draft, statement);
  rail.measured_v = pairs.number("measured", Unit::volt);
  const Word* measured = pairs.find("measured");
  if (rail.measured_v && *rail.measured_v * rail.nominal_v < 0.0) {
    complain(draft,
             "out-of-range",
             *measured,
             quote("measured=" + measured->text) + " has the other sign than the rail",
             "",
             "Write it with the sign of the rail, red lead on the rail.");
  }
  rail.resistance_ohm = pairs.number("resistance", Unit::ohm, Range::not_negative).value_or(0.05);
  rail.tolerance = pairs.number("tolerance", Unit::tolerance, Range::tolerance).value_or(0.0);
  pairs.finish();
}

}  // namespace

void read_title(Draft& draft, const Statement& statement) {
  if (!has_words(draft, statement, 2, 2, "stage \"TITLE\"")) return;
  Pairs(draft, statement).finish();
  const Saying saying = say(draft, "stage", statement.keyword(), 0, "`stage`");
  if (saying.is_new || saying.replaces) draft.circuit.title = statement.words[1].text;
}

void read_ambient(Draft& draft, const Statement& statement) {
  if (!has_words(draft, statement, 2, 2, "ambient VALUE")) return;
  Pairs(draft, statement).finish();
  const Saying saying = say(draft, "ambient", statement.keyword(), 0, "`ambient`");
  if (!saying.is_new && !saying.replaces) return;
  const auto ambient = read_number(
      draft, statement, statement.words[1], "the value", Unit::temperature, Range::positive);
  if (ambient) draft.circuit.ambient_k = *ambient;
}

void read_meter(Draft& draft, const Statement& statement) {
  if (!has_words(draft, statement, 1, 1, "meter error=0.5% floor=0.2mV input=10M")) return;
  const Saying saying = say(draft, "meter", statement.keyword(), 0, "`meter`");
  if (!saying.is_new && !saying.replaces) return;
  Pairs pairs(draft, statement);
  circuit::Meter meter;
  meter.error = pairs.number("error", Unit::percent, Range::tolerance).value_or(meter.error);
  meter.floor_v = pairs.number("floor", Unit::volt, Range::not_negative).value_or(meter.floor_v);
  meter.input_ohm = pairs.number("input", Unit::ohm, Range::positive).value_or(meter.input_ohm);
  pairs.finish();
  draft.circuit.meter = meter;
}

void read_heatsink(Draft& draft, const Statement& statement) {
  if (!has_words(draft, statement, 2, 2, "heatsink NAME resistance=")) return;
  const Word& name = statement.words[1];
  circuit::Heatsink sink;
  sink.name = name.text;
  sink.place = place_of(name, "");
  Pairs pairs(draft, statement);
  pairs.require("resistance");
  sink.resistance_k_per_w =
      pairs.number("resistance", Unit::kelvin_per_watt, Range::not_negative).value_or(1.0);
  sink.capacity_j_per_k = pairs.number("capacity", Unit::joule_per_kelvin, Range::positive);
  pairs.finish();
  if (is_good_name(draft, name)) {
    register_thing(draft, name, true, draft.circuit.heatsinks.size());
  } else {
    draft.forgiven.insert(name.text);
  }
  draft.circuit.heatsinks.push_back(std::move(sink));
}

void read_rail(Draft& draft, const Statement& statement) {
  if (!has_words(draft, statement, 3, 3, "rail NODE VALUE")) return;
  const Word& node = statement.words[1];
  circuit::Rail rail;
  rail.place = place_of(node, "");
  const auto volts = read_number(draft, statement, statement.words[2], "the value", Unit::volt);
  rail.nominal_v = volts.value_or(1.0);
  if (volts) warn_of_rail_sign(draft, node, statement.words[2], *volts);
  read_rail_pairs(draft, statement, rail);
  if (node.text == "-") {
    complain(draft, "name-letters", node, "a rail needs a point of its own", "", "Name it.");
    return;
  }
  const Saying saying = say(
      draft, "rail " + node.text, node, draft.circuit.rails.size(), "the rail " + quote(node.text));
  if (saying.replaces) {
    draft.circuit.rails[saying.index] = std::move(rail);
    return;
  }
  if (!saying.is_new) return;
  use_rail_node(draft, draft.circuit.rails.size(), node);
  draft.circuit.rails.push_back(std::move(rail));
}

void read_signal(Draft& draft, const Statement& statement) {
  if (!has_words(draft, statement, 1, 1, "signal output=NODE")) return;
  const Saying saying = say(draft, "signal", statement.keyword(), 0, "`signal`");
  if (!saying.is_new && !saying.replaces) return;
  Pairs pairs(draft, statement);
  circuit::Signal signal;
  if (const Word* output = pairs.require("output")) signal.output = node_named(draft, *output);
  if (const Word* input = pairs.find("input")) signal.input = node_named(draft, *input);
  if (const Word* drive = pairs.find("drive")) signal.drive = node_named(draft, *drive);
  pairs.finish();
  draft.circuit.signal = signal;
}

void read_socket(Draft& draft, const Statement& statement) {
  if (!has_words(draft, statement, 2, 2, "socket NODE")) return;
  Pairs(draft, statement).finish();
  const auto node = node_named(draft, statement.words[1]);
  if (node) draft.circuit.nodes[node->index].is_socket = true;
}

}  // namespace idlepoint::language
