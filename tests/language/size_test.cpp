// Oracle: every slip that was written is counted, and no file, however odd, makes the reader fall.
// No case decides by the clock: a reader that hung would meet the test's own time limit.
#include <catch2/catch.hpp>
#include <functional>
#include <random>

#include "complaints/render.hpp"
#include "language/reading.hpp"

namespace idlepoint::language {
namespace {

std::size_t complaints_of(const std::string& text) {
  const auto read = read_stage(text, "test.stage", in_memory({}));
  return read ? read->warnings.size() : read.complaints().size();
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

}  // namespace

TEST_CASE("Slips by the thousand are all answered", "[language][identity]") {
  for (const Slips& sort : slips) {
    CAPTURE(sort.name);
    CHECK(complaints_of(sort.text(1'000)) == 1'000);
  }
}

TEST_CASE("Ten thousand slips of each sort are all answered", "[language][identity][heavy]") {
  for (const Slips& sort : slips) {
    CAPTURE(sort.name);
    CHECK(complaints_of(sort.text(10'000)) == 10'000);
  }
}

TEST_CASE("Five megabytes of anything are answered", "[language][identity][heavy]") {
  for (const Oddity& odd : oddities) {
    CAPTURE(odd.name);
    CHECK(complaints_of(odd.before + repeated(odd.piece, 5'000'000)) <= 20'001);
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
