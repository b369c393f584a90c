// The topics of a substitution in words, one function a topic.
//
// Gathered by report/swap_words; not used elsewhere. Each gives whole sentences, or nothing where
// there is nothing to say.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "answers/swap.hpp"

namespace idlepoint::report {

/// Sentences one after the other, none twice.
class Sentences {
 public:
  void add(const std::string& sentence) {
    const bool is_known = std::find(all_.begin(), all_.end(), sentence) != all_.end();
    if (!sentence.empty() && !is_known) all_.push_back(sentence);
  }

  [[nodiscard]] std::string text() const {
    std::string text;
    for (const auto& sentence : all_) text += (text.empty() ? "" : " ") + sentence;
    return text;
  }

 private:
  std::vector<std::string> all_;
};

/// What the new junctions do to the readings with the trimmers left alone, and what to do first.
[[nodiscard]] std::string idle_words(const answers::Swap& swap);

/// Where each trimmer now belongs, or what would bring it into range.
[[nodiscard]] std::string places_words(const answers::Swap& swap);

/// Gains, what the driver must give, and how little the standing current hears of it.
[[nodiscard]] std::string gain_words(const answers::Swap& swap);

/// Parallel parts of unlike types, and the half that was left behind.
[[nodiscard]] std::string sharing_words(const answers::Swap& swap);

[[nodiscard]] std::string speed_words(const answers::Swap& swap);
[[nodiscard]] std::string case_words(const answers::Swap& swap);

/// Volts at the string's current and a degree, of each stand-in.
[[nodiscard]] std::string stand_in_words(const answers::Swap& swap);

}  // namespace idlepoint::report
