// Oracle: the order in which a person reads files, lines and columns.
#include <catch2/catch.hpp>

#include "complaints/complaint.hpp"

namespace idlepoint::complaints {
namespace {

Complaint at(std::string file,
             int line,
             int column,
             std::string headline,
             std::string_view name = "unknown-key") {
  return {.kind = kind(name),
          .headline = std::move(headline),
          .places = {{.file = std::move(file),
                      .line = line,
                      .column = column,
                      .line_text = {},
                      .remark = {}}},
          .why = {},
          .instead = {}};
}

}  // namespace

TEST_CASE("Complaints stand in the order of files, lines and columns", "[complaints][identity]") {
  Complaints list = {at("b.stage", 2, 1, "third"),
                     at("a.types", 1, 1, "fifth"),
                     at("b.stage", 1, 9, "second"),
                     at("b.stage", 1, 2, "first"),
                     at("b.stage", 10, 1, "fourth")};
  sort_by_place(list);
  std::vector<std::string> order;
  for (const Complaint& complaint : list) order.push_back(complaint.headline);
  CHECK(order == std::vector<std::string>{"first", "second", "third", "fourth", "fifth"});
}

TEST_CASE("The same thing is said once, another thing of the same place too",
          "[complaints][identity]") {
  Complaints list = {at("a", 1, 1, "x"), at("a", 1, 1, "y"), at("a", 1, 1, "x")};
  sort_by_place(list);
  REQUIRE(list.size() == 2);
  CHECK(list[0].headline == "x");
  CHECK(list[1].headline == "y");
}

TEST_CASE("A warning stops nothing, a slip in the text is unreadable", "[complaints][identity]") {
  const Complaints warning = {at("a", 1, 1, "x", "rail-sign")};
  CHECK_FALSE(has_error(warning));
  CHECK_FALSE(has_unreadable(warning));
  const Complaints drawing = {at("a", 1, 1, "x", "rail-sign"), at("a", 1, 1, "x", "blank")};
  CHECK(has_error(drawing));
  CHECK_FALSE(has_unreadable(drawing));
  const Complaints text = {at("a", 1, 1, "x", "decimal-comma")};
  CHECK(has_error(text));
  CHECK(has_unreadable(text));
  CHECK_FALSE(has_error({}));
}

TEST_CASE("Every kind is found by its name", "[complaints][identity]") {
  for (const KindFacts& expected : all_kinds()) {
    CHECK(facts(kind(expected.name)).name == expected.name);
  }
}

}  // namespace idlepoint::complaints
