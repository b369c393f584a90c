#include "language/reading.hpp"

#include <catch2/catch.hpp>
#include <utility>

#include "complaints/render.hpp"

namespace idlepoint::language {
namespace {

complaints::Complaints complaints_of(const std::string& text, const Files& files) {
  const auto read = read_stage(text, "test.stage", in_memory(files));
  return read ? read->warnings : read.complaints();
}

}  // namespace

ReadOptions in_memory(Files files) {
  ReadOptions options;
  options.files = [held = std::move(files)](const std::string& path) -> FileText {
    const auto file = held.find(path);
    if (file == held.end()) return FileTrouble{"is not among the files of this test"};
    return file->second;
  };
  return options;
}

ReadOptions in_project() {
  ReadOptions options;
  options.files = [](const std::string& path) {
    return read_from_disk(std::string(IDLEPOINT_SOURCE_DIR) + "/" + path);
  };
  return options;
}

circuit::Circuit sound(const std::string& text, const Files& files) {
  const auto read = read_stage(text, "test.stage", in_memory(files));
  if (!read) FAIL(complaints::render(read.complaints()));
  return read->circuit;
}

std::string said_of(const std::string& text, const Files& files) {
  return complaints::render(complaints_of(text, files));
}

std::string kinds_of(const std::string& text, const Files& files) {
  std::string kinds;
  for (const complaints::Complaint& complaint : complaints_of(text, files)) {
    const complaints::Place& place = complaint.places.front();
    if (!kinds.empty()) kinds += " ";
    kinds += std::string(complaints::facts(complaint.kind).name) + "@" +
             std::to_string(place.line) + ":" + std::to_string(place.column);
  }
  return kinds;
}

const circuit::Part& part(const circuit::Circuit& circuit, const std::string& name) {
  const auto id = circuit::find_part(circuit, name);
  REQUIRE(id);
  return circuit.at(*id);
}

std::string node_at(const circuit::Circuit& circuit, const std::string& name, std::size_t lead) {
  const auto node = circuit::lead(part(circuit, name), lead);
  return node ? circuit.at(*node).name : "-";
}

std::string around(const std::string& statements) {
  return "rail vpos +28V\nresistor R1 vpos x 1k\nresistor R2 x gnd 1k\n" + statements;
}

}  // namespace idlepoint::language
