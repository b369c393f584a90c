// Oracle: the clock, and the rule that no file, however odd, makes the reader wait or fall.
#include <catch2/catch.hpp>
#include <ctime>
#include <functional>
#include <random>

#include "complaints/render.hpp"
#include "language/reading.hpp"

namespace idlepoint::language {
namespace {

// Processor seconds, so that a busy machine is not taken for a slow reader.
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

using Line = std::function<std::string(const std::string&)>;

std::string lines(int count, const Line& line) {
  std::string text;
  for (int index = 0; index < count; ++index) text += line(std::to_string(index)) + "\n";
  return text;
}

struct Slips {
  const char* name;
  std::function<std::string(int count)> text;
};

const Slips slips[] = {
    {"statements",
     [](int n) { return lines(n, [](const auto& i) { return "resitor R" + i + " a b 1k"; }); }},
    {"values",
     [](int n) {
       return lines(n, [](const auto& i) { return "resistor R" + i + " a b 1," + i; });
     }},
    {"twice",
     [](int n) { return lines(n + 1, [](const auto&) { return "resistor R1 a gnd 1k"; }); }},
    {"nodes",
     [](int n) {
       return lines(n, [](const auto& i) {
         return "resistor R" + i + " n" + i + " gnd 1k\nreading r" + i + " volts m" + i + " gnd";
       });
     }},
    {"parts",
     [](int n) {
       return lines(n, [](const auto& i) {
         return "resistor R" + i + " n" + i + " gnd 1k\nreading r" + i + " amps S" + i;
       });
     }},
    {"types",
     [](int n) {
       return lines(n, [](const auto& i) { return "npn Q" + i + " c=a b=b e=c type=t" + i; });
     }},
    {"keys", [](int n) {
       std::string text = "resistor R1 a gnd 1k";
       for (int index = 0; index < n; ++index) text += " k" + std::to_string(index) + "=1";
       return text;
     }}};

// Text of `size` bytes and a little.
std::string repeated(const std::string& piece, std::size_t size) {
  std::string text;
  text.reserve(size + piece.size());
  while (text.size() < size) text += piece;
  return text;
}

struct Oddity {
  const char* name;
  std::string before;
  std::string piece;
};

const Oddity oddities[] = {{"one line of pairs", "resistor R1 a gnd 1k ", "x=1 "},
                           {"one line of words", "resistor R1 a gnd 1k ", "yy "},
                           {"one name", "resistor ", "R"},
                           {"one value", "resistor R1 a gnd ", "1"},
                           {"one comma after another", "resistor R1 a gnd ", "1,"},
                           {"one quote", "stage \"", "\\\""},
                           {"one comment", "#", "x"},
                           {"short lines", "", "x\n"},
                           {"blank lines", "", "\n"},
                           {"continuations", "stage x\n", " y\n"},
                           {"equals", "", "= "},
                           {"lead references", "link L1 a b\n", "link L1 L1.1 L1.2\n"},
                           {"zeros", "", std::string(1, '\0')}};

// Four times the text may take four times the time, and a little more for larger tables; a
// quadratic reader would take sixteen times.
bool is_proportional(double short_s, double long_s) { return long_s < 10.0 * short_s + 0.1; }

}  // namespace

TEST_CASE("Slips by the thousand are all answered, in proportionate time", "[language][order]") {
  for (const Slips& sort : slips) {
    CAPTURE(sort.name);
    const Answer few = answer(sort.text(1'000));
    const Answer many = answer(sort.text(4'000));
    CHECK(few.complaints == 1'000);
    CHECK(many.complaints == 4'000);
    CAPTURE(few.seconds, many.seconds);
    CHECK(is_proportional(few.seconds, many.seconds));
  }
}

TEST_CASE("Long texts of anything are answered, in proportionate time", "[language][order]") {
  for (const Oddity& odd : oddities) {
    CAPTURE(odd.name);
    const Answer few = answer(odd.before + repeated(odd.piece, 100'000));
    const Answer many = answer(odd.before + repeated(odd.piece, 400'000));
    CHECK(many.complaints <= 20'001);
    CAPTURE(few.seconds, many.seconds);
    CHECK(is_proportional(few.seconds, many.seconds));
  }
}

TEST_CASE("Ten thousand slips of each sort are answered at once", "[language][order][heavy]") {
  for (const Slips& sort : slips) {
    CAPTURE(sort.name);
    const Answer got = answer(sort.text(10'000));
    CHECK(got.complaints == 10'000);
    CHECK(got.seconds < 10.0);
  }
}

TEST_CASE("Five megabytes of anything are answered", "[language][order][heavy]") {
  for (const Oddity& odd : oddities) {
    CAPTURE(odd.name);
    const Answer got = answer(odd.before + repeated(odd.piece, 5'000'000));
    CHECK(got.complaints <= 20'001);
    CHECK(got.seconds < 20.0);
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
