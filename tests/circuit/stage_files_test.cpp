// Oracle: the stage files that are known to work draw no error; in the words of a fault, reading
// undoes writing.
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>

#include "circuit/topology.hpp"
#include "circuit/topology_graph.hpp"
#include "language/fault_text.hpp"
#include "language/read_stage.hpp"

namespace idlepoint::circuit {
namespace {

/// Every stage file of a folder under netlists/, in order of name.
std::vector<std::string> stage_files(const std::string& folder) {
  std::vector<std::string> paths;
  const auto root = std::filesystem::path(IDLEPOINT_SOURCE_DIR) / "netlists" / folder;
  for (const auto& entry : std::filesystem::directory_iterator(root)) {
    if (entry.path().extension() == ".stage") paths.push_back(entry.path().generic_string());
  }
  std::ranges::sort(paths);
  REQUIRE_FALSE(paths.empty());
  return paths;
}

Circuit circuit_of(const std::string& path) {
  CAPTURE(path);
  auto read = language::read_stage_file(path);
  REQUIRE(read.has_value());
  return (*std::move(read)).circuit;
}

}  // namespace

TEST_CASE("No demonstration stage draws a complaint", "[circuit][published]") {
  for (const std::string& path : stage_files("")) {
    CAPTURE(path);
    const auto found = check_topology(circuit_of(path));
    std::vector<std::string> headlines;
    for (const auto& complaint : found) headlines.push_back(complaint.headline);
    CHECK(headlines == std::vector<std::string>{});
  }
}

TEST_CASE("No published circuit draws an error", "[circuit][published]") {
  for (const std::string& path : stage_files("published")) {
    CAPTURE(path);
    CHECK_FALSE(complaints::has_error(check_topology(circuit_of(path))));
  }
}

TEST_CASE("Every listed fault reads back to the fault that was written", "[circuit][identity]") {
  for (const std::string& path : stage_files("")) {
    const Circuit circuit = circuit_of(path);
    for (const Edit& edit : every_open_and_short(circuit)) {
      const std::string text = write_fault(circuit, edit);
      CAPTURE(path, text);
      const auto read = language::read_fault(text, circuit);
      REQUIRE(read.has_value());
      CHECK(write_fault(circuit, *read) == text);
      CHECK(read->index() == edit.index());
    }
  }
}

TEST_CASE("The demonstration stages know their outputs without being told",
          "[circuit][published]") {
  std::size_t told = 0;
  for (const std::string& path : stage_files("")) {
    Circuit circuit = circuit_of(path);
    if (!circuit.signal.output) continue;
    ++told;
    const NodeId written = *circuit.signal.output;
    circuit.signal.output.reset();
    CAPTURE(path);
    // An inductor or a fuse may lie between; a capacitor may not.
    CHECK(is_close(trace_wiring(circuit), output_node(circuit), written));
  }
  CHECK(told > 0);
}

}  // namespace idlepoint::circuit
