#include "report/text_diagnosis.hpp"

#include <fmt/format.h>

#include "report/diagnosis_words.hpp"
#include "report/measure_words.hpp"
#include "report/words.hpp"

namespace idlepoint::report {
namespace {

using answers::Diagnosis;
using answers::Suspect;

std::string readings_in_words(const std::vector<circuit::BenchReading>& readings) {
  std::vector<std::string> texts;
  for (const auto& reading : readings) texts.push_back(reading_in_words(reading));
  return fmt::format("{}", fmt::join(texts, ", "));
}

std::string what_was_read(const Diagnosis& diagnosis,
                          const std::vector<std::string>& taken,
                          const Page& page) {
  std::string text;
  for (const auto& sentence : taken) text += fold(sentence, page);
  text += diagnosis.readings.empty()
              ? "You have read nothing yet.\n"
              : fold("You read: " + readings_in_words(diagnosis.readings) + ".", page);
  if (!diagnosis.sound_channel.empty()) {
    text += fold("On the channel that works: " + readings_in_words(diagnosis.sound_channel) +
                     ". What the two have in common cancels: rails, type data, drawing, meter.",
                 page);
  }
  std::vector<std::string> good;
  for (const auto part : diagnosis.good) good.push_back(diagnosis.stage->at(part).name);
  if (!good.empty()) {
    text += fold("Tested out of circuit and good: " + list_in_words(good) + ".", page);
  }
  return text;
}

std::string nothing_fits(const Diagnosis& diagnosis) {
  std::vector<std::string> nearest;
  for (const auto& suspect : diagnosis.ranking) {
    if (suspect.kind == Suspect::Kind::fault && nearest.size() < 2) {
      nearest.push_back(suspect.fault);
    }
  }
  std::string text = diagnosis.pairs_tried ? "No cause in the list fits, nor two of them together"
                                           : "No cause in the list fits";
  if (!nearest.empty()) {
    text += nearest.size() == 1 ? "; the nearest is " : "; the nearest two are ";
    text += list_in_words(nearest);
  }
  return text +
         ". Look for oscillation before you change parts, and compare the board with the drawing.";
}

std::string verdict(const Diagnosis& diagnosis, const Page& page) {
  std::string text = diagnosis.readings.empty() ? "" : fold(sound_in_words(diagnosis), page);
  if (fits_nothing(diagnosis)) text += fold(nothing_fits(diagnosis), page);
  if (!fits_nothing(diagnosis) && diagnosis.pairs_tried) {
    text += fold("No single fault explains them all: two at a time were tried.", page);
  }
  return text + "\n" + suspects_list(diagnosis, page);
}

std::string sentences(const std::vector<std::string>& list, const Page& page) {
  std::string text;
  for (const auto& sentence : list) text += fold(sentence, page, 2, 4);
  return text;
}

std::string section(const std::string& heading,
                    const std::vector<std::string>& list,
                    const Page& page) {
  return list.empty() ? "" : "\n" + heading + "\n" + sentences(list, page);
}

std::string measure_section(const Diagnosis& diagnosis, const Page& page) {
  constexpr double decided = 0.95;
  if (diagnosis.next.empty()) {
    const bool is_decided = !fits_nothing(diagnosis) && !diagnosis.ranking.empty() &&
                            diagnosis.ranking.front().probability >= decided;
    return "\n" + fold(is_decided ? "That decides it; no further measurement would tell more."
                                  : "No point that a probe reaches safely would tell more.",
                       page);
  }
  std::string text = "\n" + next_section(diagnosis, 0, page);
  for (std::size_t index = 1; index < diagnosis.next.size(); ++index) {
    text += fold(other_next(diagnosis, index), page, 0, 2);
  }
  return text;
}

std::string what_it_rests_on(const Diagnosis& diagnosis) {
  std::string text = fmt::format(
      "{} faults were tried. The odds rest on your readings, the parts' tolerances, the meter's "
      "error, and on how often each kind of fault is met (common practice, no source).",
      diagnosis.tried);
  if (!diagnosis.assumed.empty()) {
    text +=
        fmt::format(" Spreads assumed, as none is given: {}.", fmt::join(diagnosis.assumed, ", "));
  }
  return text;
}

std::string cautions(const Diagnosis& diagnosis, const Page& page) {
  return fold(
             "Power on: loudspeakers off, one hand, one probe at a time. Power off means the plug "
             "out, and the reservoirs discharged and measured, also behind a blown fuse. For those "
             "who are qualified for it; local rules come first.",
             page) +
         standing_caution(*diagnosis.stage, page);
}

}  // namespace

std::string text_of(const Diagnosis& diagnosis,
                    const solve::Conditions& conditions,
                    const std::vector<std::string>& taken,
                    const Page& page) {
  std::string text = opening(*diagnosis.stage, conditions, diagnosis.changes, page);
  text += trimmers_line(*diagnosis.stage, page);
  text += "\n" + what_was_read(diagnosis, taken, page) + verdict(diagnosis, page);
  const std::string ruled_out = ruled_out_in_words(diagnosis);
  if (!ruled_out.empty()) text += fold(ruled_out, page);
  text += section("These readings contradict each other", contradictions(diagnosis), page);
  text += measure_section(diagnosis, page);
  text += section("If it comes and goes", intermittents(diagnosis), page);
  const auto before = before_it_is_changed(diagnosis);
  if (!before.empty()) text += "\n";
  for (const auto& sentence : before) text += fold(sentence, page);
  const std::string warnings = warnings_list(diagnosis.warnings, page);
  if (!warnings.empty()) text += "\n" + warnings;
  text += "\n" + fold(what_it_rests_on(diagnosis), page);
  text += taken_as_given(*diagnosis.stage, conditions, page);
  return text + cautions(diagnosis, page);
}

std::string text_after_reading(const Diagnosis& diagnosis, const Page& page) {
  std::string text = fold("Understood: " + reading_in_words(diagnosis.readings.back()) + ".", page);
  if (fits_nothing(diagnosis)) text += fold(nothing_fits(diagnosis), page);
  text += suspects_list(diagnosis, page);
  return text + sentences(contradictions(diagnosis), page);
}

}  // namespace idlepoint::report
