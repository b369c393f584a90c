// The parts of two leads and a value: resistor, capacitor, inductor, fuse, link, lamp, thermistor,
// hold, load.
#include <array>
#include <utility>

#include "devices/passive.hpp"
#include "language/fields.hpp"
#include "language/mounting.hpp"
#include "language/node_names.hpp"
#include "language/statement_table.hpp"

namespace idlepoint::language {
namespace {

using circuit::Part;
using circuit::PartKind;
using values::Unit;

void add_two_leads(Draft& draft, const Statement& statement, Part part) {
  const std::array<const Word*, 2> leads = {&statement.words[2], &statement.words[3]};
  add_part(draft, std::move(part), statement.words[1], leads);
}

Part part_of(PartKind kind) {
  Part part;
  part.kind = kind;
  return part;
}

// NAME A B VALUE with one kind of series resistance: inductor and fuse.
void read_series(Draft& draft,
                 const Statement& statement,
                 PartKind kind,
                 Unit unit,
                 double default_ohm,
                 std::string_view form) {
  if (!has_words(draft, statement, 5, 5, form)) return;
  Part part = part_of(kind);
  part.value = read_part_value(draft, statement, statement.words[4], unit, Range::positive);
  Pairs pairs(draft, statement);
  part.details = circuit::SeriesDetails{
      pairs.number("resistance", Unit::ohm, Range::not_negative).value_or(default_ohm)};
  pairs.finish();
  add_two_leads(draft, statement, std::move(part));
}

double require_rated(
    Draft& draft, const Statement& statement, Pairs& pairs, std::string_view key, Unit unit) {
  const Word* word = pairs.require(key);
  if (word == nullptr) return 1.0;
  const std::string what = "`" + std::string(key) + "`";
  return read_number(draft, statement, *word, what, unit, Range::positive).value_or(1.0);
}

// beta= as written, or from the resistance at 50 C, or the usual one.
circuit::ThermistorDetails read_beta(Draft& draft, Pairs& pairs, double at_25c_ohm) {
  circuit::ThermistorDetails details;
  const auto beta = pairs.number("beta", Unit::kelvin, Range::positive);
  const auto at_50c = pairs.number("at_50C", Unit::ohm, Range::positive);
  const Word* second = pairs.find("at_50C");
  if (beta && at_50c) {
    complain(draft,
             "two-sources",
             *second,
             "`beta=` and `at_50C=` both say how steep this thermistor is",
             "",
             "Give one of the two.");
  }
  if (at_50c && *at_50c >= at_25c_ohm) {
    complain(draft,
             "out-of-range",
             *second,
             quote("at_50C=" + second->text) + " is not below the value at 25 C",
             "The resistance of a thermistor of this kind falls as it warms.",
             "Look at the two values once more.");
  }
  if (at_50c) details.beta_k = devices::beta_from_two_points(at_25c_ohm, *at_50c);
  if (beta) details.beta_k = *beta;
  details.beta_assumed = !beta && !at_50c;
  return details;
}

}  // namespace

void read_resistor(Draft& draft, const Statement& statement) {
  if (!has_words(draft, statement, 5, 5, "resistor NAME A B VALUE")) return;
  Part part = part_of(PartKind::resistor);
  part.value =
      read_part_value(draft, statement, statement.words[4], Unit::ohm, Range::not_negative);
  Pairs pairs(draft, statement);
  part.tolerance = pairs.number("tolerance", Unit::tolerance, Range::tolerance).value_or(0.05);
  circuit::ResistorDetails details;
  details.power_w = pairs.number("power", Unit::watt, Range::positive);
  details.tempco_per_k = pairs.number("tempco", Unit::ppm_per_kelvin).value_or(0.0);
  part.details = details;
  pairs.finish();
  add_two_leads(draft, statement, std::move(part));
}

void read_capacitor(Draft& draft, const Statement& statement) {
  if (!has_words(draft, statement, 5, 5, "capacitor NAME A B VALUE")) return;
  Part part = part_of(PartKind::capacitor);
  part.value = read_part_value(draft, statement, statement.words[4], Unit::farad, Range::positive);
  Pairs pairs(draft, statement);
  circuit::CapacitorDetails details;
  details.leakage_ohm = pairs.number("leakage", Unit::ohm, Range::positive);
  details.rated_v = pairs.number("voltage", Unit::volt, Range::positive);
  part.details = details;
  pairs.finish();
  add_two_leads(draft, statement, std::move(part));
}

void read_inductor(Draft& draft, const Statement& statement) {
  read_series(draft, statement, PartKind::inductor, Unit::henry, 0.0, "inductor NAME A B VALUE");
}

void read_fuse(Draft& draft, const Statement& statement) {
  read_series(draft, statement, PartKind::fuse, Unit::ampere, 0.05, "fuse NAME A B RATING");
}

void read_link(Draft& draft, const Statement& statement) {
  if (!has_words(draft, statement, 4, 4, "link NAME A B")) return;
  Pairs(draft, statement).finish();
  add_two_leads(draft, statement, part_of(PartKind::link));
}

void read_lamp(Draft& draft, const Statement& statement) {
  if (!has_words(draft, statement, 4, 4, "lamp NAME A B voltage= power=")) return;
  Part part = part_of(PartKind::lamp);
  Pairs pairs(draft, statement);
  circuit::LampDetails details;
  details.rated_v = require_rated(draft, statement, pairs, "voltage", Unit::volt);
  details.rated_w = require_rated(draft, statement, pairs, "power", Unit::watt);
  part.details = details;
  pairs.finish();
  add_two_leads(draft, statement, std::move(part));
}

void read_thermistor(Draft& draft, const Statement& statement) {
  if (!has_words(draft, statement, 5, 5, "thermistor NAME A B VALUE")) return;
  Part part = part_of(PartKind::thermistor);
  part.value = read_part_value(draft, statement, statement.words[4], Unit::ohm, Range::positive);
  Pairs pairs(draft, statement);
  part.details = read_beta(draft, pairs, part.value);
  const Word* on = pairs.find("on");
  if (on != nullptr && on->text == "?") {
    note_blank(draft, statement, *on, "the heat sink");
  } else if (on != nullptr) {
    part.mounting.heatsink = heatsink_named(draft, *on);
  }
  pairs.finish();
  add_two_leads(draft, statement, std::move(part));
  draft.is_mounted.back() = on != nullptr;
  if (on != nullptr) draft.part_levels.back() = on->source->level();
}

void read_hold(Draft& draft, const Statement& statement) {
  if (!has_words(draft, statement, 5, 5, "hold NAME A B VALUE")) return;
  Part part = part_of(PartKind::hold);
  part.value = read_part_value(draft, statement, statement.words[4], Unit::volt, Range::any);
  Pairs(draft, statement).finish();
  add_two_leads(draft, statement, std::move(part));
}

void read_load(Draft& draft, const Statement& statement) {
  if (!has_words(draft, statement, 5, 5, "load NAME A B VALUE")) return;
  Part part = part_of(PartKind::load);
  part.value = read_part_value(draft, statement, statement.words[4], Unit::ohm, Range::positive);
  Pairs(draft, statement).finish();
  add_two_leads(draft, statement, std::move(part));
}

}  // namespace idlepoint::language
