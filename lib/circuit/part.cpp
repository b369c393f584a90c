// A part's leads, by index and in words.

#include "circuit/part.hpp"

#include <array>
#include <string_view>

namespace idlepoint::circuit {
namespace {

constexpr std::array<std::string_view, 2> plain_words = {"first-named end", "other end"};
constexpr std::array<std::string_view, 2> feed_words = {"end it takes from", "end it feeds into"};
constexpr std::array<std::string_view, 3> trimmer_words = {"first-named end", "wiper", "other end"};
constexpr std::array<std::string_view, 3> bipolar_words = {"collector", "base", "emitter"};
constexpr std::array<std::string_view, 3> fet_words = {"drain", "gate", "source"};

}  // namespace

std::optional<NodeId> lead(const Part& part, std::size_t index) noexcept {
  return index < part.leads.size() ? part.leads[index] : std::nullopt;
}

std::string lead_in_words(PartKind kind, std::size_t index) {
  if (kind == PartKind::trimmer) return std::string(trimmer_words.at(index));
  if (kind == PartKind::diode) return std::string(lead_names(kind)[index]);
  if (is_bipolar(kind)) return std::string(bipolar_words.at(index));
  if (is_fet(kind)) return std::string(fet_words.at(index));
  if (kind == PartKind::feed) return std::string(feed_words.at(index));
  return std::string(plain_words.at(index));
}

}  // namespace idlepoint::circuit
