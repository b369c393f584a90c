#include "answers/movements.hpp"

#include <algorithm>
#include <cmath>

namespace idlepoint::answers {
namespace {

using circuit::Firmness;

/// Of a reading that is told to move so.
constexpr double contact_jumps = 0.5;  ///< A contact that moves this reading.
constexpr double anything_jumps = 0.02;
constexpr double unlisted_jumps = 0.2;  ///< Oscillation is in no list.
constexpr double warmth_drifts = 0.5;   ///< What grows with warmth, the way it moves the reading.
constexpr double against_warmth = 0.03;
constexpr double anything_drifts = 0.1;

/// A reading is moved where it differs by so much of its size and by so many of the meter's
/// deviations.
constexpr double moved_share = 0.2;
constexpr double moved_deviations = 5.0;

enum class Moved { no, away_from_zero, towards_zero };

Moved moved_by(const Evidence& evidence, std::size_t reading, double sound, double faulty) {
  const double least =
      std::max(moved_deviations *
                   meter_deviation((*evidence.stage)->meter, evidence.measurements[reading], sound),
               moved_share * std::max(std::abs(sound), std::abs(faulty)));
  if (std::abs(faulty - sound) < least) return Moved::no;
  return std::abs(faulty) > std::abs(sound) ? Moved::away_from_zero : Moved::towards_zero;
}

double chance(Firmness firmness, AnswersTo answers, Moved moved) {
  if (firmness == Firmness::jumps) {
    return answers == AnswersTo::tapping && moved != Moved::no ? contact_jumps : anything_jumps;
  }
  if (answers != AnswersTo::warmth || moved == Moved::no) return anything_drifts;
  const bool is_up = moved == Moved::away_from_zero;
  return is_up == (firmness == Firmness::drifts_up) ? warmth_drifts : against_warmth;
}

bool is_movement(Firmness firmness) {
  return firmness == Firmness::jumps || firmness == Firmness::drifts_up ||
         firmness == Firmness::drifts_down;
}

}  // namespace

double log_chance_of_movement(const circuit::BenchReading& reading) {
  if (!is_movement(reading.firmness)) return 0.0;
  return std::log(reading.firmness == Firmness::jumps ? unlisted_jumps : anything_drifts);
}

void weigh_movements(const DiagnoseAsked& asked,
                     const Evidence& evidence,
                     std::vector<Explanation>& list) {
  const bool any = std::any_of(asked.readings.begin(), asked.readings.end(), [](const auto& one) {
    return is_movement(one.firmness);
  });
  if (!any || list.empty()) return;
  Explanation sound{{}, 0.0};
  explain(sound, evidence, -1e300);
  if (!sound.fit) return;
  const auto before = before_the_readings(sound, evidence);
  if (!before) return;
  for (Explanation& one : list) {
    if (!one.fit) continue;
    AnswersTo answers = AnswersTo::nothing;
    for (const SuspectedFault& fault : one.faults) {
      if (answers == AnswersTo::nothing) answers = answers_to(fault.kind);
    }
    for (std::size_t k = 0; k < asked.readings.size(); ++k) {
      const Firmness firmness = asked.readings[k].firmness;
      if (!is_movement(firmness)) continue;
      const Moved moved = moved_by(evidence, k, before->mean[k], one.fit->shown[k]);
      one.fit->log_evidence += std::log(chance(firmness, answers, moved));
    }
  }
}

}  // namespace idlepoint::answers
