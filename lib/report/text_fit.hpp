// The answer of `fit` as a types file: the statement, and in its comments what it rests on.
#pragma once

#include <string>

#include "answers/fit.hpp"
#include "report/page.hpp"

namespace idlepoint::report {

/// `statement` is the fitted type as a types file writes it; all else begins with `#`, so that the
/// whole text is a types file.
[[nodiscard]] std::string text_of(const answers::TypeFit& fit,
                                  const std::string& statement,
                                  const Page& page);

}  // namespace idlepoint::report
