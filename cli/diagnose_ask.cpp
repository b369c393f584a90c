#include "diagnose_ask.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iostream>
#include <string>
#include <utility>

#include "complaints/render.hpp"
#include "language/bench_reading_text.hpp"
#include "progress.hpp"
#include "report/diagnosis_words.hpp"
#include "report/text_diagnosis.hpp"
#include "terminal.hpp"
#include "trouble.hpp"

namespace idlepoint::cli {
namespace {

using answers::Diagnosis;
using circuit::BenchReading;

constexpr double decided = 0.95;
constexpr double worth_measuring_bits = 0.05;

bool is_decided(const Diagnosis& diagnosis) {
  return !diagnosis.ranking.empty() && diagnosis.ranking.front().probability > decided;
}

bool is_worth_measuring(const Diagnosis& diagnosis, std::size_t index) {
  return index < diagnosis.next.size() && diagnosis.next[index].bits >= worth_measuring_bits;
}

std::string trimmed(const std::string& line) {
  const std::size_t first = line.find_first_not_of(" \t\r");
  if (first == std::string::npos) return {};
  return line.substr(first, line.find_last_not_of(" \t\r") - first + 1);
}

/// Where the talk stands.
struct Talk {
  answers::Diagnosing& diagnosing;
  Diagnosis diagnosis;
  bool speaks;
  std::size_t proposed = 0;       ///< Among the next measurements.
  bool is_proposal_known = true;  ///< Its section has been shown.
};

void speak(const Talk& talk, const std::string& text) {
  if (talk.speaks) say(text);
}

void propose(Talk& talk) {
  if (!talk.is_proposal_known) {
    speak(talk, "\n" + report::next_section(talk.diagnosis, talk.proposed, page_of_terminal()));
  }
  talk.is_proposal_known = true;
  speak(talk, talk.diagnosis.next[talk.proposed].reading + " = ");
}

void weigh_again(Talk& talk, BenchReading reading) {
  talk.diagnosing.add(std::move(reading));
  Progress progress;
  talk.diagnosis =
      talk.diagnosing.answer([&](double share_done) { return progress.go_on(share_done); });
  progress.clear();
  talk.proposed = 0;
  talk.is_proposal_known = false;
  speak(talk, "\n" + report::text_after_reading(talk.diagnosis, page_of_terminal()));
}

bool is_given_already(const Diagnosis& diagnosis, const BenchReading& reading) {
  return std::any_of(
      diagnosis.readings.begin(), diagnosis.readings.end(), [&](const BenchReading& other) {
        return circuit::is_same_measurement(other.measurement, reading.measurement);
      });
}

void take(Talk& talk, const std::string& line) {
  const auto& asked = talk.diagnosis.next[talk.proposed].measurement;
  auto reading = language::read_bench_answer(line, asked, *talk.diagnosis.stage);
  if (!reading) {
    complain("\n" + complaints::render(reading.complaints()));
  } else if (is_given_already(talk.diagnosis, *reading)) {
    complain("\n" + render(Trouble{fmt::format("`{}` is given already", reading->name),
                                   "Give another measurement, or begin again without it."}));
  } else {
    weigh_again(talk, std::move(reading).value());
  }
}

std::string how_it_ended(const Talk& talk) {
  if (report::fits_nothing(talk.diagnosis)) {
    return "\nNo cause in the list fits these readings.\n";
  }
  if (is_decided(talk.diagnosis)) {
    const auto& first = talk.diagnosis.ranking.front();
    return fmt::format("\nThat decides it: {}, {}.\n",
                       report::suspect_in_words(first),
                       report::odds_in_words(first.probability));
  }
  if (!is_worth_measuring(talk.diagnosis, talk.proposed)) {
    return "\nNothing more is worth measuring.\n";
  }
  return "\nStopped here.\n";
}

}  // namespace

Diagnosis ask_on(answers::Diagnosing& diagnosing, Diagnosis diagnosis, bool speaks) {
  Talk talk{diagnosing, std::move(diagnosis), speaks};
  if (!is_decided(talk.diagnosis) && is_worth_measuring(talk.diagnosis, 0)) {
    speak(talk,
          "\nType what the meter shows, or another READING=VALUE. An empty line asks for another "
          "measurement,\n`stop` ends.\n");
  }
  std::string line;
  while (!is_decided(talk.diagnosis) && is_worth_measuring(talk.diagnosis, talk.proposed)) {
    propose(talk);
    if (!std::getline(std::cin, line)) break;
    line = trimmed(line);
    if (line == "stop") break;
    if (line.empty()) {
      ++talk.proposed;
      talk.is_proposal_known = false;
    } else {
      take(talk, line);
    }
  }
  speak(talk, how_it_ended(talk));
  const auto before = report::before_it_is_changed(talk.diagnosis);
  for (const auto& sentence : before) speak(talk, report::fold(sentence, page_of_terminal()));
  return std::move(talk.diagnosis);
}

}  // namespace idlepoint::cli
