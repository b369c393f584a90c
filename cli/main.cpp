#include "run.hpp"

int main(int count, char** words) {
  return idlepoint::cli::run({words + (count > 0 ? 1 : 0), words + count});
}
