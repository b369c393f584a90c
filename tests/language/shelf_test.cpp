// Oracle: docs/language.md on `types shelf`.
#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <string>

#include "complaints/render.hpp"
#include "language/reading.hpp"

namespace idlepoint::language {
namespace {

// A shelf of two files in a folder of its own, of this process alone, taken away again at the end.
class ShelfFolder {
 public:
  ShelfFolder()
      : folder_(std::filesystem::temp_directory_path() /
                ("idlepoint-shelf-test-" + std::to_string(::getpid()))) {
    std::filesystem::create_directories(folder_);
    write("a.types", "type npn small saturation_current=1fA gain=100\n");
    write("b.types", "type pnp large saturation_current=1pA gain=40\n");
    write("notes.txt", "this is no types file\n");
  }
  ShelfFolder(const ShelfFolder&) = delete;
  ShelfFolder& operator=(const ShelfFolder&) = delete;
  ~ShelfFolder() { std::filesystem::remove_all(folder_); }

  void write(const char* name, const char* text) const { std::ofstream(folder_ / name) << text; }

  [[nodiscard]] ReadOptions options() const {
    ReadOptions options;
    options.shelf_folder = folder_.string();
    return options;
  }
  [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }

 private:
  std::filesystem::path folder_;
};

const char* const part_line = "npn Q1 c=vpos b=x e=gnd type=small\n";

// Rendered; the complaints of a stage that asks for a type of the shelf.
std::string said_with(const ReadOptions& options) {
  const auto read =
      read_stage(around(std::string("types shelf\n") + part_line), "t.stage", options);
  return complaints::render(read ? read->warnings : read.complaints());
}

}  // namespace

TEST_CASE("A stage takes from the shelf what it asks for, and no more", "[language][identity]") {
  const ShelfFolder shelf;
  const auto read =
      read_stage(around(std::string("types shelf\n") + part_line), "t.stage", shelf.options());
  REQUIRE(read.has_value());
  REQUIRE(read->circuit.types.size() == 1);
  CHECK(read->circuit.types[0].name == "small");
}

TEST_CASE("Without the line the shelf is only pointed to", "[language][identity]") {
  const ShelfFolder shelf;
  const auto read = read_stage(around(part_line), "t.stage", shelf.options());
  REQUIRE_FALSE(read.has_value());
  CHECK_THAT(read.complaints().at(0).instead, Catch::Matchers::Contains("`types shelf`"));
}

TEST_CASE("A near miss is answered with the shelf's name, and with the line that opens the shelf",
          "[language][identity]") {
  const ShelfFolder shelf;
  const std::string slip = "pnp Q1 c=gnd b=x e=vpos type=larg\n";
  const auto without = read_stage(around(slip), "t.stage", shelf.options());
  REQUIRE_FALSE(without.has_value());
  CHECK_THAT(without.complaints().at(0).instead,
             Catch::Matchers::Contains("`large`") && Catch::Matchers::Contains("`types shelf`"));
  const auto with = read_stage(around("types shelf\n" + slip), "t.stage", shelf.options());
  REQUIRE_FALSE(with.has_value());
  CHECK_THAT(with.complaints().at(0).instead,
             Catch::Matchers::Contains("`large`") && !Catch::Matchers::Contains("`types shelf`"));
}

TEST_CASE("A type of the stage wins over one of the shelf", "[language][identity]") {
  const ShelfFolder shelf;
  const std::string own = "type npn small saturation_current=1fA gain=7\n";
  const auto read = read_stage(
      around(std::string("types shelf\n") + part_line + own), "t.stage", shelf.options());
  REQUIRE(read.has_value());
  CHECK(std::get<devices::BipolarData>(read->circuit.types.at(0).law).gain == 7.0);
}

TEST_CASE("Types wanted by the command line come from the shelf too, `*` is all of it",
          "[language][identity]") {
  const ShelfFolder shelf;
  ReadOptions options = shelf.options();
  options.wanted_types = {"large"};
  const auto one = read_stage(around(""), "t.stage", options);
  REQUIRE(one.has_value());
  CHECK(one->circuit.types.size() == 1);
  options.wanted_types = {"*"};
  const auto all = read_stage(around(""), "t.stage", options);
  REQUIRE(all.has_value());
  CHECK(all->circuit.types.size() == 2);
  options.wanted_types = {"lrge"};
  const auto none = read_stage(around(""), "t.stage", options);
  REQUIRE_FALSE(none.has_value());
  CHECK_THAT(none.complaints().at(0).instead, Catch::Matchers::Contains("`large`"));
}

TEST_CASE("A shelf that is not where it should be is missed once, at the line that asks for it",
          "[language][identity]") {
  ReadOptions options;
  options.shelf_folder = "/nowhere/idlepoint/shelf";
  const auto read =
      read_stage(around(std::string("types shelf\n") + part_line), "t.stage", options);
  REQUIRE_FALSE(read.has_value());
  REQUIRE(read.complaints().size() == 1);
  CHECK(read.complaints()[0].places[0].file == "t.stage");
  CHECK_THAT(read.complaints()[0].headline, Catch::Matchers::Contains("is not there"));
  CHECK_THAT(said_with({}), Catch::Matchers::Contains("is not installed"));
}

TEST_CASE("A substitute asked of a missing shelf is answered with the folder",
          "[language][identity]") {
  ReadOptions options;
  options.shelf_folder = "/nowhere/idlepoint/shelf";
  options.wanted_types = {GENERATE("large", "*")};
  const auto read = read_stage(around(""), "t.stage", options);
  REQUIRE_FALSE(read.has_value());
  REQUIRE(read.complaints().size() == 1);
  CHECK(read.complaints()[0].places[0].file == options.shelf_folder);
}

TEST_CASE("A stage that needs nothing of the shelf does not miss it", "[language][identity]") {
  ReadOptions options;
  options.shelf_folder = "/nowhere/idlepoint/shelf";
  CHECK(read_stage(around("types shelf\n"), "t.stage", options).has_value());
}

TEST_CASE("What is broken on the shelf is complained of", "[language][identity]") {
  const ShelfFolder shelf;
  SECTION("a name that stands twice") {
    shelf.write("c.types", "type npn small saturation_current=2fA gain=200\n");
    CHECK_THAT(said_with(shelf.options()), Catch::Matchers::Contains("stands twice on the shelf"));
  }
  SECTION("a statement that is no type") {
    shelf.write("c.types", "resistor R1 a b 1k\n");
    CHECK_THAT(said_with(shelf.options()), Catch::Matchers::Contains("does not belong"));
  }
  SECTION("a file that cannot be read") {
    std::filesystem::create_directory(shelf.folder() / "c.types");
    CHECK_THAT(said_with(shelf.options()), Catch::Matchers::Contains("is a directory"));
  }
  SECTION("a folder without types") {
    std::filesystem::remove(shelf.folder() / "a.types");
    std::filesystem::remove(shelf.folder() / "b.types");
    CHECK_THAT(said_with(shelf.options()), Catch::Matchers::Contains("holds no types file"));
  }
}

}  // namespace idlepoint::language
