// Oracle: the ratings that the makers' data sheets print (sheet_table.cpp), and the identity that
// ties them together: largest power = (largest junction temperature - 25 C) / thermal resistance.
#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>
#include <regex>
#include <set>

#include "shelf/sheet_table.hpp"
#include "shelf/shelf_types.hpp"

namespace idlepoint::shelf {
namespace {

using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;
using circuit::PartKind;
using circuit::PartType;

constexpr double zero_c_in_k = 273.15;
constexpr double as_printed = 1e-9;

bool is_diode(const PartType& type) { return type.kind == PartKind::diode; }

std::string_view kind_word(const PartType& type) {
  if (is_diode(type)) return "diode";
  return type.kind == PartKind::npn ? "npn" : "pnp";
}

double power_w(std::string_view name) { return type_named(name).ratings.max_power_w.value(); }
double junction_c(std::string_view name) {
  return type_named(name).ratings.max_junction_temperature_k - zero_c_in_k;
}
double to_case_k_per_w(std::string_view name) {
  return type_named(name).ratings.junction_to_case_k_per_w.value();
}

void check_printed(std::optional<double> value, double printed) {
  if (printed <= 0.0) return;
  REQUIRE(value.has_value());
  CHECK_THAT(*value, WithinRel(printed, as_printed));
}

}  // namespace

TEST_CASE("The shelf holds every type and gain group of the table, and no other",
          "[shelf][published]") {
  std::set<std::string> wanted;
  for (const Limits& row : all_limits()) wanted.emplace(row.name);
  for (const std::string_view name : gain_groups()) wanted.emplace(name);
  std::set<std::string> held;
  for (const PartType& type : all_types()) held.insert(type.name);
  CHECK(held == wanted);
  CHECK(held.size() == all_types().size());
}

TEST_CASE("The ratings of the shelf are those of the sheets", "[shelf][published]") {
  for (const PartType& type : all_types()) {
    CAPTURE(type.name);
    const Limits& sheet = limits_of(type.name);
    CHECK(kind_word(type) == sheet.kind);
    check_printed(type.ratings.max_voltage_v, sheet.voltage_v);
    check_printed(type.ratings.max_current_a, sheet.current_a);
    check_printed(type.ratings.max_power_w, sheet.power_w);
    check_printed(type.ratings.junction_to_case_k_per_w, sheet.to_case_k_per_w);
    check_printed(type.ratings.transition_frequency_hz, sheet.transition_mhz * 1e6);
    if (sheet.junction_c > 0.0) CHECK(junction_c(type.name) == Approx(sheet.junction_c));
    CHECK(type.ratings.transition_frequency_hz.has_value() == (sheet.transition_mhz > 0.0));
  }
}

TEST_CASE("Every type of the shelf says what it may bear, what it is and where that comes from",
          "[shelf][identity]") {
  std::ifstream file(IDLEPOINT_SOURCE_DIR "/docs/sources.md", std::ios::binary);
  const std::string sources{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  for (const PartType& type : all_types()) {
    CAPTURE(type.name);
    const circuit::Ratings& ratings = type.ratings;
    const std::string key = "[" + std::string(limits_of(type.name).sheet) + "]";
    CHECK_THAT(type.source, Contains(key));
    CHECK_THAT(sources, Contains(key));
    CHECK(ratings.max_voltage_v.has_value());
    CHECK(ratings.max_current_a.has_value());
    CHECK(ratings.max_power_w.has_value());
    CHECK((ratings.junction_to_case_k_per_w || ratings.junction_to_ambient_k_per_w));
    CHECK_FALSE(ratings.case_style.empty());
    if (is_diode(type)) continue;
    CHECK(ratings.max_base_emitter_voltage_v.has_value());
  }
}

// Within 0.5 %, the rounding of the printed thermal resistances; the sheet of the MJ15015 prints
// 180 W and 0.98 K/W, which is 0.8 % off.
TEST_CASE("Power is what heats the junction to its limit", "[shelf][identity]") {
  for (const PartType& type : all_types()) {
    CAPTURE(type.name);
    const auto to_25c = type.ratings.junction_to_case_k_per_w
                            ? type.ratings.junction_to_case_k_per_w
                            : type.ratings.junction_to_ambient_k_per_w;
    const double rise_k = junction_c(type.name) - 25.0;
    const double printed = type.name == "MJ15015" ? 1e-2 : 5e-3;
    CHECK_THAT(type.ratings.max_power_w.value(), WithinRel(rise_k / to_25c.value(), printed));
  }
}

// The derating slopes that the sheets print, W/K.
TEST_CASE("A degree more at the case takes off what the sheet says", "[shelf][published]") {
  CHECK(1.0 / to_case_k_per_w("2N3055") == Approx(0.657).epsilon(5e-3));
  CHECK(1.0 / to_case_k_per_w("2N3773") == Approx(0.855).epsilon(5e-3));
  CHECK(1.0 / to_case_k_per_w("MJ15003") == Approx(1.43).epsilon(5e-3));
  CHECK(1.0 / to_case_k_per_w("TIP41C") == Approx(0.52).epsilon(5e-3));
  CHECK(1.0 / to_case_k_per_w("TIP3055") == Approx(0.72).epsilon(5e-3));
  CHECK(1.0 / to_case_k_per_w("MJE15030") == Approx(0.40).epsilon(5e-3));
}

TEST_CASE("No safe area is made up: the sheets that were read give none, and that is said",
          "[shelf][published]") {
  for (const PartType& type : all_types()) {
    if (is_diode(type)) continue;
    CAPTURE(type.name);
    CHECK(type.ratings.safe_area.empty());
    CHECK_THAT(type.source, Contains("safe area not given"));
  }
}

// Facts of the sheets that a substitution turns on.
TEST_CASE("A TIP3055 bears the current of a 2N3055, not its watts nor its heat",
          "[shelf][published]") {
  CHECK(type_named("TIP3055").ratings.max_current_a == type_named("2N3055").ratings.max_current_a);
  CHECK(power_w("TIP3055") == Approx(90.0));
  CHECK(power_w("2N3055") == Approx(115.0));
  CHECK(junction_c("TIP3055") == Approx(150.0));
  CHECK(junction_c("2N3055") == Approx(200.0));
  CHECK(type_named("TIP3055").ratings.case_style != type_named("2N3055").ratings.case_style);
}

TEST_CASE("A MJ15003 covers a 2N3055 in volts, current and watts", "[shelf][published]") {
  const circuit::Ratings& large = type_named("MJ15003").ratings;
  const circuit::Ratings& small = type_named("2N3055").ratings;
  CHECK(large.max_voltage_v.value() >= small.max_voltage_v.value());
  CHECK(large.max_current_a.value() >= small.max_current_a.value());
  CHECK(large.max_power_w.value() >= small.max_power_w.value());
  CHECK(large.case_style == small.case_style);
}

}  // namespace idlepoint::shelf
