#include "answers/unknowns.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace idlepoint::answers {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// What a drawing or a type's data may be wrong by in both channels alike: of a part's value, and
/// of a type's field against its own spread. Common practice, no source.
constexpr double drawing_error = 0.05;
constexpr double data_error_share = 1.0;

using DrawKey = std::tuple<bool, std::size_t, std::string, std::size_t>;

DrawKey key_of(const circuit::Uncertainty& all, const circuit::Draw& draw) {
  const circuit::Parameter& parameter = all.parameters[draw.effects.front().parameter];
  const auto* rail = std::get_if<circuit::RailId>(&parameter.owner);
  const std::size_t owner =
      rail != nullptr ? rail->index : std::get<circuit::PartId>(parameter.owner).index;
  return {rail != nullptr, owner, parameter.field, draw.effects.size()};
}

struct Common {
  double shared = 0.0;
  double own = 0.0;
};

Common common_of(const circuit::Uncertainty& all, const circuit::Draw& draw) {
  const circuit::Effect& effect = draw.effects.front();
  const circuit::Parameter& parameter = all.parameters[effect.parameter];
  if (std::holds_alternative<circuit::RailId>(parameter.owner)) return {deviation_of_draw, 0.0};
  if (parameter.field == "value") return {drawing_error / effect.half_width, deviation_of_draw};
  return {data_error_share * deviation_of_draw, deviation_of_draw};
}

/// Channel and draw.
using Places = std::map<DrawKey, std::vector<std::pair<std::size_t, std::size_t>>>;

Places places_of(const std::vector<const BenchStage*>& channels) {
  Places places;
  for (std::size_t c = 0; c < channels.size(); ++c) {
    const circuit::Uncertainty& all = channels[c]->uncertainty();
    for (std::size_t k = 0; k < all.draws.size(); ++k) {
      places[key_of(all, all.draws[k])].emplace_back(c, k);
    }
  }
  return places;
}

}  // namespace

Unknowns::Unknowns(const BenchStage& suspect, const BenchStage* sound) {
  std::vector<const BenchStage*> channels = {&suspect};
  if (sound != nullptr) channels.push_back(sound);
  const Places places = sound != nullptr ? places_of(channels) : Places{};
  for (std::size_t c = 0; c < channels.size(); ++c) {
    const circuit::Uncertainty& all = channels[c]->uncertainty();
    draws_.emplace_back(all.draws.size());
    for (std::size_t k = 0; k < all.draws.size(); ++k) {
      if (sound == nullptr) {
        draws_[c][k].push_back({count_++, deviation_of_draw});
        continue;
      }
      const auto& same = places.at(key_of(all, all.draws[k]));
      const bool is_shared =
          same.size() == channels.size() && same.front().first != same.back().first;
      const Common common =
          is_shared ? common_of(all, all.draws[k]) : Common{0.0, deviation_of_draw};
      if (common.own > 0.0) draws_[c][k].push_back({count_++, common.own});
      if (!is_shared) continue;
      if (c == 0) {
        draws_[c][k].push_back({count_++, common.shared});
      } else {
        const auto [first, index] = same.front();
        draws_[c][k].push_back({draws_[first][index].back().unknown, common.shared});
      }
    }
    sizes_.emplace_back();
    for (std::size_t s = 0; s < channels[c]->sizes(); ++s) sizes_[c].push_back(count_++);
  }
}

void Unknowns::place(std::size_t channel,
                     const VectorXd& unknowns,
                     std::vector<double>& u,
                     std::vector<double>& t) const {
  u.assign(draws_[channel].size(), 0.0);
  for (std::size_t k = 0; k < u.size(); ++k) {
    for (const Term& term : draws_[channel][k]) u[k] += term.factor * unknowns[term.unknown];
  }
  t.clear();
  for (const Index size : sizes_[channel]) {
    t.push_back(std::clamp(deviation_of_draw * unknowns[size], -1.0, 1.0));
  }
}

MatrixXd Unknowns::by_unknown(std::size_t channel,
                              const std::vector<std::vector<double>>& by_draw) const {
  const std::size_t draws = draws_[channel].size();
  MatrixXd slopes = MatrixXd::Zero(static_cast<Index>(by_draw.size()), count_);
  for (std::size_t row = 0; row < by_draw.size(); ++row) {
    for (std::size_t k = 0; k < draws; ++k) {
      for (const Term& term : draws_[channel][k]) {
        slopes(static_cast<Index>(row), term.unknown) += term.factor * by_draw[row][k];
      }
    }
    for (std::size_t s = 0; s < sizes_[channel].size(); ++s) {
      slopes(static_cast<Index>(row), sizes_[channel][s]) +=
          deviation_of_draw * by_draw[row][draws + s];
    }
  }
  return slopes;
}

}  // namespace idlepoint::answers
