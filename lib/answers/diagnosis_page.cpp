#include "answers/diagnosis_page.hpp"

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <cmath>
#include <utility>

#include "answers/next_measurement.hpp"
#include "answers/told_apart.hpp"

namespace idlepoint::answers {
namespace {

constexpr std::size_t most_weighed = 12;  ///< Groups between which the next measurement decides.
constexpr std::size_t most_next = 3;
constexpr double least_bits = 0.02;
constexpr double unexplained_off = 3.0;
constexpr double contradicting_off = 4.0;
constexpr std::size_t most_ruled_out = 3;
constexpr double ruled_out_off = 4.0;
constexpr double safe_to_probe_v = 100.0;

bool is_figure(const Observed& reading) { return reading.deviation < without_figure().deviation; }

std::string text_of(const circuit::Circuit& circuit, const std::vector<circuit::Edit>& edits) {
  if (edits.empty()) return "healthy";
  std::string text;
  for (const circuit::Edit& edit : edits) {
    text += (text.empty() ? "" : " and ") + circuit::write_fault(circuit, edit);
  }
  return text;
}

Expected expected(const circuit::Measurement& measurement, double mean, double deviation) {
  constexpr double coverage = 2.0;
  const ReadOff middle = read_off(measurement, mean);
  const ReadOff low = read_off(measurement, mean - coverage * deviation);
  const ReadOff high = read_off(measurement, mean + coverage * deviation);
  return {middle.value, low.value, high.value, middle.beyond_range};
}

class Page {
 public:
  Page(const DiagnoseAsked& asked,
       const Evidence& evidence,
       const std::vector<const Explanation*>& all,
       double none_log_posterior)
      : asked_(asked),
        evidence_(evidence),
        all_(all),
        page_{asked.sound.stage, asked.readings, asked.sound_channel, asked.good},
        apart_(tell_apart(asked, evidence, all, none_log_posterior)) {}

  Diagnosis run() {
    page_.changes = asked_.sound.changes;
    page_.warnings = standing_warnings(asked_.sound);
    judge_sound();
    rank();
    rule_out();
    find_contradictions();
    choose_next();
    return std::move(page_);
  }

 private:
  void judge_sound() {
    sound_.log_prior = 0.0;
    explain(sound_, evidence_, -1e300);
    if (!sound_.fit) return;
    sound_before_ = before_the_readings(sound_, evidence_);
    const auto figures =
        std::count_if(evidence_.readings.begin(), evidence_.readings.end(), is_figure);
    page_.healthy_chi_square = sound_.fit->chi_square;
    if (figures == 0) {
      page_.healthy_chance = 1.0;
      return;
    }
    const boost::math::chi_squared spread(static_cast<double>(figures));
    page_.healthy_chance =
        boost::math::cdf(boost::math::complement(spread, std::max(0.0, sound_.fit->chi_square)));
  }

  void rank() {
    for (const Group& one : apart_.groups) page_.ranking.push_back(suspect(one));
    Suspect none;
    none.kind = Suspect::Kind::none_of_these;
    none.fault = "none of these";
    none.probability = apart_.none_share + apart_.left_share;  // None of those that are named.
    const bool has_sound =
        std::any_of(page_.ranking.begin(), page_.ranking.end(), [](const Suspect& one) {
          return one.kind == Suspect::Kind::healthy;
        });
    if (!has_sound) page_.ranking.push_back(sound_suspect());
    page_.ranking.push_back(std::move(none));
    double total = 0.0;
    for (const Suspect& one : page_.ranking) total += one.probability;
    for (Suspect& one : page_.ranking) one.probability /= total;
    std::stable_sort(page_.ranking.begin(), page_.ranking.end(), [](const auto& a, const auto& b) {
      return a.probability > b.probability;
    });
  }

  Suspect sound_suspect() {
    Suspect suspect;
    suspect.kind = Suspect::Kind::healthy;
    suspect.fault = "healthy";
    suspect.chi_square = page_.healthy_chi_square;
    if (sound_.fit) add_readings(sound_, suspect);
    return suspect;
  }

  void add_readings(const Explanation& one, Suspect& suspect) {
    for (std::size_t k = 0; k < one.fit->off.size(); ++k) {
      if (std::abs(one.fit->off[k]) > unexplained_off) suspect.unexplained.push_back(k);
    }
    const auto before = before_the_readings(one, evidence_);
    if (!before) return;
    for (std::size_t k = 0; k < before->mean.size(); ++k) {
      suspect.expected.push_back(
          expected(evidence_.measurements[k], before->mean[k], before->deviation[k]));
    }
  }

  Suspect suspect(const Group& group) {
    const circuit::Circuit& circuit = *asked_.sound.stage;
    const Explanation& face = *apart_.contenders[group.members.front()].explanation;
    Suspect suspect;
    suspect.kind = face.faults.empty() ? Suspect::Kind::healthy : Suspect::Kind::fault;
    suspect.edits = face.edits();
    suspect.fault = text_of(circuit, suspect.edits);
    suspect.probability = group.share;
    suspect.chi_square = face.fit->chi_square;
    for (const std::size_t k : group.members) {
      const Explanation& one = *apart_.contenders[k].explanation;
      if (&one != &face) suspect.equivalent.push_back(text_of(circuit, one.edits()));
      if (one.faults.size() != 1) continue;
      for (const circuit::Edit& same : one.faults.front().same) {
        suspect.equivalent.push_back(circuit::write_fault(circuit, same));
      }
    }
    for (const SuspectedFault& fault : face.faults) {
      if (suspect.answers_to == AnswersTo::nothing) suspect.answers_to = answers_to(fault.kind);
    }
    add_readings(face, suspect);
    if (suspect.answers_to != AnswersTo::nothing) add_swings(face, suspect);
    return suspect;
  }

  void add_swings(const Explanation& face, Suspect& suspect) {
    if (!sound_before_) return;
    std::vector<std::pair<double, SuspectSwing>> swings;
    for (std::size_t k = 0; k < face.fit->off.size(); ++k) {
      const double from = face.fit->shown[k];
      const double to = sound_before_->mean[k];
      const double by = std::abs(from - to) / std::max(sound_before_->deviation[k], 1e-12);
      if (by < contradicting_off) continue;
      const auto& measurement = evidence_.measurements[k];
      swings.emplace_back(
          by, SuspectSwing{k, read_off(measurement, from).value, read_off(measurement, to).value});
    }
    std::stable_sort(swings.begin(), swings.end(), [](const auto& a, const auto& b) {
      return a.first > b.first;
    });
    for (auto& [by, swing] : swings) suspect.swings.push_back(swing);
  }

  /// The likeliest before the readings among those that are out: told with the reading that speaks
  /// loudest against each.
  void rule_out() {
    std::vector<const Explanation*> out;
    for (const Explanation* one : all_) {
      const bool is_in = std::any_of(apart_.contenders.begin(),
                                     apart_.contenders.end(),
                                     [&](const auto& kept) { return kept.explanation == one; });
      if (!is_in && one->faults.size() == 1 && !one->faults[0].size && one->faulty) {
        out.push_back(one);
      }
    }
    std::stable_sort(out.begin(), out.end(), [](const auto* a, const auto* b) {
      return a->log_prior > b->log_prior;
    });
    for (const Explanation* one : out) {
      if (page_.ruled_out.size() >= most_ruled_out) break;
      add_ruled_out(*one);
    }
  }

  void add_ruled_out(const Explanation& one) {
    Explanation plain{one.faults, one.log_prior, one.faulty};
    plain.fit.emplace();
    const auto before = before_the_readings(plain, evidence_);
    if (!before) return;
    std::optional<RuledOut> told;
    double loudest = ruled_out_off;
    for (std::size_t k = 0; k < before->mean.size(); ++k) {
      if (!is_figure(evidence_.readings[k])) continue;
      const double off = std::abs(evidence_.readings[k].value - before->mean[k]) /
                         std::hypot(before->deviation[k], evidence_.readings[k].deviation);
      if (off < loudest) continue;
      loudest = off;
      told = RuledOut{text_of(*asked_.sound.stage, one.edits()),
                      k,
                      expected(evidence_.measurements[k], before->mean[k], before->deviation[k])};
    }
    if (told) page_.ruled_out.push_back(std::move(*told));
  }

  /// A reading without which some suspect explains all the others.
  void find_contradictions() {
    if (apart_.none_share < 0.5) return;
    const auto figures = static_cast<double>(
        std::count_if(evidence_.readings.begin(), evidence_.readings.end(), is_figure));
    if (figures < 3.0) return;
    const double enough = figures - 1.0 + 3.0 * std::sqrt(2.0 * (figures - 1.0));
    for (std::size_t k = 0; k < evidence_.readings.size(); ++k) {
      if (!is_figure(evidence_.readings[k])) continue;
      const bool is_odd = std::any_of(all_.begin(), all_.end(), [&](const Explanation* one) {
        if (!one->fit || one->faults.size() > 1) return false;
        const double off = one->fit->off[k];
        return std::abs(off) > contradicting_off && one->fit->chi_square - off * off < enough;
      });
      if (is_odd) page_.contradicted.push_back(k);
    }
  }

  /// Nobody is sent to switch on while there is something to learn with the power off.
  [[nodiscard]] bool stays_off() const {
    return !asked_.readings.empty() &&
           std::all_of(asked_.readings.begin(), asked_.readings.end(), [&](const auto& one) {
             return circuit::is_power_off(one.measurement);
           });
  }

  void choose_next() {
    std::vector<Foretold> foretold;
    std::vector<double> shares;
    std::vector<std::size_t> faces;
    for (const Group& one : apart_.groups) {
      const auto& first = apart_.contenders[one.members.front()];
      if (!first.foretold || foretold.size() >= most_weighed) continue;
      foretold.push_back(*first.foretold);
      shares.push_back(one.share);
      faces.push_back(one.members.front());
    }
    if (foretold.size() < 2) return;
    const std::vector<double> bits = expected_bits(foretold, shares);
    std::vector<std::size_t> order;
    for (std::size_t k = 0; k < bits.size(); ++k) {
      if (bits[k] > least_bits && is_safe(k, foretold)) order.push_back(k);
    }
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      if (stays_off() && circuit::is_power_off(apart_.measurements[a]) !=
                             circuit::is_power_off(apart_.measurements[b])) {
        return circuit::is_power_off(apart_.measurements[a]);
      }
      return bits[a] > bits[b];
    });
    order.resize(std::min(order.size(), most_next));
    for (const std::size_t k : order) add_next(k, bits[k], foretold, faces);
  }

  [[nodiscard]] bool is_safe(std::size_t k, const std::vector<Foretold>& foretold) const {
    if (circuit::is_power_off(apart_.measurements[k])) return true;
    return std::all_of(foretold.begin(), foretold.end(), [&](const Foretold& one) {
      return std::abs(one.mean[k]) < safe_to_probe_v;
    });
  }

  void add_next(std::size_t k,
                double bits,
                const std::vector<Foretold>& foretold,
                const std::vector<std::size_t>& faces) {
    NextMeasurement next{apart_.measurements[k],
                         circuit::write_measurement(*asked_.sound.stage, apart_.measurements[k]),
                         bits};
    for (std::size_t h = 0; h < foretold.size(); ++h) {
      const std::string name =
          text_of(*asked_.sound.stage, apart_.contenders[faces[h]].explanation->edits());
      const auto there = std::find_if(
          page_.ranking.begin(), page_.ranking.end(), [&](auto& one) { return one.fault == name; });
      if (there == page_.ranking.end()) continue;
      next.under.push_back(
          {static_cast<std::size_t>(there - page_.ranking.begin()),
           expected(apart_.measurements[k], foretold[h].mean[k], foretold[h].deviation[k])});
    }
    page_.next.push_back(std::move(next));
  }

  const DiagnoseAsked& asked_;
  const Evidence& evidence_;
  const std::vector<const Explanation*>& all_;
  Diagnosis page_;
  ToldApart apart_;
  Explanation sound_;
  std::optional<Before> sound_before_;
};

}  // namespace

Diagnosis make_page(const DiagnoseAsked& asked,
                    const Evidence& evidence,
                    const std::vector<const Explanation*>& all,
                    double none_log_posterior) {
  return Page(asked, evidence, all, none_log_posterior).run();
}

}  // namespace idlepoint::answers
