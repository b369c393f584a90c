#include "shelf/shelf_types.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <iterator>
#include <regex>

#include "complaints/render.hpp"
#include "language/read_stage.hpp"

namespace idlepoint::shelf {

const std::vector<circuit::PartType>& all_types() {
  static const std::vector<circuit::PartType> types = [] {
    language::ReadOptions options;
    options.shelf_folder = IDLEPOINT_SOURCE_DIR "/netlists/shelf";
    options.wanted_types = {"*"};
    auto read =
        language::read_stage("stage \"A shelf\"\nresistor R1 a gnd 1k\n", "t.stage", options);
    if (!read) FAIL(complaints::render(read.complaints()));
    return read->circuit.types;
  }();
  return types;
}

const circuit::PartType& type_named(std::string_view name) {
  const auto& types = all_types();
  const auto found = std::find_if(
      types.begin(), types.end(), [name](const auto& type) { return type.name == name; });
  if (found == types.end()) FAIL("the shelf has no " << name);
  return *found;
}

std::vector<circuit::PartType> types_matching(std::string_view names) {
  const std::regex pattern{std::string(names)};
  std::vector<circuit::PartType> found;
  std::copy_if(all_types().begin(),
               all_types().end(),
               std::back_inserter(found),
               [&pattern](const auto& type) { return std::regex_match(type.name, pattern); });
  if (found.empty()) FAIL("the shelf has nothing called " << names);
  return found;
}

}  // namespace idlepoint::shelf
