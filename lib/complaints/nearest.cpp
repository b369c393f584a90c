#include "complaints/nearest.hpp"

#include <algorithm>
#include <cstddef>
#include <vector>

namespace idlepoint::complaints {
namespace {

constexpr std::size_t longest_compared = 64;  // Bytes; longer names are not searched for.

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

bool differ_in_case_alone(std::string_view a, std::string_view b) {
  return a.size() == b.size() && std::equal(a.begin(), a.end(), b.begin(), [](char x, char y) {
           return lower(x) == lower(y);
         });
}

// Letters to insert, drop, replace or exchange with their neighbour to make `b` of `a`.
// Three rows of the usual table: an exchange looks two rows back.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before_last(b.size() + 1);
  std::vector<std::size_t> last(b.size() + 1);
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::swap(before_last, last);
    std::swap(last, row);
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replaced = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, replaced});
      const bool exchanged = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (exchanged) row[j] = std::min(row[j], before_last[j - 2] + 1);
    }
  }
  return row[b.size()];
}

std::size_t size_difference(std::string_view a, std::string_view b) {
  return a.size() > b.size() ? a.size() - b.size() : b.size() - a.size();
}

}  // namespace

std::optional<std::string> nearest_name(std::string_view written,
                                        std::span<const std::string> known) {
  if (written.empty() || written.size() > longest_compared) return std::nullopt;
  const std::string* nearest = nullptr;
  const std::size_t allowed = written.size() <= 2 ? 1 : 2;
  std::size_t least = allowed + 1;
  for (const std::string& name : known) {
    if (differ_in_case_alone(written, name)) return name;
    if (name.size() > longest_compared || size_difference(written, name) >= least) continue;
    const std::size_t distance = edit_distance(written, name);
    // A name of one or two letters is near to almost everything.
    if (name.size() <= 2 && distance > 1) continue;
    if (distance < least && distance < std::max(written.size(), name.size())) {
      least = distance;
      nearest = &name;
    }
  }
  if (nearest == nullptr) return std::nullopt;
  return *nearest;
}

}  // namespace idlepoint::complaints
