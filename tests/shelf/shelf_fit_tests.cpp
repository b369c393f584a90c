// Oracle: the points files of the shelf, fitted afresh: what stands on the shelf is what its points
// give, and every point's window holds.
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <string>
#include <vector>

#include "answers/fit.hpp"
#include "circuit/type_fields.hpp"
#include "complaints/render.hpp"
#include "language/read_points.hpp"
#include "shelf/shelf_types.hpp"

namespace idlepoint::shelf {
namespace {

namespace fs = std::filesystem;
using Catch::Matchers::WithinRel;
using circuit::PartType;

// The shelf holds what `fit` prints: its figures are rounded there.
constexpr double as_written = 2e-3;

std::vector<fs::path> points_files() {
  std::vector<fs::path> found;
  for (const auto& entry :
       fs::recursive_directory_iterator(IDLEPOINT_SOURCE_DIR "/netlists/shelf")) {
    if (entry.path().extension() == ".points") found.push_back(entry.path());
  }
  std::sort(found.begin(), found.end());
  return found;
}

circuit::TypePoints points_of(const fs::path& path) {
  auto read = language::read_points_file(path.string());
  if (!read) FAIL(complaints::render(read.complaints()));
  return *std::move(read);
}

void check_same(const std::optional<double>& shelf, const std::optional<double>& fresh) {
  CHECK(shelf.has_value() == fresh.has_value());
  if (shelf && fresh) CHECK_THAT(*shelf, WithinRel(*fresh, as_written));
}

template <class Data>
void check_law(const PartType& shelf,
               const PartType& fresh,
               std::span<const circuit::TypeField<Data>> fields) {
  for (const auto& field : fields) {
    if (!circuit::belongs(field.only, shelf.kind)) continue;
    CAPTURE(field.name);
    check_same(circuit::field_value(shelf, field.name), circuit::field_value(fresh, field.name));
  }
}

void check_spreads(const PartType& shelf, const PartType& fresh) {
  CHECK(shelf.spreads.size() == fresh.spreads.size());
  for (const auto& [field, ends] : fresh.spreads) {
    CAPTURE(field);
    REQUIRE(shelf.spreads.contains(field));
    check_same(shelf.spreads.at(field).min, ends.min);
    check_same(shelf.spreads.at(field).max, ends.max);
  }
}

void check_ratings(const PartType& shelf, const PartType& fresh) {
  for (const circuit::RatingField& field : circuit::rating_fields(shelf.kind)) {
    CAPTURE(field.name);
    const auto rating = [&field](const PartType& type) {
      return std::visit(
          [&type](auto member) { return std::optional<double>(type.ratings.*member); },
          field.member);
    };
    check_same(rating(shelf), rating(fresh));
  }
  CHECK(shelf.ratings.case_style == fresh.ratings.case_style);
  CHECK(shelf.source == fresh.source);
}

}  // namespace

TEST_CASE("Every type of the shelf is what its points give", "[shelf][identity][heavy]") {
  const std::vector<fs::path> files = points_files();
  CHECK(files.size() == all_types().size());
  for (const fs::path& path : files) {
    CAPTURE(path.string());
    const circuit::TypePoints asked = points_of(path);
    CHECK(asked.type.name == path.stem().string());
    const answers::TypeFit fit = answers::ask_fit(asked);
    CHECK(answers::is_good(fit));
    for (const answers::FitPoint& point : fit.points) {
      CAPTURE(point.text);
      CHECK(point.holds.value_or(true));
    }
    const PartType& shelf = type_named(asked.type.name);
    REQUIRE(shelf.kind == fit.type.kind);
    if (shelf.kind == circuit::PartKind::diode) {
      check_law(shelf, fit.type, circuit::diode_fields());
    } else {
      check_law(shelf, fit.type, circuit::bipolar_fields());
    }
    check_spreads(shelf, fit.type);
    check_ratings(shelf, fit.type);
  }
}

}  // namespace idlepoint::shelf
