// Runs a program many times and prints what each run cost: processor microseconds, peak kilobytes.
//
// A program of its own, because the peak memory that the kernel reports of a child includes what
// its parent held when it was started; this parent holds next to nothing. Called by the benchmark
// as: child_meter RUNS PROGRAM ARGUMENTS...
#include <fcntl.h>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>

int main(int argc, char** argv) {
  if (argc < 3) return 2;
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  const int runs = std::atoi(argv[1]);
  for (int run = 0; run < runs; ++run) {
    pid_t child = 0;
    if (posix_spawn(&child, argv[2], &actions, nullptr, argv + 2, environ) != 0) return 1;
    int status = 0;
    rusage usage{};
    if (wait4(child, &status, 0, &usage) != child) return 1;
    const auto microseconds = [](const timeval& time) {
      return static_cast<long>(time.tv_sec) * 1'000'000 + static_cast<long>(time.tv_usec);
    };
    std::printf("%d %ld %ld\n",
                WIFEXITED(status) ? WEXITSTATUS(status) : -1,
                microseconds(usage.ru_utime) + microseconds(usage.ru_stime),
                usage.ru_maxrss);
  }
  return 0;
}
