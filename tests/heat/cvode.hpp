// SUNDIALS CVODE for y' = f(y), in small steps: nothing of the program is included here.
#pragma once

#include <functional>
#include <vector>

namespace idlepoint::tests {

/// `slopes` has the size of `values`.
using Slopes = std::function<void(const std::vector<double>& values, std::vector<double>& slopes)>;

/// The values at each of the ascending `times_s` > 0, from `start` at 0; empty where CVODE fails.
/// Backward differentiation, each step's error below `tolerance` times the value and `tolerance`.
[[nodiscard]] std::vector<std::vector<double>> integrate_by_cvode(
    const Slopes& slopes,
    const std::vector<double>& start,
    const std::vector<double>& times_s,
    double tolerance);

}  // namespace idlepoint::tests
