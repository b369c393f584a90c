#include "benchmarks/klu_matrix.hpp"

#include <klu.h>

#include <utility>

namespace idlepoint::benchmarks {

struct KluMatrix::Memory {
  klu_common common{};
  klu_symbolic* symbolic = nullptr;
  klu_numeric* numeric = nullptr;
  std::vector<double> values;

  ~Memory() {
    klu_free_numeric(&numeric, &common);
    klu_free_symbolic(&symbolic, &common);
  }
};

KluMatrix::KluMatrix(Pattern pattern, Pivots pivots)
    : pattern_(std::move(pattern)), pivots_(pivots), memory_(std::make_unique<Memory>()) {
  klu_defaults(&memory_->common);
  memory_->values.resize(pattern_.slot.size());
  memory_->symbolic = klu_analyze(static_cast<int>(pattern_.unknowns()),
                                  pattern_.column_begin.data(),
                                  pattern_.row.data(),
                                  &memory_->common);
}

KluMatrix::~KluMatrix() = default;

bool KluMatrix::solve(std::span<const double> slopes, std::span<double> b) {
  Memory& m = *memory_;
  for (std::size_t k = 0; k < m.values.size(); ++k) {
    m.values[k] = slopes[static_cast<std::size_t>(pattern_.slot[k])];
  }
  int* columns = pattern_.column_begin.data();
  int* rows = pattern_.row.data();
  if (pivots_ == Pivots::kept && m.numeric != nullptr) {
    if (klu_refactor(columns, rows, m.values.data(), m.symbolic, m.numeric, &m.common) == 0) {
      return false;
    }
  } else {
    klu_free_numeric(&m.numeric, &m.common);
    m.numeric = klu_factor(columns, rows, m.values.data(), m.symbolic, &m.common);
    if (m.numeric == nullptr) return false;
  }
  const int size = static_cast<int>(pattern_.unknowns());
  return klu_solve(m.symbolic, m.numeric, size, 1, b.data(), &m.common) != 0;
}

}  // namespace idlepoint::benchmarks
