// Feeds the reader with any bytes, and what it accepts to the writer and back.
//
// Built by the preset `fuzz` (clang). A crash, a sanitizer's report, or a circuit that does not
// read back from its own text is a find. Files named by the text are answered with small ones, so
// that nothing on the disk is touched. The same bytes are read as a job.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

#include "complaints/render.hpp"
#include "language/bench_reading_text.hpp"
#include "language/fault_text.hpp"
#include "language/read_job.hpp"
#include "language/read_stage.hpp"
#include "language/write_stage.hpp"

namespace {

using namespace idlepoint;

language::FileText one_small_file(const std::string& path) {
  if (path.ends_with(".types")) return "type npn t saturation_current=10fA gain=100\n";
  if (path.ends_with(".stage")) {
    return "rail vpos 28V\nresistor R1 vpos gnd 1k\nreading upper volts vpos gnd\n";
  }
  return language::FileTrouble{"is not there"};
}

void read_back(const circuit::Circuit& circuit) {
  if (!circuit.blanks.empty()) return;
  const std::string text = language::write_stage(circuit);
  const auto again = language::read_stage(text, "again.stage");
  if (!again || language::write_stage(again->circuit) != text) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  language::ReadOptions options;
  options.files = one_small_file;
  const auto job = language::read_job(text, "fuzz.job", options);
  if (!job) static_cast<void>(complaints::render(job.complaints()));
  const auto read = language::read_stage(text, "fuzz.stage", options);
  if (!read) {
    static_cast<void>(complaints::render(read.complaints()));
    return 0;
  }
  read_back(read->circuit);
  const std::string line = text.substr(0, text.find('\n'));
  static_cast<void>(language::read_fault(line, read->circuit));
  static_cast<void>(language::read_probe(line, read->circuit));
  static_cast<void>(language::read_bench_reading(line, read->circuit));
  return 0;
}
