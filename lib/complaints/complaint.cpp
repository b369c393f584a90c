#include "complaints/complaint.hpp"

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <utility>

namespace idlepoint::complaints {
namespace {

// Two complaints that say the same of the same places are one.
std::string fingerprint(const Complaint& complaint) {
  std::string print = std::to_string(complaint.kind.index) + '\n' + complaint.headline;
  for (const Place& place : complaint.places) {
    print += '\n' + place.file + ':' + std::to_string(place.line) + ':' +
             std::to_string(place.column) + ':' + place.remark;
  }
  return print;
}

}  // namespace

void sort_by_place(Complaints& complaints) {
  std::unordered_map<std::string_view, std::size_t> order_of_file;
  for (const Complaint& complaint : complaints) {
    order_of_file.try_emplace(complaint.places.front().file, order_of_file.size());
  }
  struct Key {
    std::size_t file;
    int line;
    int column;
    std::size_t index;
    auto operator<=>(const Key&) const = default;
  };
  std::vector<Key> keys;
  keys.reserve(complaints.size());
  for (std::size_t index = 0; index < complaints.size(); ++index) {
    const Place& place = complaints[index].places.front();
    keys.push_back({order_of_file.at(place.file), place.line, place.column, index});
  }
  std::sort(keys.begin(), keys.end());

  Complaints sorted;
  sorted.reserve(complaints.size());
  std::unordered_set<std::string> said;
  for (const Key& key : keys) {
    Complaint& complaint = complaints[key.index];
    if (said.insert(fingerprint(complaint)).second) sorted.push_back(std::move(complaint));
  }
  complaints = std::move(sorted);
}

bool has_error(const Complaints& complaints) noexcept {
  return std::any_of(complaints.begin(), complaints.end(), [](const Complaint& complaint) {
    return facts(complaint.kind).gravity != Gravity::warning;
  });
}

bool has_unreadable(const Complaints& complaints) noexcept {
  return std::any_of(complaints.begin(), complaints.end(), [](const Complaint& complaint) {
    return facts(complaint.kind).gravity == Gravity::unreadable;
  });
}

}  // namespace idlepoint::complaints
