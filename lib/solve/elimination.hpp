// Sparse LU with everything but the arithmetic done beforehand.
//
// The pattern of a stage's equations never changes while its numbers do, so the order, the fill and
// the list of multiply-adds are worked out once; a factorisation then only walks the list. The
// pattern is symmetric and the pivots are the diagonal (conductance matrices want nothing else);
// the caller checks each solve's backward error and turns to `solve_with_pivoting` where it is
// poor. Used by solve/newton. Order: approximate minimum degree, Eigen's.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <utility>
#include <vector>

namespace idlepoint::solve {

using Index = std::int32_t;

/// An index of no less than zero, as the standard library counts.
[[nodiscard]] constexpr std::size_t at(Index index) noexcept {
  return static_cast<std::size_t>(index);
}

struct PivotedMatrix;

/// Which of the two systems a solve is of: A x = b, or A^T x = b with the same factors.
enum class Side { plain, transposed };

/// Arrays of "values" are in slots: one slot an entry of L + U, fill included, then one more that
/// takes what would fall on ground's row or column and is never read.
class Elimination {
 public:
  Elimination() = default;

  /// `entries` are (row, column) pairs of the matrix, in any order, repeated or not; their mirror
  /// images and the diagonal are added.
  Elimination(Index size, std::span<const std::pair<Index, Index>> entries);

  /// As above, in an elimination order of the caller's.
  Elimination(std::vector<Index> order, std::span<const std::pair<Index, Index>> entries);

  /// The lists that a factorisation and its solves walk; for solvers that walk them over several
  /// lanes. Valid as long as this is.
  struct Steps {
    std::span<const Index> unknown;   ///< [size] the unknown in each place.
    std::span<const Index> diagonal;  ///< [size] slot of the k-th pivot.
    std::span<const Index> begin;     ///< [size + 1] into `later`, `upper`, `lower`.
    std::span<const Index> later;
    std::span<const Index> upper;
    std::span<const Index> lower;
    std::span<const Index> targets;
  };
  [[nodiscard]] Steps steps() const noexcept {
    return {unknown_, diagonal_, begin_, later_, upper_, lower_, targets_};
  }

  [[nodiscard]] Index size() const noexcept { return size_; }
  /// Length of a value array, the spare slot included.
  [[nodiscard]] Index slots() const noexcept { return slots_ + 1; }
  [[nodiscard]] Index spare_slot() const noexcept { return slots_; }
  /// The slot of (row, column), which must be in the pattern. For compiling; logarithmic.
  [[nodiscard]] Index slot(Index row, Index column) const;
  [[nodiscard]] Index diagonal_slot(Index row) const {
    return diagonal_[static_cast<std::size_t>(position_[static_cast<std::size_t>(row)])];
  }
  /// Multiply-adds of one factorisation.
  [[nodiscard]] std::size_t operations() const noexcept { return targets_.size(); }

  /// Overwrites the matrix in `values` by its factors. False where a pivot is zero or not finite.
  [[nodiscard]] bool factor(std::span<double> values) const noexcept;

  /// Solves A x = b in place with factors. `scratch` has `size()` elements, as `b`.
  void solve(std::span<const double> factors,
             std::span<double> b,
             std::span<double> scratch) const noexcept;

  /// As `solve`, for A^T x = b.
  void solve_transposed(std::span<const double> factors,
                        std::span<double> b,
                        std::span<double> scratch) const noexcept;

  /// Sign of the determinant from factors: 1 or -1.
  [[nodiscard]] int determinant_sign(std::span<const double> factors) const noexcept;

  /// The largest over the rows of |b - A x| / (|A| |x| + |b|), from the unfactored values
  /// [OettliPrager1964]. `left` and `sum` are scratch of `size()` elements.
  [[nodiscard]] double backward_error(std::span<const double> values,
                                      std::span<const double> x,
                                      std::span<const double> b,
                                      std::span<double> left,
                                      std::span<double> sum,
                                      Side side = Side::plain) const noexcept;

  /// Solves with partial pivoting, from the unfactored values: slower, for matrices that the fixed
  /// order does not suit. False where the matrix is singular to working precision.
  [[nodiscard]] bool solve_with_pivoting(std::span<const double> values,
                                         std::span<double> b,
                                         Side side = Side::plain) const;

  /// As `determinant_sign`, by a pivoted factorisation; 0 where singular.
  [[nodiscard]] int determinant_sign_with_pivoting(std::span<const double> values) const;

 private:
  void order(std::span<const std::pair<Index, Index>> entries);
  void number_positions();
  void fill_in(std::span<const std::pair<Index, Index>> entries);
  void list_targets();
  /// Calls `visit(row, column, value)` for every entry of the pattern.
  template <class Visit>
  void for_each_entry(std::span<const double> values, Visit visit) const;
  [[nodiscard]] PivotedMatrix scaled_matrix(std::span<const double> values, Side side) const;

  Index size_ = 0;
  Index slots_ = 0;
  std::vector<Index> position_;  ///< [size] place of an unknown in the elimination order.
  std::vector<Index> unknown_;   ///< [size] the inverse.
  std::vector<Index> diagonal_;  ///< [size] slot of the k-th pivot.
  std::vector<Index> begin_;     ///< [size + 1] into `later_`.
  std::vector<Index> later_;     ///< Positions after k that meet k, ascending.
  std::vector<Index> upper_;     ///< Slot of (k, later), beside `later_`.
  std::vector<Index> lower_;     ///< Slot of (later, k), beside `later_`.
  std::vector<Index> targets_;   ///< Slot of (later_i, later_j) for each k, i, j in order.
};

}  // namespace idlepoint::solve
