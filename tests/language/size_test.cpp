// Oracle: the clock, and the rule that no file, however odd, makes the reader wait or fall.
#include <catch2/catch.hpp>
#include <chrono>
#include <ctime>
#include <functional>
#include <random>

#include "complaints/render.hpp"
#include "language/reading.hpp"

namespace idlepoint::language {
namespace {

// Processor seconds, so that a busy machine is not taken for a slow reader; the bounds are ten
// times what was measured, and a quadratic reader would need minutes.
struct Answer {
  std::size_t complaints;
  double seconds;
};

Answer answer(const std::string& text) {
  const std::clock_t start = std::clock();
  const auto read = read_stage(text, "test.stage", in_memory({}));
  const double seconds = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
  return {read ? read->warnings.size() : read.complaints().size(), seconds};
}

std::string lines(int count, const std::function<std::string(const std::string&)>& line) {
  std::string text;
  for (int index = 0; index < count; ++index) text += line(std::to_string(index)) + "\n";
  return text;
}

constexpr double patience_s = 5.0;

}  // namespace

TEST_CASE("Ten thousand slips of each sort are answered at once", "[language][identity]") {
  const std::string sound =
      lines(10'000, [](const auto& i) { return "resistor R" + i + " n" + i + " gnd 1k"; });
  const std::pair<const char*, std::string> texts[] = {
      {"statements", lines(10'000, [](const auto& i) { return "resitor R" + i + " a b 1k"; })},
      {"values", lines(10'000, [](const auto& i) { return "resistor R" + i + " a gnd 1," + i; })},
      {"twice", lines(10'001, [](const auto&) { return "resistor R1 a gnd 1k"; })},
      {"nodes",
       sound +
           lines(10'000, [](const auto& i) { return "reading r" + i + " volts m" + i + " gnd"; })},
      {"parts",
       sound + lines(10'000, [](const auto& i) { return "reading r" + i + " amps S" + i; })},
      {"types",
       lines(10'000, [](const auto& i) { return "npn Q" + i + " c=a b=b e=c type=t" + i; })}};
  for (const auto& [name, text] : texts) {
    CAPTURE(name);
    const Answer got = answer(text);
    CHECK(got.complaints == 10'000);
    CHECK(got.seconds < patience_s);
  }
}

TEST_CASE("Five megabytes of anything are answered at once", "[language][identity]") {
  constexpr std::size_t size = 5'000'000;
  const auto repeated = [](const std::string& piece) {
    std::string text;
    text.reserve(size + piece.size());
    while (text.size() < size) text += piece;
    return text;
  };
  const std::pair<const char*, std::string> texts[] = {
      {"one line of pairs", "resistor R1 a gnd 1k " + repeated("x=1 ")},
      {"one line of words", "resistor R1 a gnd 1k " + repeated("yy ")},
      {"one name", "resistor " + repeated("R") + " a gnd 1k"},
      {"one value", "resistor R1 a gnd " + repeated("1")},
      {"one comma after another", "resistor R1 a gnd " + repeated("1,")},
      {"one quote", "stage \"" + repeated("\\\"")},
      {"one comment", "#" + repeated("x")},
      {"short lines", repeated("x\n")},
      {"blank lines", repeated("\n")},
      {"continuations", "stage x\n" + repeated(" y\n")},
      {"equals", repeated("= ")},
      {"lead references", "link L1 a b\n" + repeated("link L1 L1.1 L1.2\n")},
      {"zeros", std::string(size, '\0')}};
  for (const auto& [name, text] : texts) {
    CAPTURE(name);
    const Answer got = answer(text);
    CHECK(got.complaints <= 20'001);
    CHECK(got.seconds < patience_s);
  }
}

TEST_CASE("Bytes made by chance are answered, whatever they are", "[language][identity]") {
  std::mt19937 generator(3);
  for (int round = 0; round < 300; ++round) {
    std::string text;
    const std::size_t size = generator() % 400;
    for (std::size_t at = 0; at < size; ++at) text += static_cast<char>(generator() % 256);
    const auto read = read_stage(text, "test.stage", in_memory({}));
    CHECK_FALSE(read.has_value());
    CHECK_FALSE(complaints::render(read.complaints()).empty());
  }
}

}  // namespace idlepoint::language
