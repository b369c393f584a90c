#include "solve/elimination.hpp"

#include <Eigen/OrderingMethods>
#include <Eigen/SparseCore>
#include <Eigen/SparseLU>
#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace idlepoint::solve {
namespace {

using Sparse = Eigen::SparseMatrix<double, Eigen::ColMajor, Index>;
using PivotedLu = Eigen::SparseLU<Sparse, Eigen::COLAMDOrdering<Index>>;

}  // namespace

/// The matrix with each row scaled to a largest entry of 1, so that rows of amperes and of
/// microamperes pivot alike.
struct PivotedMatrix {
  Eigen::VectorXd row_scale;
  Sparse matrix;
};

Elimination::Elimination(Index size, std::span<const std::pair<Index, Index>> entries)
    : size_(size) {
  order(entries);
  fill_in(entries);
  list_targets();
}

Elimination::Elimination(std::vector<Index> order, std::span<const std::pair<Index, Index>> entries)
    : size_(static_cast<Index>(order.size())), unknown_(std::move(order)) {
  number_positions();
  fill_in(entries);
  list_targets();
}

void Elimination::number_positions() {
  position_.resize(at(size_));
  for (Index k = 0; k < size_; ++k) position_[at(unknown_[at(k)])] = k;
}

void Elimination::order(std::span<const std::pair<Index, Index>> entries) {
  std::vector<Eigen::Triplet<double, Index>> marks;
  marks.reserve(entries.size() * 2 + at(size_));
  for (const auto& [row, column] : entries) {
    marks.emplace_back(row, column, 1.0);
    marks.emplace_back(column, row, 1.0);
  }
  for (Index k = 0; k < size_; ++k) marks.emplace_back(k, k, 1.0);
  Sparse pattern(size_, size_);
  pattern.setFromTriplets(marks.begin(), marks.end());
  Eigen::PermutationMatrix<Eigen::Dynamic, Eigen::Dynamic, Index> permutation;
  if (size_ > 0) Eigen::AMDOrdering<Index>()(pattern, permutation);
  unknown_.assign(permutation.indices().data(), permutation.indices().data() + size_);
  number_positions();
}

void Elimination::fill_in(std::span<const std::pair<Index, Index>> entries) {
  std::vector<std::set<Index>> later(at(size_));
  for (const auto& [row, column] : entries) {
    const auto [first, second] = std::minmax({position_[at(row)], position_[at(column)]});
    if (first != second) later[at(first)].insert(second);
  }
  // Eliminating k joins all that meet it; the earliest of them passes the rest on.
  for (const auto& row : later) {
    if (row.empty()) continue;
    later[at(*row.begin())].insert(std::next(row.begin()), row.end());
  }
  begin_.push_back(0);
  for (Index k = 0; k < size_; ++k) {
    diagonal_.push_back(slots_++);
    for (const Index j : later[at(k)]) {
      later_.push_back(j);
      upper_.push_back(slots_++);
      lower_.push_back(slots_++);
    }
    begin_.push_back(static_cast<Index>(later_.size()));
  }
}

void Elimination::list_targets() {
  for (Index k = 0; k < size_; ++k) {
    for (Index i = begin_[at(k)]; i < begin_[at(k + 1)]; ++i) {
      for (Index j = begin_[at(k)]; j < begin_[at(k + 1)]; ++j) {
        targets_.push_back(slot(unknown_[at(later_[at(i)])], unknown_[at(later_[at(j)])]));
      }
    }
  }
}

Index Elimination::slot(Index row, Index column) const {
  const Index i = position_[at(row)];
  const Index j = position_[at(column)];
  if (i == j) return diagonal_[at(i)];
  const Index k = std::min(i, j);
  const auto first = later_.begin() + begin_[at(k)];
  const auto last = later_.begin() + begin_[at(k + 1)];
  const auto found = std::lower_bound(first, last, std::max(i, j));
  const auto place = static_cast<std::size_t>(found - later_.begin());
  return i < j ? upper_[place] : lower_[place];
}

bool Elimination::factor(std::span<double> values) const noexcept {
  const Index* target = targets_.data();
  bool sound = true;
  for (Index k = 0; k < size_; ++k) {
    const double inverse = 1.0 / values[at(diagonal_[at(k)])];
    sound = sound && std::isfinite(inverse);
    const Index first = begin_[at(k)];
    const Index last = begin_[at(k + 1)];
    for (Index i = first; i < last; ++i) {
      const double multiplier = values[at(lower_[at(i)])] * inverse;
      values[at(lower_[at(i)])] = multiplier;
      for (Index j = first; j < last; ++j) {
        values[at(*target++)] -= multiplier * values[at(upper_[at(j)])];
      }
    }
  }
  return sound;
}

void Elimination::solve(std::span<const double> factors,
                        std::span<double> b,
                        std::span<double> scratch) const noexcept {
  for (Index k = 0; k < size_; ++k) scratch[at(k)] = b[at(unknown_[at(k)])];
  for (Index k = 0; k < size_; ++k) {
    const double known = scratch[at(k)];
    for (Index i = begin_[at(k)]; i < begin_[at(k + 1)]; ++i) {
      scratch[at(later_[at(i)])] -= factors[at(lower_[at(i)])] * known;
    }
  }
  for (Index k = size_ - 1; k >= 0; --k) {
    double sum = scratch[at(k)];
    for (Index i = begin_[at(k)]; i < begin_[at(k + 1)]; ++i) {
      sum -= factors[at(upper_[at(i)])] * scratch[at(later_[at(i)])];
    }
    scratch[at(k)] = sum / factors[at(diagonal_[at(k)])];
  }
  for (Index k = 0; k < size_; ++k) b[at(unknown_[at(k)])] = scratch[at(k)];
}

void Elimination::solve_transposed(std::span<const double> factors,
                                   std::span<double> b,
                                   std::span<double> scratch) const noexcept {
  for (Index k = 0; k < size_; ++k) scratch[at(k)] = b[at(unknown_[at(k)])];
  for (Index k = 0; k < size_; ++k) {
    const double known = scratch[at(k)] / factors[at(diagonal_[at(k)])];
    scratch[at(k)] = known;
    for (Index i = begin_[at(k)]; i < begin_[at(k + 1)]; ++i) {
      scratch[at(later_[at(i)])] -= factors[at(upper_[at(i)])] * known;
    }
  }
  for (Index k = size_ - 1; k >= 0; --k) {
    double sum = scratch[at(k)];
    for (Index i = begin_[at(k)]; i < begin_[at(k + 1)]; ++i) {
      sum -= factors[at(lower_[at(i)])] * scratch[at(later_[at(i)])];
    }
    scratch[at(k)] = sum;
  }
  for (Index k = 0; k < size_; ++k) b[at(unknown_[at(k)])] = scratch[at(k)];
}

int Elimination::determinant_sign(std::span<const double> factors) const noexcept {
  int sign = 1;
  for (const Index slot : diagonal_) {
    if (factors[at(slot)] < 0.0) sign = -sign;
  }
  return sign;
}

template <class Visit>
void Elimination::for_each_entry(std::span<const double> values, Visit visit) const {
  for (Index k = 0; k < size_; ++k) {
    const Index row = unknown_[at(k)];
    visit(row, row, values[at(diagonal_[at(k)])]);
    for (Index i = begin_[at(k)]; i < begin_[at(k + 1)]; ++i) {
      const Index other = unknown_[at(later_[at(i)])];
      visit(row, other, values[at(upper_[at(i)])]);
      visit(other, row, values[at(lower_[at(i)])]);
    }
  }
}

double Elimination::backward_error(std::span<const double> values,
                                   std::span<const double> x,
                                   std::span<const double> b,
                                   std::span<double> left,
                                   std::span<double> sum,
                                   Side side) const noexcept {
  for (std::size_t k = 0; k < at(size_); ++k) {
    left[k] = b[k];
    sum[k] = std::abs(b[k]);
  }
  for_each_entry(values, [&](Index row, Index column, double value) {
    if (side == Side::transposed) std::swap(row, column);
    const double product = value * x[at(column)];
    left[at(row)] -= product;
    sum[at(row)] += std::abs(product);
  });
  double worst = 0.0;
  for (std::size_t k = 0; k < at(size_); ++k) {
    // A row of zeros has no error; a NaN compares false and is taken for the worst.
    const double error = sum[k] == 0.0 ? 0.0 : std::abs(left[k]) / sum[k];
    if (!(error <= worst)) worst = error;
    if (std::isnan(worst)) return worst;
  }
  return worst;
}

PivotedMatrix Elimination::scaled_matrix(std::span<const double> values, Side side) const {
  PivotedMatrix scaled{Eigen::VectorXd::Zero(size_), Sparse(size_, size_)};
  for_each_entry(values, [&](Index row, Index column, double value) {
    if (side == Side::transposed) std::swap(row, column);
    scaled.row_scale[row] = std::max(scaled.row_scale[row], std::abs(value));
  });
  for (double& scale : scaled.row_scale) scale = scale > 0.0 ? 1.0 / scale : 1.0;
  std::vector<Eigen::Triplet<double, Index>> entries;
  entries.reserve(at(slots_));
  for_each_entry(values, [&](Index row, Index column, double value) {
    if (side == Side::transposed) std::swap(row, column);
    entries.emplace_back(row, column, value * scaled.row_scale[row]);
  });
  scaled.matrix.setFromTriplets(entries.begin(), entries.end());
  return scaled;
}

bool Elimination::solve_with_pivoting(std::span<const double> values,
                                      std::span<double> b,
                                      Side side) const {
  const PivotedMatrix scaled = scaled_matrix(values, side);
  PivotedLu lu;
  lu.compute(scaled.matrix);
  if (lu.info() != Eigen::Success) return false;
  Eigen::Map<Eigen::VectorXd> right(b.data(), size_);
  const Eigen::VectorXd x = lu.solve(scaled.row_scale.cwiseProduct(right));
  if (!x.allFinite()) return false;
  right = x;
  return true;
}

int Elimination::determinant_sign_with_pivoting(std::span<const double> values) const {
  PivotedLu lu;
  lu.compute(scaled_matrix(values, Side::plain).matrix);
  if (lu.info() != Eigen::Success) return 0;
  return lu.signDeterminant() < 0.0 ? -1 : 1;
}

}  // namespace idlepoint::solve
