#include "capacitor_figures.hpp"

#include <fmt/format.h>

#include <array>

#include "values/quantity.hpp"

namespace idlepoint::cli {
namespace {

using values::Unit;

struct Key {
  const char* name;
  Unit unit;
  bool may_be_zero;
};

constexpr auto keys = std::to_array<Key>({{"capacitance", Unit::farad, false},
                                          {"esr", Unit::ohm, true},
                                          {"frequency", Unit::hertz, false},
                                          {"leakage", Unit::ampere, true},
                                          {"at", Unit::volt, false},
                                          {"value", Unit::farad, false},
                                          {"voltage", Unit::volt, false}});

using Values = std::array<std::optional<double>, keys.size()>;

Trouble unknown_key(const std::string& word, const std::string& name) {
  std::vector<std::string> names;
  for (const Key& key : keys) names.emplace_back(key.name);
  return unknown_word(
      fmt::format("`{}` is nothing that is known of a capacitor", word), name, "Write", names);
}

std::optional<Trouble> read_pair(const std::string& word, Values& values) {
  const std::size_t equals = word.find('=');
  const std::string name = word.substr(0, equals);
  for (std::size_t k = 0; k < keys.size(); ++k) {
    if (name != keys[k].name) continue;
    if (values[k]) return Trouble{fmt::format("`{}=` is written twice", name), "Write it once."};
    const auto read = values::read_value(word.substr(equals + 1), keys[k].unit);
    if (const auto* problem = std::get_if<values::ValueProblem>(&read)) {
      return Trouble{fmt::format("{}: {}", word, problem->headline), problem->instead};
    }
    const double value = std::get<double>(read);
    if (value < 0.0 || (value == 0.0 && !keys[k].may_be_zero)) {
      return Trouble{fmt::format("`{}` cannot be", word), "It is more than nothing."};
    }
    values[k] = value;
    return std::nullopt;
  }
  return unknown_key(word, name);
}

std::optional<Trouble> halves(const answers::CapacitorFigures& figures) {
  if (figures.esr_ohm && !figures.frequency_hz) {
    return Trouble{
        "the ESR stands without its frequency",
        "Write at which the meter reads it: `frequency=100kHz` on most ESR meters, 120Hz "
        "or 1kHz on others."};
  }
  if (figures.frequency_hz && !figures.esr_ohm) {
    return Trouble{"a frequency stands without an ESR", "Write `esr=0R31` beside it."};
  }
  if (figures.leakage_a && !figures.leakage_at_v) {
    return Trouble{"the leakage stands without its volts",
                   "Write at which it was read, such as `at=16V`."};
  }
  if (figures.leakage_at_v && !figures.leakage_a) {
    return Trouble{"`at=` stands without a leakage", "Write `leakage=4uA` beside it."};
  }
  return std::nullopt;
}

}  // namespace

Tried<CapacitorWords> read_capacitor_words(const std::vector<std::string>& words) {
  CapacitorWords read;
  Values values;
  for (const std::string& word : words) {
    if (word.find('=') == std::string::npos) {
      read.names.push_back(word);
    } else if (auto trouble = read_pair(word, values)) {
      return *trouble;
    }
  }
  auto& figures = read.figures;
  figures.capacitance_f = values[0];
  figures.esr_ohm = values[1];
  figures.frequency_hz = values[2];
  figures.leakage_a = values[3];
  figures.leakage_at_v = values[4];
  figures.value_f = values[5].value_or(0.0);
  figures.rated_v = values[6];
  read.has_figures = figures.capacitance_f || figures.esr_ohm || figures.leakage_a;
  if (auto trouble = halves(figures)) return *trouble;
  return read;
}

}  // namespace idlepoint::cli
