#include "language/quick_fields.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

namespace idlepoint::language {
namespace {

using circuit::PartType;
using devices::BipolarData;
using devices::DiodeData;
using devices::FetData;
using values::Unit;

// One quick field: how it is written, and the number that it stands for.
struct Quick {
  const Statement& statement;
  std::string_view key;     // "vbe"
  std::string_view at_key;  // "vbe_at"; empty for idss
  std::string_view field;   // "saturation_current"
  Unit unit = Unit::volt;
  Range range = Range::positive;
  std::function<std::optional<double>(double reading, double at)> convert;
};

void complain_of_no_solution(Draft& draft, const Word& word, std::string_view key) {
  complain(draft,
           "quick-field",
           word,
           "no " + std::string(key == "vgs" ? "threshold" : "current") + " gives " +
               quote(std::string(key) + "=" + word.text),
           "The type's resistances alone would drop more, or the figures do not fit together.",
           "Look at the reading, its current and the resistances of this type once more.");
}

// The number that one of vbe=, vbe.min=, vbe.max= stands for.
std::optional<double> convert(Draft& draft, const Quick& quick, const Word& word, double at) {
  const auto reading =
      read_number(draft, quick.statement, word, quote(quick.key), quick.unit, quick.range);
  if (!reading) return std::nullopt;
  const auto value = quick.convert(*reading, at);
  if (!value || !std::isfinite(*value)) {
    complain_of_no_solution(draft, word, quick.key);
    return std::nullopt;
  }
  return value;
}

void read_spread(
    Draft& draft, Pairs& pairs, PartType& type, const Quick& quick, double nominal, double at) {
  std::optional<double> ends[2];
  bool written = false;
  const Word* first = nullptr;
  for (std::size_t end = 0; end < 2; ++end) {
    const Word* word = pairs.find(std::string(quick.key) + (end == 0 ? ".min" : ".max"));
    if (word == nullptr) continue;
    written = true;
    if (first == nullptr) first = word;
    ends[end] = convert(draft, quick, *word, at);
  }
  if (!written) return;
  if (type.spreads.contains(std::string(quick.field))) {
    complain(draft,
             "two-sources",
             *first,
             "the spread of this type is given twice",
             quote(std::string(quick.key)) + " and " + quote(std::string(quick.field)) +
                 " say the same thing.",
             "Give one of the two.");
    return;
  }
  // A higher base-emitter voltage is a smaller saturation current.
  if (ends[0] && ends[1] && *ends[0] > *ends[1]) std::swap(ends[0], ends[1]);
  if (!ends[0] != !ends[1]) {
    const double only = ends[0] ? *ends[0] : *ends[1];
    ends[0] = only <= nominal ? std::optional(only) : std::nullopt;
    ends[1] = only <= nominal ? std::nullopt : std::optional(only);
  }
  const bool outside = (ends[0] && *ends[0] > nominal) || (ends[1] && *ends[1] < nominal);
  if (outside) {
    complain(draft,
             "nominal-outside",
             *first,
             quote(std::string(quick.key)) + " lies outside its own spread",
             "",
             "The plain figure belongs between `.min` and `.max`.");
  }
  type.spreads[std::string(quick.field)] = {ends[0], ends[1]};
}

// Reads one quick field; nothing where it is not written.
std::optional<double> read_quick(Draft& draft, Pairs& pairs, PartType& type, const Quick& quick) {
  const Word* word = pairs.find(quick.key);
  const Word* at_word = quick.at_key.empty() ? nullptr : pairs.find(quick.at_key);
  std::optional<double> at;
  if (at_word != nullptr) at = pairs.number(quick.at_key, Unit::ampere, Range::positive);
  const std::string key(quick.key);
  const Word* min = pairs.find(key + ".min");
  const Word* max = pairs.find(key + ".max");
  if (word == nullptr) {
    const Word* alone = at_word != nullptr ? at_word : min != nullptr ? min : max;
    if (alone != nullptr) {
      complain(draft,
               "quick-field",
               *alone,
               quote(key + "=") + " is missing beside this",
               "",
               "Write the reading itself too, such as " + quote(key + "=...") + ".");
    }
    return std::nullopt;
  }
  if (!quick.at_key.empty() && at_word == nullptr) {
    complain(draft,
             "quick-field",
             *word,
             quote(key + "=") + " does not say at which current",
             "A junction's voltage says something only together with its current.",
             "Write " + quote(std::string(quick.at_key) + "=...") + " beside it.");
    return std::nullopt;
  }
  if (!quick.at_key.empty() && !at) return std::nullopt;
  const auto value = convert(draft, quick, *word, at.value_or(0.0));
  if (value) read_spread(draft, pairs, type, quick, *value, at.value_or(0.0));
  return value;
}

// Puts the quick number in the place of the plain one, or asks for either.
void set_from(Draft& draft,
              const Statement& statement,
              Pairs& pairs,
              PartType& type,
              const Quick& quick,
              bool has_plain,
              double& target) {
  const Word* word = pairs.find(quick.key);
  const auto value = read_quick(draft, pairs, type, quick);
  if (value && !has_plain) target = *value;
  if (word != nullptr && has_plain) {
    complain(draft,
             "two-sources",
             *word,
             quote(std::string(quick.key) + "=") + " and " + quote(std::string(quick.field) + "=") +
                 " say the same thing",
             "",
             "Give one of the two.");
  }
  if (word == nullptr && !has_plain) {
    const std::string at =
        quick.at_key.empty() ? std::string() : " with `" + std::string(quick.at_key) + "=`";
    complain(draft,
             "missing-key",
             {place_of(statement.words[2])},
             "type " + quote(type.name) + " lacks its " + quote(std::string(quick.field) + "="),
             "",
             "Write it, or " + quote(std::string(quick.key) + "=") + at +
                 ", one reading of a "
                 "tester.");
  }
}

std::optional<double> if_positive(double value) {
  return value > 0.0 ? std::optional(value) : std::nullopt;
}

}  // namespace

void read_quick_fields(Draft& draft,
                       const Statement& statement,
                       Pairs& pairs,
                       PartType& type,
                       const QuickFields& found) {
  if (auto* diode = std::get_if<DiodeData>(&type.law)) {
    const Quick vf{
        statement,
        "vf",
        "vf_at",
        "saturation_current",
        Unit::volt,
        Range::positive,
        [diode](double volts, double amperes) {
          return if_positive(devices::saturation_current_from_vf(*diode, volts, amperes));
        }};
    set_from(draft,
             statement,
             pairs,
             type,
             vf,
             found.has_saturation_current,
             diode->saturation_current_a);
  } else if (auto* bipolar = std::get_if<BipolarData>(&type.law)) {
    const Quick vbe{statement,
                    "vbe",
                    "vbe_at",
                    "saturation_current",
                    Unit::volt,
                    Range::positive,
                    [bipolar](double volts, double amperes) {
                      return devices::saturation_current_from_vbe(*bipolar, volts, amperes);
                    }};
    set_from(draft,
             statement,
             pairs,
             type,
             vbe,
             found.has_saturation_current,
             bipolar->saturation_current_a);
  } else if (auto* fet = std::get_if<FetData>(&type.law); fet->is_junction) {
    const Quick idss{
        statement,
        "idss",
        "",
        "current_factor",
        Unit::ampere,
        Range::positive,
        [fet](double amperes, double) {
          return if_positive(devices::current_factor_from_idss(amperes, fet->threshold_voltage_v));
        }};
    set_from(draft,
             statement,
             pairs,
             type,
             idss,
             found.has_current_factor,
             fet->current_factor_a_per_v2);
  } else {
    const Quick vgs{statement,
                    "vgs",
                    "vgs_at",
                    "threshold_voltage",
                    Unit::volt,
                    Range::any,
                    [fet](double volts, double amperes) {
                      return devices::threshold_from_vgs(*fet, volts, amperes);
                    }};
    set_from(draft, statement, pairs, type, vgs, found.has_threshold, fet->threshold_voltage_v);
  }
}

}  // namespace idlepoint::language
