#include "heat/cvode.hpp"

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include <algorithm>

namespace idlepoint::tests {
namespace {

int slopes_of(double, N_Vector values, N_Vector slopes, void* data) {
  const auto size = static_cast<std::size_t>(N_VGetLength(values));
  const double* at = N_VGetArrayPointer(values);
  std::vector<double> result(size);
  (*static_cast<const Slopes*>(data))({at, at + size}, result);
  std::copy(result.begin(), result.end(), N_VGetArrayPointer(slopes));
  return 0;
}

class Cvode {
 public:
  Cvode(const Slopes& slopes, const std::vector<double>& start, double tolerance)
      : slopes_(slopes), size_(start.size()) {
    const auto size = static_cast<sunindextype>(size_);
    SUNContext_Create(nullptr, &context_);
    values_ = N_VNew_Serial(size, context_);
    std::copy(start.begin(), start.end(), N_VGetArrayPointer(values_));
    matrix_ = SUNDenseMatrix(size, size, context_);
    linear_ = SUNLinSol_Dense(values_, matrix_, context_);
    cvode_ = CVodeCreate(CV_BDF, context_);
    CVodeInit(cvode_, slopes_of, 0.0, values_);
    CVodeSetUserData(cvode_, &slopes_);
    CVodeSStolerances(cvode_, tolerance, tolerance);
    CVodeSetLinearSolver(cvode_, linear_, matrix_);
    CVodeSetMaxNumSteps(cvode_, 100000);
  }
  ~Cvode() {
    CVodeFree(&cvode_);
    SUNLinSolFree(linear_);
    SUNMatDestroy(matrix_);
    N_VDestroy(values_);
    SUNContext_Free(&context_);
  }
  Cvode(const Cvode&) = delete;
  Cvode& operator=(const Cvode&) = delete;

  bool go_to(double seconds) {
    double reached_s = 0.0;
    CVodeSetStopTime(cvode_, seconds);
    return CVode(cvode_, seconds, values_, &reached_s, CV_NORMAL) >= 0;
  }

  [[nodiscard]] std::vector<double> values() const {
    const double* at = N_VGetArrayPointer(values_);
    return {at, at + size_};
  }

 private:
  Slopes slopes_;
  std::size_t size_;
  SUNContext context_ = nullptr;
  N_Vector values_ = nullptr;
  SUNMatrix matrix_ = nullptr;
  SUNLinearSolver linear_ = nullptr;
  void* cvode_ = nullptr;
};

}  // namespace

std::vector<std::vector<double>> integrate_by_cvode(const Slopes& slopes,
                                                    const std::vector<double>& start,
                                                    const std::vector<double>& times_s,
                                                    double tolerance) {
  Cvode cvode(slopes, start, tolerance);
  std::vector<std::vector<double>> result;
  for (const double seconds : times_s) {
    if (!cvode.go_to(seconds)) return {};
    result.push_back(cvode.values());
  }
  return result;
}

}  // namespace idlepoint::tests
