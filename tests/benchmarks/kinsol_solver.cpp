#include "benchmarks/kinsol_solver.hpp"

#include <kinsol/kinsol.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunlinsol/sunlinsol_klu.h>
#include <sunmatrix/sunmatrix_dense.h>
#include <sunmatrix/sunmatrix_sparse.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace idlepoint::benchmarks {
namespace {

std::span<double> values(N_Vector vector) {
  return {N_VGetArrayPointer(vector), static_cast<std::size_t>(N_VGetLength(vector))};
}

Equations& equations_of(void* user_data) { return *static_cast<Equations*>(user_data); }

int balances(N_Vector x, N_Vector balance, void* user_data) {
  Equations& equations = equations_of(user_data);
  equations.evaluate(values(x));
  const auto from = equations.balance();
  std::copy_n(from.begin(), values(balance).size(), values(balance).begin());
  // Out of range for good: a line search would halve its step at NaNs for ever.
  return std::all_of(from.begin(), from.end(), [](double a) { return std::isfinite(a); }) ? 0 : -1;
}

// KINSOL asks for the slopes where it last asked for the balances, so they are there already.
int sparse_slopes(N_Vector, N_Vector, SUNMatrix matrix, void* user_data, N_Vector, N_Vector) {
  Equations& equations = equations_of(user_data);
  const Pattern& pattern = equations.pattern();
  std::copy(pattern.column_begin.begin(), pattern.column_begin.end(), SM_INDEXPTRS_S(matrix));
  std::copy(pattern.row.begin(), pattern.row.end(), SM_INDEXVALS_S(matrix));
  double* data = SM_DATA_S(matrix);
  for (std::size_t k = 0; k < pattern.slot.size(); ++k) {
    data[k] = equations.slopes()[static_cast<std::size_t>(pattern.slot[k])];
  }
  return 0;
}

int dense_slopes(N_Vector, N_Vector, SUNMatrix matrix, void* user_data, N_Vector, N_Vector) {
  Equations& equations = equations_of(user_data);
  const Pattern& pattern = equations.pattern();
  for (std::size_t column = 0; column < pattern.unknowns(); ++column) {
    const auto begin = static_cast<std::size_t>(pattern.column_begin[column]);
    const auto end = static_cast<std::size_t>(pattern.column_begin[column + 1]);
    for (std::size_t k = begin; k < end; ++k) {
      SM_ELEMENT_D(matrix, pattern.row[k], static_cast<solve::Index>(column)) =
          equations.slopes()[static_cast<std::size_t>(pattern.slot[k])];
    }
  }
  return 0;
}

void say_nothing(int, const char*, const char*, char*, void*) {}

}  // namespace

struct KinsolSolver::Memory {
  SUNContext context = nullptr;
  N_Vector x = nullptr;
  N_Vector x_scale = nullptr;
  N_Vector balance_scale = nullptr;
  SUNMatrix matrix = nullptr;
  SUNLinearSolver linear = nullptr;
  void* kinsol = nullptr;
  std::vector<double> final_scale;

  ~Memory() {
    KINFree(&kinsol);
    SUNLinSolFree(linear);
    SUNMatDestroy(matrix);
    for (N_Vector vector : {x, x_scale, balance_scale}) N_VDestroy(vector);
    SUNContext_Free(&context);
  }
};

KinsolSolver::KinsolSolver(Equations& equations,
                           const KinsolSettings& settings,
                           std::span<const double> tolerances_a)
    : equations_(equations), settings_(settings), memory_(std::make_unique<Memory>()) {
  Memory& m = *memory_;
  const auto size = static_cast<sunindextype>(tolerances_a.size());
  SUNContext_Create(nullptr, &m.context);
  m.x = N_VNew_Serial(size, m.context);
  m.x_scale = N_VNew_Serial(size, m.context);
  m.balance_scale = N_VNew_Serial(size, m.context);
  N_VConst(1.0, m.x_scale);
  for (const double tolerance_a : tolerances_a) m.final_scale.push_back(1.0 / tolerance_a);
  m.kinsol = KINCreate(m.context);
  KINInit(m.kinsol, balances, m.x);
  KINSetUserData(m.kinsol, &equations_);
  const bool is_dense = settings.matrix == Matrix::dense;
  if (is_dense) {
    m.matrix = SUNDenseMatrix(size, size, m.context);
    m.linear = SUNLinSol_Dense(m.x, m.matrix, m.context);
  } else {
    const auto entries = static_cast<sunindextype>(equations.pattern().row.size());
    m.matrix = SUNSparseMatrix(size, size, entries, CSC_MAT, m.context);
    m.linear = SUNLinSol_KLU(m.x, m.matrix, m.context);
  }
  KINSetLinearSolver(m.kinsol, m.linear, m.matrix);
  KINSetJacFn(m.kinsol, is_dense ? dense_slopes : sparse_slopes);
  KINSetErrHandlerFn(m.kinsol, say_nothing, nullptr);
  KINSetFuncNormTol(m.kinsol, 1.0);
  KINSetScaledStepTol(m.kinsol, 1e-15);
  KINSetMaxNewtonStep(m.kinsol, 1e5);
  KINSetNumMaxIters(m.kinsol, 200);
  KINSetMaxSetupCalls(m.kinsol, settings.steps_per_jacobian);
  KINSetNoResMon(m.kinsol, settings.residual_monitor ? SUNFALSE : SUNTRUE);
}

KinsolSolver::~KinsolSolver() = default;

bool KinsolSolver::run(std::span<double> x, bool is_final) {
  constexpr double loose_a = 1e-6;
  Memory& m = *memory_;
  if (is_final) {
    std::copy(m.final_scale.begin(), m.final_scale.end(), values(m.balance_scale).begin());
  } else {
    N_VConst(1.0 / loose_a, m.balance_scale);
  }
  std::copy(x.begin(), x.end(), values(m.x).begin());
  const int strategy = settings_.line_search ? KIN_LINESEARCH : KIN_NONE;
  const int flag = KINSol(m.kinsol, m.x, strategy, m.x_scale, m.balance_scale);
  long steps = 0;
  KINGetNumNonlinSolvIters(m.kinsol, &steps);
  steps_ += steps;
  std::copy_n(values(m.x).begin(), x.size(), x.begin());
  return flag >= 0;
}

bool KinsolSolver::solve(std::span<double> x) {
  steps_ = 0;
  return run(x, true);
}

bool KinsolSolver::solve_by_stepping(std::span<double> x) {
  constexpr double shortest_rung = 1e-6;
  constexpr long most_steps = 1000;
  std::fill(x.begin(), x.end(), 0.0);
  std::vector<double> last(x.begin(), x.end());
  steps_ = 0;
  double reached = 0.0;
  double rung = settings_.first_source_rung;
  while (reached < 1.0) {
    const double next = std::min(1.0, reached + rung);
    equations_.set_sources(next);
    if (run(x, next == 1.0)) {
      reached = next;
      rung *= 2.0;
      std::copy(x.begin(), x.end(), last.begin());
    } else {
      rung = (next - reached) / 4.0;
      std::copy(last.begin(), last.end(), x.begin());
    }
    if (rung < shortest_rung || steps_ > most_steps) return false;
  }
  return true;
}

}  // namespace idlepoint::benchmarks
