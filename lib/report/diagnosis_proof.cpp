// How a suspect shows itself: what makes it come and go, and how to prove it before it is changed.
#include <fmt/format.h>

#include <algorithm>

#include "report/diagnosis_words.hpp"
#include "report/measure_words.hpp"
#include "report/words.hpp"

namespace idlepoint::report {
namespace {

using answers::Diagnosis;
using answers::Suspect;

constexpr double stands_out_from = 0.5;

std::string swing_in_words(const Diagnosis& diagnosis, const answers::SuspectSwing& swing) {
  const auto& reading = diagnosis.readings[swing.reading];
  return fmt::format("`{}` goes from {} to {}",
                     reading.name,
                     shown_in_words(reading.measurement, swing.from),
                     shown_in_words(reading.measurement, swing.to));
}

// What moves, and how far; empty where nothing that was read does.
std::string swings_of(const Diagnosis& diagnosis, const Suspect& suspect) {
  constexpr std::size_t most = 2;
  std::vector<std::string> moves;
  for (const auto& swing : suspect.swings) {
    if (moves.size() < most) moves.push_back(swing_in_words(diagnosis, swing));
  }
  return moves.empty() ? "" : list_in_words(moves);
}

/// Suspects that answer to the same, and move the same readings.
struct Moving {
  answers::AnswersTo answers_to;
  std::string moves;
  std::vector<std::string> suspects;
};

std::vector<Moving> moving_suspects(const Diagnosis& diagnosis) {
  std::vector<Moving> list;
  for (const auto& suspect : diagnosis.ranking) {
    const bool listed = suspect.probability >= worth_a_line;
    const std::string moves = swings_of(diagnosis, suspect);
    if (!listed || suspect.answers_to == answers::AnswersTo::nothing || moves.empty()) continue;
    const auto same = std::find_if(list.begin(), list.end(), [&](const Moving& moving) {
      return moving.answers_to == suspect.answers_to && moving.moves == moves;
    });
    if (same == list.end()) {
      list.push_back({suspect.answers_to, moves, {suspect.fault}});
    } else {
      same->suspects.push_back(suspect.fault);
    }
  }
  return list;
}

/// Whose part a suspect is about, for how to prove it.
struct Proof {
  const circuit::Circuit& circuit;

  std::string operator()(const circuit::Bridge& edit) const {
    return fmt::format("look for solder between {} and {} through a glass, power off",
                       circuit::node_in_words(circuit, edit.a),
                       circuit::node_in_words(circuit, edit.b));
  }
  std::string operator()(const circuit::LoseRail& edit) const {
    return fmt::format("follow {} back through its fuse, its link and its rectifier",
                       circuit::node_in_words(circuit, circuit.at(edit.rail).node));
  }
  std::string operator()(const circuit::SetType& edit) const {
    return fmt::format("read what is printed on {}", circuit.at(edit.part).name);
  }
  std::string operator()(const auto& edit) const { return of_part(circuit.at(edit.part)); }

  [[nodiscard]] static std::string of_part(const circuit::Part& part) {
    using circuit::PartKind;
    if (circuit::is_transistor(part.kind)) {
      return fmt::format(
          "reheat the joints of {}, then take it out and test every pair of its legs, both ways "
          "round",
          part.name);
    }
    if (part.kind == PartKind::diode) {
      return fmt::format("lift one leg of {}; diode range, both ways round", part.name);
    }
    if (part.kind == PartKind::trimmer) {
      return fmt::format("lift {} and turn it end to end with the ohms range on the wiper: no jump",
                         part.name);
    }
    if (part.kind == PartKind::capacitor) {
      return fmt::format("lift one leg of {} and read its leakage at its working volts", part.name);
    }
    return fmt::format("lift one leg of {} and read its ohms", part.name);
  }
};

}  // namespace

std::vector<std::string> intermittents(const Diagnosis& diagnosis) {
  constexpr std::size_t most = 3;
  std::vector<std::string> sentences;
  for (const Moving& moving : moving_suspects(diagnosis)) {
    if (sentences.size() == most) break;
    const std::string names = list_in_words(moving.suspects);
    sentences.push_back(
        moving.answers_to == answers::AnswersTo::tapping
            ? fmt::format(
                  "{}: tap with an insulated rod; as the contact is made {}.", names, moving.moves)
            : fmt::format("{}: a short puff of freezer spray on that part alone; as it cools {}, "
                          "and warmth brings it back.",
                          names,
                          moving.moves));
  }
  return sentences;
}

std::vector<std::string> before_it_is_changed(const Diagnosis& diagnosis) {
  if (diagnosis.ranking.empty()) return {};
  const Suspect& first = diagnosis.ranking.front();
  if (first.kind != Suspect::Kind::fault || first.probability < stands_out_from ||
      first.edits.empty()) {
    return {};
  }
  std::vector<std::string> proofs;
  std::string command = "idlepoint fault " + diagnosis.stage->file;
  for (const auto& edit : first.edits) {
    proofs.push_back(std::visit(Proof{*diagnosis.stage}, edit));
    command += " \"" + circuit::write_fault(*diagnosis.stage, edit) + "\"";
  }
  return {fmt::format("Before you change anything: {}.", fmt::join(proofs, "; ")),
          "What it did to the others, and what to replace even if it tests good: " + command};
}

}  // namespace idlepoint::report
