#include "solve/ideal_currents.hpp"

#include <Eigen/SparseCholesky>
#include <optional>

namespace idlepoint::solve {
namespace {

using Sparse = Eigen::SparseMatrix<double>;

}  // namespace

/// One row a point that is not its group's root: the k-th offset step's point.
struct IdealCurrents::Laplacian {
  std::vector<std::optional<Eigen::Index>> row_of;  ///< [points]; none for roots.
  std::vector<Index> point_of;                      ///< [rows]
  Eigen::SimplicialLDLT<Sparse> factors;

  [[nodiscard]] double entry(const Eigen::VectorXd& x, Index point) const {
    return row_of[at(point)] ? x[*row_of[at(point)]] : 0.0;
  }
};

IdealCurrents::IdealCurrents(const System& system)
    : system_(system), laplacian_(std::make_unique<Laplacian>()) {
  laplacian_->row_of.resize(at(system.wiring.points));
  for (const OffsetStep& step : system.offsets) {
    laplacian_->row_of[at(step.point)] = static_cast<Eigen::Index>(laplacian_->point_of.size());
    laplacian_->point_of.push_back(step.point);
  }
  const auto size = static_cast<Eigen::Index>(laplacian_->point_of.size());
  std::vector<Eigen::Triplet<double>> entries;
  for (const TwoPole& branch : system.wiring.ideals) {
    if (branch.a == branch.b) continue;
    const auto a = laplacian_->row_of[at(branch.a)];
    const auto b = laplacian_->row_of[at(branch.b)];
    if (a) entries.emplace_back(*a, *a, 1.0);
    if (b) entries.emplace_back(*b, *b, 1.0);
    if (!a || !b) continue;
    entries.emplace_back(*a, *b, -1.0);
    entries.emplace_back(*b, *a, -1.0);
  }
  Sparse matrix(size, size);
  matrix.setFromTriplets(entries.begin(), entries.end());
  if (size > 0) laplacian_->factors.compute(matrix);
}

IdealCurrents::~IdealCurrents() = default;

std::vector<double> IdealCurrents::currents(std::span<const double> leaving_a) const {
  std::vector<double> result(system_.wiring.ideals.size(), 0.0);
  const auto size = static_cast<Eigen::Index>(laplacian_->point_of.size());
  if (size == 0) return result;
  Eigen::VectorXd right(size);
  for (Eigen::Index k = 0; k < size; ++k) {
    right[k] = -leaving_a[at(laplacian_->point_of[static_cast<std::size_t>(k)])];
  }
  const Eigen::VectorXd potential = laplacian_->factors.solve(right);
  for (std::size_t k = 0; k < result.size(); ++k) {
    const TwoPole& branch = system_.wiring.ideals[k];
    result[k] = laplacian_->entry(potential, branch.a) - laplacian_->entry(potential, branch.b);
  }
  return result;
}

std::vector<double> IdealCurrents::weights(std::size_t ideal) const {
  std::vector<double> result(at(system_.wiring.points), 0.0);
  const TwoPole& branch = system_.wiring.ideals[ideal];
  const auto size = static_cast<Eigen::Index>(laplacian_->point_of.size());
  if (size == 0 || branch.a == branch.b) return result;
  Eigen::VectorXd right = Eigen::VectorXd::Zero(size);
  if (const auto a = laplacian_->row_of[at(branch.a)]) right[*a] -= 1.0;
  if (const auto b = laplacian_->row_of[at(branch.b)]) right[*b] += 1.0;
  const Eigen::VectorXd weight = laplacian_->factors.solve(right);
  for (Eigen::Index k = 0; k < size; ++k) {
    result[at(laplacian_->point_of[static_cast<std::size_t>(k)])] = weight[k];
  }
  return result;
}

}  // namespace idlepoint::solve
