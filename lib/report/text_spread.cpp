#include "report/text_spread.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <vector>

#include "report/figures.hpp"
#include "report/spread_table.hpp"
#include "report/spread_words.hpp"
#include "report/trimmer_words.hpp"
#include "report/words.hpp"

namespace idlepoint::report {
namespace {

using answers::Drawn;
using answers::Shares;
using answers::Spread;
using answers::SpreadOfPosition;
using answers::SpreadOfReading;

constexpr std::size_t most_named = 3;
constexpr double least_named = 0.05;
constexpr std::size_t few_stages = 1000;

bool is_warm(const Spread& answer) { return answer.conditions.heat == solve::HeatState::warm; }

double share_of(std::size_t count, std::size_t all) {
  return all == 0 ? 0.0 : static_cast<double>(count) / static_cast<double>(all);
}

std::string what_was_drawn(const Spread& answer, const Page& page) {
  std::string text = fmt::format(
      "{} stages of this drawing, every part of each its own within tolerance, {}, trimmers as "
      "they stand.",
      answer.as_it_stands.done,
      is_warm(answer) ? "warmed through" : "just switched on");
  if (answer.when_set) text += " Then each with its trimmers set.";
  if (answer.interrupted) {
    text += fmt::format(" Stopped early: {} were asked for.", answer.samples);
  }
  if (answer.draws == 0) {
    text += " But nothing in this file has a tolerance or a spread, so all are alike.";
  } else if (answer.as_it_stands.done < few_stages) {
    text += " So few fix the ends only roughly.";
  }
  return fold(text, page);
}

std::string with_capital(std::string sentence) {
  sentence.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(sentence.front())));
  return sentence;
}

std::string losses(const Drawn& drawn, bool warm, const std::string& where) {
  std::string text;
  const auto add = [&](std::size_t count, const std::string& what) {
    if (count == 0) return;
    const std::string odds = odds_in_words(share_of(count, drawn.done), drawn.done);
    text += with_capital(fmt::format("{} stages with such parts {} {}. ", odds, what, where));
  };
  add(drawn.failed - drawn.too_hot,
      warm ? "find no rest as they warm up: they would run away" : "find no state");
  add(drawn.too_hot, "come to rest with a junction too hot");
  return text;
}

std::string losses_section(const Spread& answer, const Page& page) {
  std::string text = losses(answer.as_it_stands, is_warm(answer), "at this setting");
  if (answer.when_set) text += losses(*answer.when_set, is_warm(answer), "once set");
  return text.empty() ? "" : fold(text + "The figures leave them out.", page);
}

std::string limit_line(const Spread& answer, const SpreadOfReading& reading) {
  const auto& limit = *reading.nominal.limit;
  const auto unit = reading.nominal.unit;
  std::string line =
      fmt::format("`{}`, {} to {}: {} stages fall outside",
                  reading.nominal.name,
                  as_written(answers::in_own_unit(limit.low, unit), unit),
                  as_written(answers::in_own_unit(limit.high, unit), unit),
                  odds_in_words(*reading.as_it_stands.outside_limit, answer.as_it_stands.done));
  if (reading.when_set && reading.when_set->outside_limit) {
    line += fmt::format("; once set, {}",
                        odds_in_words(*reading.when_set->outside_limit, answer.when_set->done));
  }
  return line + ".";
}

std::string limits_section(const Spread& answer, const Page& page) {
  std::string text;
  for (const SpreadOfReading& reading : answer.readings) {
    if (reading.as_it_stands.outside_limit) text += fold(limit_line(answer, reading), page, 2, 4);
  }
  if (text.empty()) return {};
  if (answer.when_set) text += fold("That is what the trimmers are for.", page, 2, 4);
  return "Your limits, with no part at fault:\n" + text;
}

// The few largest; `moves` says of each what 1 % more does.
std::string whose(const circuit::Circuit& circuit, const Shares& shares, auto&& moves) {
  std::vector<std::string> named;
  for (const answers::Share& one : shares.parts) {
    if (named.size() == most_named || one.share < least_named) break;
    named.push_back(fraction_in_words(one.share) + (named.empty() ? " is " : " ") +
                    parameters_in_words(circuit, one.parameters) + moves(one.per_percent));
  }
  return named.empty() ? "many parts have a little each" : list_in_words(named);
}

std::string whose(const circuit::Circuit& circuit, const Shares& shares) {
  return whose(circuit, shares, [](double) { return ""; });
}

/// Readings that the same parts spread, in the same measure.
using AlikeReadings = std::vector<const SpreadOfReading*>;

std::vector<AlikeReadings> alike_readings(const Spread& answer) {
  std::vector<AlikeReadings> groups;
  for (const SpreadOfReading& reading : answer.readings) {
    if (reading.shares.parts.empty()) continue;
    const std::string parts = whose(*answer.stage, reading.shares);
    const auto group = std::find_if(groups.begin(), groups.end(), [&](const AlikeReadings& other) {
      return whose(*answer.stage, other.front()->shares) == parts;
    });
    if (group == groups.end()) {
      groups.push_back({&reading});
    } else {
      group->push_back(&reading);
    }
  }
  return groups;
}

std::string whose_line(const circuit::Circuit& circuit, const AlikeReadings& alike) {
  const SpreadOfReading& first = *alike.front();
  std::vector<std::string> names;
  for (const auto* reading : alike) names.push_back("`" + reading->nominal.name + "`");
  const std::string it = names.size() == 1 ? "it" : names.front();
  return fmt::format(
      "{}: {}.", list_in_words(names), whose(circuit, first.shares, [&](double moves) {
        return fmt::format(" (1 % more moves {} {})", it, step(moves, first.nominal.unit));
      }));
}

// Small steps do not add up to what was sampled, or more to one side than to the other.
bool bends(const SpreadOfReading& reading) {
  constexpr double noticeable = 0.25;
  if (!reading.as_it_stands.values) return false;
  if (reading.nominal.with_parts_out == answers::WithPartsOut::reads_nothing) return false;
  const auto& values = *reading.as_it_stands.values;
  const double lopsided = values.p97_5 + values.p2_5 - 2.0 * reading.nominal.value;
  return std::abs(values.deviation - reading.shares.deviation) > noticeable * values.deviation ||
         std::abs(lopsided) > noticeable * (values.p97_5 - values.p2_5);
}

std::string shares_remark(const Spread& answer, const Page& page) {
  std::vector<std::string> bent;
  for (const SpreadOfReading& reading : answer.readings) {
    if (bends(reading)) bent.push_back("`" + reading.nominal.name + "`");
  }
  if (bent.empty()) return {};
  return fold(fmt::format("Shares are those of small differences; {} bend{} under the large ones, "
                          "so take theirs as a guide.",
                          list_in_words(bent),
                          bent.size() == 1 ? "s" : ""),
              page);
}

std::string shares_section(const Spread& answer, const Page& page) {
  std::string text;
  for (const AlikeReadings& alike : alike_readings(answer)) {
    text += fold(whose_line(*answer.stage, alike), page, 2, 4);
  }
  if (text.empty()) return {};
  if (text.find("saturation current") != std::string::npos) {
    text += fold(
        "1 % more saturation current is a quarter of a millivolt less from base to emitter.", page);
  }
  return "Whose it is:\n" + text + shares_remark(answer, page);
}

std::string position_line(const Spread& answer, const SpreadOfPosition& position) {
  const auto& circuit = *answer.stage;
  const auto& trimmer = circuit.at(position.trimmer);
  std::string text = fmt::format("{}, for `{}`: {} with nominal parts",
                                 trimmer.name,
                                 circuit.at(position.reading).name,
                                 percent(position.nominal_travel));
  if (position.travel) {
    text += fmt::format(
        "; 19 stages in 20 will set {}",
        places_between(circuit, trimmer, position.travel->p2_5, position.travel->p97_5));
  }
  text += ".";
  if (!position.shares.parts.empty()) {
    text += fmt::format(" Of that, {}.", whose(circuit, position.shares));
  }
  if (position.reached < 1.0) {
    const std::string odds = odds_in_words(1.0 - position.reached, answer.when_set->done);
    text += " " + with_capital(odds + " cannot be set: the track ends.");
  }
  return text;
}

std::string positions_section(const Spread& answer, const Page& page) {
  if (answer.why_not_set) return fold("No trimmer positions. " + *answer.why_not_set, page);
  std::string text;
  for (const SpreadOfPosition& position : answer.positions) {
    text += fold(position_line(answer, position), page, 2, 4);
  }
  return text.empty() ? "" : "Where the trimmers finish:\n" + text;
}

std::string how_drawn(const Spread& answer, const Page& page) {
  return fold(
      fmt::format("Drawn evenly within every tolerance, a type's spread evenly by ratio from its "
                  "least to its most, matched parts together; `--seed {}` draws the same again.",
                  answer.seed),
      page);
}

}  // namespace

std::string text_of(const Spread& answer, const Page& page) {
  const auto& circuit = *answer.stage;
  std::string text = opening(circuit, answer.conditions, answer.changes, page);
  text += trimmers_line(circuit, page) + what_was_drawn(answer, page);
  const std::string table = spread_table(answer);
  const auto add = [&](const std::string& section) {
    if (!section.empty()) text += "\n" + section;
  };
  add(table.empty() ? fold("The file names no reading, so there is nothing to tell.", page)
                    : table);
  add(losses_section(answer, page));
  add(limits_section(answer, page));
  add(shares_section(answer, page));
  add(positions_section(answer, page));
  add(warnings_list(answer.warnings, page));
  add(how_drawn(answer, page));
  text += taken_as_given(circuit, answer.conditions, page);
  return text + standing_caution(circuit, page);
}

}  // namespace idlepoint::report
