#include "report/spread_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "report/words.hpp"

namespace idlepoint::report {
namespace {

std::string counted(double share, int of) {
  return fmt::format("{} in {}", std::lround(share * of), of);
}

std::string field_in_words(std::string field) {
  std::replace(field.begin(), field.end(), '_', ' ');
  return field;
}

}  // namespace

std::string odds_in_words(double share, std::size_t stages) {
  if (share == 0.0) return fmt::format("none of {}", stages);
  if (share == 1.0) return "every one";
  if (share > 0.995) return "more than 99 in 100";
  if (share > 0.9 || share < 0.095) {
    if (share >= 0.0095) return counted(share, 100);
    return share >= 0.00095 ? counted(share, 1000) : "fewer than 1 in 1000";
  }
  return "about " + counted(share, 10);
}

std::string fraction_in_words(double share) {
  struct Named {
    double share;
    const char* words;
  };
  static constexpr std::array names{Named{0.98, "nearly all"},
                                    Named{0.9, "nine tenths"},
                                    Named{0.8, "four fifths"},
                                    Named{0.75, "three quarters"},
                                    Named{2.0 / 3.0, "two thirds"},
                                    Named{0.6, "three fifths"},
                                    Named{0.5, "half"},
                                    Named{0.4, "two fifths"},
                                    Named{1.0 / 3.0, "a third"},
                                    Named{0.25, "a quarter"},
                                    Named{0.2, "a fifth"},
                                    Named{0.14, "a seventh"},
                                    Named{0.1, "a tenth"},
                                    Named{0.05, "a twentieth"}};
  const auto nearest =
      std::min_element(names.begin(), names.end(), [&](const auto& a, const auto& b) {
        return std::abs(a.share - share) < std::abs(b.share - share);
      });
  return nearest->words;
}

std::string parameters_in_words(const circuit::Circuit& circuit,
                                const std::vector<circuit::Parameter>& parameters) {
  const circuit::Parameter& first = parameters.front();
  if (std::holds_alternative<circuit::RailId>(first.owner)) {
    return "the volts of " + owners_of(circuit, parameters);
  }
  if (parameters.size() > 1) {
    std::vector<std::string> names;
    for (const auto& one : parameters) names.push_back(owners_of(circuit, {one}));
    return fmt::format(
        "the {} that {} have in common", field_in_words(first.field), list_in_words(names));
  }
  const circuit::Part& part = circuit.at(std::get<circuit::PartId>(first.owner));
  if (first.field != "value") return part.name + "'s " + field_in_words(first.field);
  return part.kind == circuit::PartKind::trimmer ? "the track of " + part.name : part.name;
}

}  // namespace idlepoint::report
