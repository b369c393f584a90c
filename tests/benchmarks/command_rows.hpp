// The rows of the whole command: time against an empty program, peak memory.
#pragma once

#include <string>

#include "benchmarks/rows.hpp"

namespace idlepoint::benchmarks {

void print_command_rows(const std::string& file, const Effort& effort);

}  // namespace idlepoint::benchmarks
