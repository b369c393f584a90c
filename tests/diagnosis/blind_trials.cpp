// The blind trials of the diagnosis: prints, a stage, how often the true fault came first.
//
//   idlepoint_blind_trials [--trials N] [--seed S] [--even] [--healthy] [--tell] STAGE ...
#include <fmt/format.h>

#include <chrono>
#include <cstdlib>
#include <cstring>

#include "complaints/render.hpp"
#include "diagnosis/trial.hpp"
#include "language/read_stage.hpp"

namespace idlepoint::tests {
namespace {

struct Asked {
  std::uint64_t trials = 100;
  std::uint64_t first = 0;
  std::uint64_t seed = 1;
  DrawnBy drawn = DrawnBy::odds;
  bool tell = false;
  std::vector<std::string> stages;
};

struct Count {
  int done = 0;  ///< With a fault.
  int sound = 0;
  int sound_called_so = 0;
  int unread = 0;
  int first = 0;
  int first_three = 0;
  int as_healthy = 0;
  int sure = 0;
  int measurements = 0;
  int within_five = 0;
  InTheEighties in_the_eighties;
};

void add(Count& count, const TrialResult& result) {
  count.in_the_eighties.said += result.in_the_eighties.said;
  count.in_the_eighties.right += result.in_the_eighties.right;
  count.in_the_eighties.foretold += result.in_the_eighties.foretold;
  if (result.fault == "healthy") {
    ++count.sound;
    count.sound_called_so += result.is_first ? 1 : 0;
    return;
  }
  ++count.done;
  count.first += result.is_first ? 1 : 0;
  count.first_three += result.is_in_first_three ? 1 : 0;
  count.as_healthy += result.is_grouped_with_healthy ? 1 : 0;
  if (result.measurements) {
    ++count.sure;
    count.measurements += *result.measurements;
    count.within_five += *result.measurements <= 5 ? 1 : 0;
  }
}

double percent(int part, int whole) {
  return whole == 0 ? 0.0 : 100.0 * static_cast<double>(part) / static_cast<double>(whole);
}

void tell(const std::string& name, const Count& count, double seconds) {
  const InTheEighties& eighties = count.in_the_eighties;
  fmt::print(
      "{:<24} {} faults: first {:.1f} %, first three {:.1f} %, above 90 % in {:.1f} % after {:.2f} "
      "measurements, in {:.1f} % within five; no reading tells it from a sound stage in {:.1f} %; "
      "80 to 90 % said {} times "
      "(mean {:.1f} %), right {:.1f} %; "
      "{} sound, called so {:.1f} %; {} without a state; {:.0f} ms a trial\n",
      name,
      count.done,
      percent(count.first, count.done),
      percent(count.first_three, count.done),
      percent(count.sure, count.done),
      count.sure == 0 ? 0.0 : static_cast<double>(count.measurements) / count.sure,
      percent(count.within_five, count.done),
      percent(count.as_healthy, count.done),
      eighties.said,
      eighties.said == 0 ? 0.0 : 100.0 * eighties.foretold / eighties.said,
      percent(eighties.right, eighties.said),
      count.sound,
      percent(count.sound_called_so, count.sound),
      count.unread,
      1e3 * seconds / std::max(1, count.done + count.sound));
  std::fflush(stdout);
}

int run_stage(const std::string& path, const Asked& asked) {
  language::ReadOptions options;
  options.shelf_folder = std::string(IDLEPOINT_SOURCE_DIR) + "/netlists/shelf";
  options.wanted_types = {"*"};
  auto read = language::read_stage_file(path, options);
  if (!read) {
    fmt::print(stderr, "{}\n", complaints::render(read.complaints()));
    return EXIT_FAILURE;
  }
  auto checked = circuit::check_circuit(std::move(read).value().circuit);
  if (!checked) return EXIT_FAILURE;
  Trials trials(checked.value());
  Count count;
  const auto began = std::chrono::steady_clock::now();
  for (std::uint64_t number = asked.first; number < asked.first + asked.trials; ++number) {
    const auto result = trials.run(asked.drawn, asked.seed, number);
    if (!result) {
      ++count.unread;
      continue;
    }
    add(count, *result);
    if (!asked.tell) continue;
    fmt::print(
        "{:4} {} {} truth {:<28} said {} ({:.2f}), measured {}, in the eighties {} right {} "
        "sum {:.3f}{}: {}\n",
        number,
        result->is_first ? "right" : "WRONG",
        result->is_in_first_three ? "in3" : "out",
        result->fault,
        result->top,
        result->top_probability,
        result->measurements ? std::to_string(*result->measurements) : "-",
        result->in_the_eighties.said,
        result->in_the_eighties.right,
        result->in_the_eighties.foretold,
        result->is_grouped_with_healthy ? ", as a sound stage" : "",
        result->asked);
    std::fflush(stdout);
  }
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - began;
  tell(path.substr(path.rfind('/') + 1), count, took.count());
  return EXIT_SUCCESS;
}

int run(const Asked& asked) {
  for (const std::string& stage : asked.stages) {
    if (const int status = run_stage(stage, asked); status != EXIT_SUCCESS) return status;
  }
  return EXIT_SUCCESS;
}

}  // namespace
}  // namespace idlepoint::tests

int main(int count, char** words) {
  idlepoint::tests::Asked asked;
  for (int k = 1; k < count; ++k) {
    const std::string word = words[k];
    const auto number = [&] { return std::strtoull(words[++k], nullptr, 10); };
    if (word == "--trials" && k + 1 < count) {
      asked.trials = number();
    } else if (word == "--first" && k + 1 < count) {
      asked.first = number();
    } else if (word == "--seed" && k + 1 < count) {
      asked.seed = number();
    } else if (word == "--even") {
      asked.drawn = idlepoint::tests::DrawnBy::evenly;
    } else if (word == "--healthy") {
      asked.drawn = idlepoint::tests::DrawnBy::healthy;
    } else if (word == "--tell") {
      asked.tell = true;
    } else {
      asked.stages.push_back(word);
    }
  }
  return idlepoint::tests::run(asked);
}
