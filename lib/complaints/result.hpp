// A value, or the complaints that say why there is none.
#pragma once

#include <cassert>
#include <utility>
#include <variant>

#include "complaints/complaint.hpp"

namespace idlepoint::complaints {

/// Holds either a T or at least one complaint. Warnings that go along with a T travel in T.
template <class T>
class Result {
 public:
  Result(T value) : content_(std::move(value)) {}
  Result(Complaints complaints) : content_(std::move(complaints)) {
    assert(!std::get<Complaints>(content_).empty());
  }
  Result(Complaint complaint) : content_(Complaints{std::move(complaint)}) {}

  [[nodiscard]] bool has_value() const noexcept { return std::holds_alternative<T>(content_); }
  explicit operator bool() const noexcept { return has_value(); }

  /// Requires `has_value()`.
  [[nodiscard]] const T& value() const& {
    assert(has_value());
    return std::get<T>(content_);
  }
  [[nodiscard]] T&& value() && {
    assert(has_value());
    return std::get<T>(std::move(content_));
  }
  const T& operator*() const& { return value(); }
  T&& operator*() && { return std::move(*this).value(); }
  const T* operator->() const { return &value(); }

  /// Requires `!has_value()`.
  [[nodiscard]] const Complaints& complaints() const {
    assert(!has_value());
    return std::get<Complaints>(content_);
  }

 private:
  std::variant<T, Complaints> content_;
};

}  // namespace idlepoint::complaints
